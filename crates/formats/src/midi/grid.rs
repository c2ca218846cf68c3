//! From ticks to exact lengths.

use super::file::Note;
use modewright_core::Length;

/// A note in exact time, counted from the beginning of the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Placed {
    pub(super) at: Length,
    pub(super) length: Length,
    pub(super) key: u8,
}

/// Notes on their grid, and how far they were moved to it.
#[derive(Clone, Debug, Default)]
pub(super) struct Grid {
    pub(super) notes: Vec<Placed>,
    /// How many notes were moved.
    pub(super) moved: usize,
    /// The furthest move in thousandths of a crotchet.
    pub(super) most: u32,
}

/// Puts notes on a grid.
///
/// Where all beginnings stand on simple parts of a crotchet already, as a notation program writes
/// them, nothing is moved; ends that stand short of the next beginning are taken to it. Played
/// notes go to the nearest quarter of a crotchet, or third where a beat's notes stand nearer to
/// thirds. `None` where time does not fit.
pub(super) fn place(notes: &[Note], ticks: u32) -> Option<Grid> {
    let starts = notes.iter().map(|note| note.start);
    let parts = parts(starts.clone(), ticks);
    if is_plain(parts, ticks) {
        let ends = notes.iter().map(|note| note.end);
        let all = self::parts(starts.chain(ends), ticks);
        return exact(notes, ticks, parts, is_plain(all, ticks));
    }
    played(notes, ticks)
}

/// Whether all notes begin on simple parts of a crotchet, as a notation program writes them.
pub(super) fn is_written(notes: &[Note], ticks: u32) -> bool {
    is_plain(parts(notes.iter().map(|note| note.start), ticks), ticks)
}

/// The least number of parts of a crotchet on which all ticks stand.
fn parts(all: impl Iterator<Item = u64>, ticks: u32) -> u32 {
    let mut common = u64::from(ticks);
    for tick in all {
        let (mut a, mut b) = (common, tick);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        common = a;
    }
    u32::try_from(u64::from(ticks) / common.max(1)).unwrap_or(u32::MAX)
}

/// Whether a grid is one that somebody wrote: much coarser than the ticks.
const fn is_plain(parts: u32, ticks: u32) -> bool {
    parts <= 12 || parts <= ticks / 2 && parts <= 960
}

/// A time in ticks as a fraction of a semibreve.
pub(super) fn time(ticks: u64, per_crotchet: u32) -> Option<Length> {
    let whole = u32::try_from(ticks / u64::from(per_crotchet)).ok()?;
    let rest = u32::try_from(ticks % u64::from(per_crotchet)).ok()?;
    let rest = Length::new(rest, per_crotchet.checked_mul(4)?).ok()?;
    Length::new(whole, 4).ok()?.plus(rest).ok()
}

fn exact(notes: &[Note], ticks: u32, parts: u32, ends_too: bool) -> Option<Grid> {
    let mut grid = Grid::default();
    let unit = u64::from(ticks / parts.max(1)).max(1);
    for (i, note) in notes.iter().enumerate() {
        let next = notes.get(i + 1).map(|next| next.start);
        let end = if ends_too { note.end } else { whole_end(note, next, unit) };
        let at = time(note.start, ticks)?;
        let length = time(end, ticks)?.minus(at)?;
        grid.notes.push(Placed { at, length, key: note.key });
    }
    Some(grid)
}

/// Where a note ends that was let go early: at the next one where at most half of the time up to
/// it is silent, otherwise at the next place of the grid.
fn whole_end(note: &Note, next: Option<u64>, unit: u64) -> u64 {
    let round = note.start + (note.end - note.start).div_ceil(unit).max(1) * unit;
    match next {
        Some(next) if (next - note.start) <= 2 * (note.end - note.start) => next,
        Some(next) => round.min(next),
        None => round,
    }
}

/// Quarters of a crotchet for played notes.
const QUARTERS: u64 = 4;
/// Thirds of a crotchet for played notes.
const THIRDS: u64 = 3;

fn played(notes: &[Note], ticks: u32) -> Option<Grid> {
    let mut grid = Grid::default();
    let per = u64::from(ticks);
    // Twelfths of a crotchet hold both quarters and thirds.
    let mut starts: Vec<u64> = Vec::with_capacity(notes.len());
    let mut steps: Vec<u64> = Vec::with_capacity(notes.len());
    let mut i = 0;
    while let Some(first) = notes.get(i) {
        let beat = first.start / per;
        let in_beat = notes.iter().skip(i).take_while(|n| n.start / per == beat).count();
        let of_beat = notes.get(i..i + in_beat).unwrap_or(&[]);
        let error = |parts: u64| -> u64 {
            let far = |n: &Note| {
                let scaled = (n.start % per) * parts;
                let over = scaled % per;
                // In parts of ticks times twelve, so that both grids compare.
                over.min(per - over) * (12 / parts)
            };
            of_beat.iter().map(far).sum()
        };
        // Thirds must be clearly nearer.
        let parts = if error(THIRDS) * 3 < error(QUARTERS) * 2 { THIRDS } else { QUARTERS };
        for note in of_beat {
            let scaled = (note.start % per) * parts;
            let place = beat * 12 + ((scaled + per / 2) / per) * (12 / parts);
            starts.push(place);
            steps.push(12 / parts);
        }
        i += in_beat;
    }
    let mut last: Option<u64> = None;
    for (i, note) in notes.iter().enumerate() {
        let Some(&place) = starts.get(i) else { break };
        if last.is_some_and(|last| place <= last) {
            // Two notes on one place: the later was too near to be one of its own.
            continue;
        }
        last = Some(place);
        let moved = (place * per).abs_diff(note.start * 12) * 1000 / (12 * per);
        grid.moved += usize::from(moved > 0);
        grid.most = grid.most.max(u32::try_from(moved).unwrap_or(u32::MAX));
        let next = starts.get(i + 1..).unwrap_or(&[]).iter().copied().find(|&next| next > place);
        let sounding = ((note.end - note.start) * 12 + per / 2) / per;
        let step = steps.get(i).copied().unwrap_or(3);
        let round = place + sounding.div_ceil(step).max(1) * step;
        let end = match next {
            Some(next) if next - place <= 2 * sounding.max(1) => next,
            Some(next) => round.min(next),
            None => round,
        };
        let at = time(place, 12)?;
        let length = time(end, 12)?.minus(at)?;
        grid.notes.push(Placed { at, length, key: note.key });
    }
    Some(grid)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lengths(notes: &[(u64, u64)], ticks: u32) -> (String, usize, u32) {
        let notes: Vec<Note> =
            notes.iter().map(|&(start, end)| Note { start, end, key: 60 }).collect();
        let grid = place(&notes, ticks).unwrap();
        let words: Vec<String> =
            grid.notes.iter().map(|n| format!("{}+{}", n.at, n.length)).collect();
        (words.join(" "), grid.moved, grid.most)
    }

    #[test]
    fn written_notes_stay_where_they_are() {
        // Quavers and triplets at 480 ticks.
        let notes = [(0, 240), (240, 480), (480, 640), (640, 800), (800, 960)];
        let wanted = "0+1/8 1/8+1/8 1/4+1/12 1/3+1/12 5/12+1/12";
        assert_eq!(lengths(&notes, 480), (wanted.to_owned(), 0, 0));
        // Let go early, as many programs write: the length is up to the next note.
        let early = [(0, 228), (240, 455), (480, 620), (640, 810), (960, 1900)];
        assert_eq!(lengths(&early, 480).0, "0+1/8 1/8+1/8 1/4+1/12 1/3+1/6 1/2+1/2");
    }

    #[test]
    fn played_notes_go_to_the_nearest_place() {
        let notes =
            [(3, 230), (247, 470), (471, 700), (725, 950), (969, 1100), (1118, 1290), (1277, 1430)];
        let (words, moved, most) = lengths(&notes, 480);
        assert_eq!(words, "0+1/8 1/8+1/8 1/4+1/8 3/8+1/8 1/2+1/12 7/12+1/12 2/3+1/12");
        assert_eq!(moved, 7);
        assert!((15..60).contains(&most), "{most}");
    }
}

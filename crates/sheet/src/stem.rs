//! Which way stems point, and how long they are.

use crate::beam::Group;
use crate::plan::{Head, Kind, Note};
use crate::size::STEM_LENGTH;

/// The place of the middle line.
const MIDDLE: i32 = 4;

/// The y of a place on the stave.
pub(crate) const fn y_of(place: i32) -> i32 {
    4000 - place * 500
}

/// Whether the stems of some heads point up: the head farthest from the middle line decides, and
/// on a draw they point down (common practice; *Open Music Theory*, "Stems").
pub(crate) fn points_up<'h>(heads: impl Iterator<Item = &'h Head> + Clone) -> bool {
    let lowest = heads.clone().map(|h| h.place).min().unwrap_or(MIDDLE);
    let highest = heads.map(|h| h.place).max().unwrap_or(MIDDLE);
    MIDDLE - lowest > highest - MIDDLE
}

/// The direction of every note's stem, beamed ones alike.
pub(crate) fn directions(notes: &[Note], groups: &[Group]) -> Vec<bool> {
    let mut up: Vec<bool> = notes.iter().map(|note| points_up(note.heads.iter())).collect();
    for group in groups {
        let all = notes[group.first..=group.last].iter().flat_map(|note| &note.heads);
        let together = points_up(all);
        up[group.first..=group.last].fill(together);
    }
    up
}

/// The y where the stem of a note without a beam ends.
pub(crate) fn end(note: &Note, up: bool) -> i32 {
    let (Some(low), Some(high)) = (note.heads.first(), note.heads.last()) else { return 2000 };
    let more = 700 * (i32::from(note.value.flags()) - 2).max(0);
    // A stem from beyond the first ledger line reaches the middle line.
    if up {
        (y_of(high.place) - STEM_LENGTH - more).min(2000)
    } else {
        (y_of(low.place) + STEM_LENGTH + more).max(2000)
    }
}

/// The line that beamed stems end on: its y at the first and at the last stem.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Slope {
    pub(crate) from: (i32, i32),
    pub(crate) to: (i32, i32),
}

impl Slope {
    /// The y at an x.
    pub(crate) fn at(&self, x: i32) -> i32 {
        let (run, rise) = (i64::from(self.to.0 - self.from.0), i64::from(self.to.1 - self.from.1));
        if run == 0 {
            return self.from.1;
        }
        let y = i64::from(self.from.1) + rise * i64::from(x - self.from.0) / run;
        i32::try_from(y).unwrap_or(self.from.1)
    }
}

/// Finds the line for notes under one beam, from their stems' x.
pub(crate) fn slope(notes: &[Note], stems: &[i32], up: bool) -> Slope {
    let near = |note: &Note| {
        let head = if up { note.heads.last() } else { note.heads.first() };
        y_of(head.map_or(MIDDLE, |head| head.place))
    };
    let (first, last) = (near(&notes[0]), near(&notes[notes.len() - 1]));
    let (x0, x1) = (stems[0], stems[stems.len() - 1]);
    // Half the heads' slope, gentle, and none where an inner note sticks out towards the beam.
    let steepest = ((x1 - x0) / 6).clamp(0, 1000);
    let mut rise = ((last - first) / 2).clamp(-steepest, steepest);
    let inner = notes[1..notes.len() - 1].iter().map(near);
    let sticks_out = if up {
        inner.min().is_some_and(|y| y < first.min(last))
    } else {
        inner.max().is_some_and(|y| y > first.max(last))
    };
    if sticks_out {
        rise = 0;
    }
    // Low enough (high enough) that every stem has its length and reaches the middle line.
    let mut slope = Slope { from: (x0, 0), to: (x1, rise) };
    let shift = notes.iter().zip(stems).map(|(note, &x)| {
        let beams = i32::from(note.value.flags());
        let length = 3250 + 750 * (beams - 2).max(0);
        if up {
            (near(note) - length).min(2000) - slope.at(x)
        } else {
            (near(note) + length).max(2000) - slope.at(x)
        }
    });
    let shift = if up { shift.min() } else { shift.max() }.unwrap_or(0);
    // A level beam stands on a line of the stave or hangs from it.
    let shift = if rise == 0 { snapped(shift, up) } else { shift };
    slope.from.1 += shift;
    slope.to.1 += shift;
    slope
}

fn snapped(y: i32, up: bool) -> i32 {
    if up { y.div_euclid(500) * 500 } else { -((-y).div_euclid(500)) * 500 }
}

/// Runs of notes with more than so many beams, as places in the group.
pub(crate) fn runs(notes: &[Note], level: u8) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (i, note) in notes.iter().enumerate() {
        if note.value.flags() <= level {
            continue;
        }
        match runs.last_mut() {
            Some(run) if run.1 + 1 == i => run.1 = i,
            _ => runs.push((i, i)),
        }
    }
    runs
}

/// Whether a lone short beam of a note points right, to the note after it: at the start of a
/// group, and where the note begins a unit that is twice as long as its value.
pub(crate) fn points_right(notes: &[Note], at: usize, level: u8) -> bool {
    if at == 0 || at + 1 == notes.len() {
        return at == 0;
    }
    let unit = modewright_core::Length::new(1, 4 << level.min(5));
    unit.is_ok_and(|unit| unit.divides(notes[at].at).is_some())
}

/// Heads that stand on the other side of the stem, since their neighbour is a step away.
pub(crate) fn displaced(note: &Note, up: bool) -> Vec<bool> {
    let count = note.heads.len();
    let mut moved = vec![false; count];
    let mut last: Option<(i32, bool)> = None;
    for k in 0..count {
        // From the end of the stem that has the first head.
        let i = if up { k } else { count - 1 - k };
        let place = note.heads[i].place;
        let moves = last.is_some_and(|(p, m)| (p - place).abs() == 1 && !m);
        moved[i] = moves;
        last = Some((place, moves));
    }
    moved
}

/// Whether a note has a stem.
pub(crate) fn has_stem(note: &Note) -> bool {
    note.kind == Kind::Note && note.value.has_stem()
}

/// Ledger lines of a place, as places: even numbers beyond the stave.
pub(crate) fn ledgers(place: i32) -> impl Iterator<Item = i32> {
    let below = (place + place.rem_euclid(2)..=-2).step_by(2);
    let above = (10..=place - place.rem_euclid(2)).step_by(2);
    below.chain(above)
}

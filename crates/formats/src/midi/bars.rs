//! From notes in time to bars.

use super::grid::Placed;
use super::spell;
use modewright_core::tune::{BarLine, BarStyle, Sound, Span, TuneBuilder};
use modewright_core::{Length, Metre, MetreKind};

/// The most bars that a file may last.
const MOST_BARS: usize = crate::limits::MIDI_BARS;
/// Parts of a semibreve that pickups are weighed in: quavers, triplets and semiquavers are whole.
const PARTS: u32 = 192;

/// Metres, each from a place on; the first from the beginning.
#[derive(Clone, Debug)]
pub(super) struct Metres(Vec<(Length, Metre)>);

impl Metres {
    pub(super) fn new(mut metres: Vec<(Length, Metre)>) -> Self {
        if metres.first().is_none_or(|(at, _)| !at.is_zero()) {
            // Without a word it is 4/4 (Standard MIDI File 1.0, as independent readers quote it).
            metres.insert(0, (Length::ZERO, Metre::FOUR_FOUR));
        }
        metres.dedup_by(|next, last| next.1 == last.1 || next.0 == last.0);
        Self(metres)
    }

    /// The metre at a place and the place of the next; `from` is where to begin to look.
    fn at(&self, place: Length, from: &mut usize) -> (Metre, Option<Length>) {
        while self.0.get(*from + 1).is_some_and(|(next, _)| *next <= place) {
            *from += 1;
        }
        let metre = self.0.get(*from).map_or(Metre::FOUR_FOUR, |&(_, metre)| metre);
        (metre, self.0.get(*from + 1).map(|&(at, _)| at))
    }
}

/// A bar: its beginning, its end, its metre.
#[derive(Clone, Copy, Debug)]
struct Bar {
    start: Length,
    end: Length,
    metre: Metre,
}

/// The bars from the first note to the end of the last; `false` where there are too many.
fn bars(notes: &[Placed], metres: &Metres) -> (Vec<Bar>, bool) {
    let mut bars: Vec<Bar> = Vec::new();
    let (Some(first), Some(last)) = (notes.first(), notes.last()) else { return (bars, true) };
    let stop = last.at.plus(last.length).unwrap_or(last.at);
    let mut from = 0;
    let mut place = Length::ZERO;
    let mut counted = 0;
    let mut upbeat = pickup(notes, metres);
    while place < stop {
        counted += 1;
        let (mut metre, change) = metres.at(place, &mut from);
        let full = upbeat.take().or_else(|| metre.bar_length()).unwrap_or(Length::SEMIBREVE);
        let Ok(mut end) = place.plus(full) else { return (bars, false) };
        if let Some(change) = change.filter(|&change| change < end) {
            end = change;
        }
        // An upbeat that is written as a short bar of a metre of its own.
        if bars.is_empty()
            && change == Some(end)
            && let Some(&(_, next)) = metres.0.get(from + 1)
            && next.bar_length().is_some_and(|next| next > full)
        {
            metre = next;
        }
        // Silence before the first note is no music.
        if end > first.at {
            let start = if bars.is_empty() { first.at.max(place) } else { place };
            bars.push(Bar { start, end, metre });
        }
        if bars.len() > MOST_BARS || counted > 10 * MOST_BARS {
            return (bars, false);
        }
        place = end;
    }
    (bars, true)
}

/// The length of an upbeat at the very beginning: the one that lets most bars begin with a note
/// and fewest notes sound over a bar line. `None` where the first bar is whole.
fn pickup(notes: &[Placed], metres: &Metres) -> Option<Length> {
    notes.first().filter(|first| first.at.is_zero())?;
    let [(_, metre)] = metres.0.as_slice() else { return None };
    let bar = metre.bar_length()?.ticks(PARTS);
    let unit = u64::from(PARTS / 8);
    let last = notes.last()?;
    let stop = last.at.plus(last.length).ok()?.ticks(PARTS);
    let score = |upbeat: u64| -> i64 {
        let mut score = 0_i64;
        let most = bar / 2;
        for note in notes {
            let start = note.at.ticks(PARTS) + bar - upbeat;
            let end = start + note.length.ticks(PARTS);
            let (in_bar, over) = (start % bar, end % bar);
            if in_bar == 0 {
                score += signed((end - start).min(most));
            } else if end / bar > start / bar && over > 0 {
                score -= signed(over.min(most));
            }
        }
        // The last bar is whole, or makes a whole with the upbeat.
        let whole = (stop + bar - upbeat).is_multiple_of(bar) || stop.is_multiple_of(bar);
        score + if whole { signed(most) } else { 0 }
    };
    // More than half a bar is no upbeat; two beats of three weigh alike, so in compound metres
    // it is less than half.
    let compound = metre.kind() == MetreKind::Compound;
    let fits = |p: u64| 2 * p < bar || 2 * p == bar && !compound;
    let candidates = (1..bar.div_ceil(unit)).map(|n| n * unit).filter(|&p| fits(p));
    let best = candidates.map(|p| (score(p), std::cmp::Reverse(p))).max()?;
    let plain = score(0);
    // Only a clear case: a tune that begins on a whole bar is the rule.
    let margin = signed(bar) / 2 + plain.abs() / 8;
    (best.0 > plain + margin)
        .then(|| u32::try_from(best.1.0).ok().and_then(|p| Length::new(p, PARTS).ok()))
        .flatten()
}

fn signed(number: u64) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}

/// Writes the notes into bars; `false` where they do not fit. `at_bar` is called before the first
/// note of each bar with the place where it begins, to set keys and speeds.
pub(super) fn write(
    notes: &[Placed],
    metres: &Metres,
    fifths: i8,
    builder: &mut TuneBuilder,
    mut at_place: impl FnMut(Length, &mut TuneBuilder),
) -> (Vec<usize>, bool) {
    let (bars, mut fits) = bars(notes, metres);
    let mut events = vec![0; notes.len()];
    let mut next = 0;
    // How much of the note at `next` was written already.
    let mut done = Length::ZERO;
    let count = bars.len();
    for (i, bar) in bars.iter().enumerate() {
        if builder.current_metre() != bar.metre || i == 0 {
            builder.metre(bar.metre);
        }
        let mut place = bar.start;
        while place < bar.end {
            let note = notes.get(next);
            let start = note.and_then(|n| n.at.plus(done).ok()).unwrap_or(bar.end);
            if start > place {
                let end = start.min(bar.end);
                let last_gap = i + 1 == count && note.is_none();
                // A short last bar stays short where it makes a whole with the upbeat.
                let missing = end.minus(place).unwrap_or(Length::ZERO);
                let upbeat = bars.first().and_then(|b| b.end.minus(b.start));
                if !(last_gap && upbeat == Some(missing) && count > 1) {
                    fits &= builder.event(Sound::Rest, missing, Span::default()).is_ok();
                }
                place = end;
                continue;
            }
            let Some(note) = note else { break };
            if done.is_zero() {
                at_place(place, builder);
                if let Some(event) = events.get_mut(next) {
                    *event = builder.next_event();
                }
            }
            let Ok(stop) = note.at.plus(note.length) else { return (events, false) };
            let end = stop.min(bar.end);
            let length = end.minus(place).unwrap_or(Length::ZERO);
            let sound = spell::pitch(note.key, fifths).map_or(Sound::Rest, Sound::Note);
            if builder.event(sound, length, Span::default()).is_err() {
                return (events, false);
            }
            if stop > bar.end {
                builder.tie_last();
                done = done.plus(length).unwrap_or(done);
            } else {
                next += 1;
                done = Length::ZERO;
            }
            place = end;
        }
        let style = if i + 1 == count { BarStyle::Final } else { BarStyle::Single };
        builder.bar_line(BarLine { style, ..BarLine::default() }, Span::default());
    }
    // Where the bars end before the last note does, it is tied to nothing.
    builder.untie_last();
    (events, fits)
}

//! Counting: what is said under every note.
//!
//! [`count`] gives each bar its words: a syllable under every note and rest, and in brackets the
//! counts that are held or rested. Systems differ by teacher and country, so they are chosen in
//! [`CountOptions`]; the places of the syllables in the beat are those of *Integrated
//! Musicianship: Theory*. Grace notes are counted as nothing (ABC standard 2.1, §4.12).

mod beats;
mod count_in;
mod fit;
mod pace;
mod syllable;

pub use count_in::{CountIn, bar_beats, count_in, tune_count_in};
pub use fit::{BarFit, BarPlace, bar_places};
pub use pace::{Pace, PaceSource};
pub use syllable::{Compound, Simple, Syllable, System, Uneven};

use crate::{Length, Pitch, Tune};
use beats::{Beat, Beats, whole};
use std::fmt::Write as _;
use syllable::Split;

/// How much is said of what is held.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Detail {
    /// Whole beats, in brackets where they are held: the better one under a stave.
    #[default]
    Beats,
    /// Every division of the finest length in the bar.
    Full,
}

/// What is said, and how much of it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct CountOptions {
    /// The words.
    pub system: System,
    /// How much of what is held.
    pub detail: Detail,
}

/// One count: a word at a place in the bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Count {
    /// The note or rest that begins here or is held here, as an index into the tune's events.
    pub index: usize,
    /// Where it falls, from the beginning of a full bar: a crotchet of pickup in 3/4 is at 1/2.
    pub at: Length,
    /// What is said.
    pub syllable: Syllable,
    /// Whether a note is struck here. Rests, tied notes and held beats are counted silently.
    pub struck: bool,
    /// The length of the written note or rest that begins here; `None` where one is held.
    pub value: Option<Length>,
}

/// The counts of one bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BarCount {
    /// The bar, as an index into the tune's bars.
    pub bar: usize,
    /// Its number: 1 is the first complete bar, 0 the pickup.
    pub number: u32,
    /// Where it stands in a full bar, and whether it fills it.
    pub place: BarPlace,
    /// The parts of each beat: `[3, 3]` in 6/8; empty in free metre.
    pub grouping: Vec<u32>,
    /// The counts in order: at least one for every note and rest of the bar. Empty in free
    /// metre, where nothing is counted.
    pub events: Vec<Count>,
}

impl BarCount {
    /// The count as it is said, what is silent in brackets: `1 (&) (2) & 3`.
    #[must_use]
    pub fn text(&self) -> String {
        let mut text = String::new();
        for count in &self.events {
            if !text.is_empty() {
                text.push(' ');
            }
            let (open, close) = if count.struck { ("", "") } else { ("(", ")") };
            // Writing to a string cannot fail.
            let _ = write!(text, "{open}{}{close}", count.syllable);
        }
        text
    }
}

/// The finest grid that is counted through, in steps of a part; where notes are finer, they are
/// said themselves, and nothing between them.
const FINEST: u32 = 16;

/// The most steps of a beat with a tuplet; one with more says its notes alone.
const MOST: u64 = 48;

/// The counts of all bars, in the order of the page.
///
/// # Examples
///
/// ```
/// use modewright_core::count::{CountOptions, Detail, count};
/// use modewright_core::tune::{Sound, Span, TuneBuilder};
/// use modewright_core::{Length, Metre};
///
/// let mut builder = TuneBuilder::new();
/// builder.metre(Metre::FOUR_FOUR);
/// for eighths in [3, 1, 2, 2] {
///     let length = Length::new(eighths, 8)?;
///     builder.event(Sound::Note("A4".parse()?), length, Span::default()).unwrap();
/// }
/// let tune = builder.finish();
/// let mut options = CountOptions::default();
/// assert_eq!(count(&tune, options)[0].text(), "1 (2) & 3 4");
/// options.detail = Detail::Full;
/// assert_eq!(count(&tune, options)[0].text(), "1 (&) (2) & 3 (&) 4 (&)");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn count(tune: &Tune, options: CountOptions) -> Vec<BarCount> {
    let places = bar_places(tune);
    let mut held: Option<Pitch> = None;
    let mut known: Option<(crate::Metre, Option<Beats>)> = None;
    let mut bars = Vec::with_capacity(tune.bars.len());
    for (i, (bar, place)) in tune.bars.iter().zip(places).enumerate() {
        if known.as_ref().is_none_or(|(metre, _)| *metre != bar.metre) {
            known = Some((bar.metre, Beats::new(bar.metre, options.system)));
        }
        let beats = known.as_ref().and_then(|(_, beats)| beats.as_ref());
        let mut notes = Vec::with_capacity(bar.end - bar.first);
        for (e, event) in tune.events_of(i).iter().enumerate() {
            let pitch = event.sound.pitch();
            let struck = pitch.is_some() && held != pitch;
            held = if event.tied { pitch } else { None };
            let Some(place) = beats.and_then(|b| b.place(place.offset.plus(event.at).ok()?)) else {
                continue;
            };
            notes.push(Onset { index: bar.first + e, place, struck, value: event.length });
        }
        let end = place.offset.plus(bar.length).ok();
        let events = beats.map_or_else(Vec::new, |beats| {
            let end = end.and_then(|end| beats.place(end)).unwrap_or(whole(beats.parts));
            lay_out(beats, &notes, end, options.detail)
        });
        bars.push(BarCount {
            bar: i,
            number: bar.number,
            place,
            grouping: bar.metre.beats(),
            events,
        });
    }
    bars
}

/// A note or rest at its place, in parts.
struct Onset {
    index: usize,
    place: Length,
    struck: bool,
    value: Length,
}

/// A beat with the notes that begin in it.
struct Filled<'a> {
    beat: Beat,
    notes: &'a [Onset],
    /// How far into the beat each note begins.
    insides: Vec<Length>,
    /// Whether it is a beat of three that is cut into two or four.
    even: bool,
}

/// The beats of a full bar that sound, each with its notes, and the notes past the bar.
fn fill<'a>(beats: &Beats, notes: &'a [Onset], end: Length) -> (Vec<Filled<'a>>, &'a [Onset]) {
    let Some(first) = notes.first() else { return (Vec::new(), notes) };
    let sounds =
        |beat: &&Beat| whole(beat.start + beat.parts) > first.place && whole(beat.start) < end;
    let mut filled = Vec::new();
    let mut rest = notes;
    for beat in beats.beats.iter().filter(sounds).copied() {
        let stop = whole(beat.start + beat.parts);
        let (own, later) = rest.split_at(rest.partition_point(|note| note.place < stop));
        let inside = |note: &Onset| beats.inside(beat, note.place).unwrap_or(Length::ZERO);
        let insides: Vec<Length> = own.iter().map(inside).collect();
        let even = beat.split == Split::Three && is_even(&insides);
        filled.push(Filled { beat, notes: own, insides, even });
        rest = later;
    }
    (filled, rest)
}

/// The counts of a bar: its beats one after the other up to a full bar, then its notes alone.
fn lay_out(beats: &Beats, notes: &[Onset], end: Length, detail: Detail) -> Vec<Count> {
    let mut counts = Vec::new();
    let Some(first) = notes.first() else { return counts };
    let (filled, beyond) = fill(beats, notes, end);
    let grid = finest(&filled, end);
    let mut index = first.index;
    for Filled { beat, notes, insides, even } in &filled {
        let steps = match detail {
            Detail::Beats => 1,
            Detail::Full => steps(*beat, insides, *even, grid),
        };
        let mut own = notes.iter().zip(insides).peekable();
        for step in 0..steps {
            let inside = Length::new(step, steps).unwrap_or(Length::ZERO);
            // Notes that begin before this step, or on it, say it themselves.
            let mut said = false;
            while let Some((note, at)) = own.next_if(|(_, at)| **at <= inside) {
                said |= *at == inside;
                index = note.index;
                counts.push(spoken(beats, *beat, note, *at, *even));
            }
            let place = inside.times(beat.parts, 1).and_then(|p| p.plus(whole(beat.start)));
            let Ok(place) = place else { continue };
            if !said && place >= first.place && place < end {
                counts.push(Count {
                    index,
                    at: beats.length(place),
                    syllable: beats.syllable(*beat, inside, *even),
                    struck: false,
                    value: None,
                });
            }
        }
        for (note, at) in own {
            index = note.index;
            counts.push(spoken(beats, *beat, note, *at, *even));
        }
    }
    for note in beyond {
        let beat = beats.beat(beats.beat_at(note.place));
        let inside = beats.inside(beat, note.place).unwrap_or(Length::ZERO);
        counts.push(spoken(beats, beat, note, inside, false));
    }
    counts
}

/// The count of a note or rest.
fn spoken(beats: &Beats, beat: Beat, note: &Onset, inside: Length, even: bool) -> Count {
    Count {
        index: note.index,
        at: beats.length(note.place),
        syllable: beats.syllable(beat, inside, even),
        struck: note.struck,
        value: Some(note.value),
    }
}

/// Whether a beat of three is cut into two or four: some note falls on a half or a quarter, and
/// none anywhere else.
fn is_even(insides: &[Length]) -> bool {
    let quarter = |inside: &Length| 4 % inside.denominator() == 0;
    insides.iter().all(quarter) && insides.iter().any(|inside| !inside.is_zero())
}

/// The steps in a part that all notes of the bar and its end fit on, tuplets left out.
fn finest(filled: &[Filled<'_>], end: Length) -> u32 {
    let regular = filled.iter().filter(|f| !f.even).flat_map(|f| f.notes);
    let under = regular.map(|note| note.place).chain([end]).map(Length::denominator);
    under.filter(|under| under.is_power_of_two() && *under <= FINEST).max().unwrap_or(1)
}

/// Into how many steps a beat is counted: the grid of the bar, or that of its own tuplet.
fn steps(beat: Beat, insides: &[Length], even: bool, grid: u32) -> u32 {
    let is_off = |inside: &Length| {
        inside.times(beat.parts, 1).is_ok_and(|parts| !parts.denominator().is_power_of_two())
    };
    if !even && !insides.iter().any(is_off) {
        return grid * beat.parts;
    }
    let unders = insides.iter().map(|inside| u64::from(inside.denominator()));
    let steps = unders.fold(1, |all, under| if all > MOST { all } else { multiple(all, under) });
    u32::try_from(steps).ok().filter(|steps| u64::from(*steps) <= MOST).unwrap_or(1)
}

/// The least common multiple of two numbers up to 2³² and above 0.
const fn multiple(a: u64, b: u64) -> u64 {
    let (mut divisor, mut rest) = (a, b);
    while rest != 0 {
        (divisor, rest) = (rest, divisor % rest);
    }
    a / divisor * b
}

#[cfg(test)]
mod tests;

//! The notes of a tune as the finder looks at them: bars of notes, in strains.

use crate::heard::{Counted, Heard};
use crate::tune::{self, Event, sounding};
use crate::{Length, Metre, Pitch, Tune};
use std::borrow::Cow;

/// Parts of a semibreve that lengths are counted in here: exact for every plain and dotted
/// value to a sixty-fourth, and for triplets and quintuplets of them.
pub(super) const TICKS: u32 = Counted::TICKS;

/// A written note; of tied notes the later ones are `held`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Note {
    /// Pitch class, 0 to 11.
    pub class: u8,
    /// Height in semitones.
    pub midi: i16,
    /// Where it begins in its bar, in [`TICKS`]; a pickup is counted from the end of its bar.
    pub at: u32,
    /// Length in [`TICKS`], at least 1.
    pub ticks: u32,
    /// Whether a tie holds it over from the note before.
    pub held: bool,
    /// Its place in the tune's events.
    pub event: u32,
}

/// A bar of notes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bar {
    /// First note, as an index into the view's notes.
    pub first: usize,
    /// One past its last note.
    pub end: usize,
    /// Length of a full bar, in ticks, at least 1; in free metre the bar's own.
    pub full: u32,
    /// Length of a beat, in ticks, at least 1; the first one where beats are unequal.
    pub beat: u32,
    /// Its own length, in ticks.
    pub length: u32,
    /// How long its notes sound, in ticks.
    pub sounding: u64,
}

/// The sounding notes of a tune, or of some strains of it.
#[derive(Clone, Debug)]
pub struct View<'a> {
    pub(super) notes: Cow<'a, [Note]>,
    pub(super) bars: Cow<'a, [Bar]>,
    /// Each strain as a range of bars; every strain has at least one note.
    pub(super) strains: Vec<(usize, usize)>,
}

/// The notes of a tune in bars and strains, and its pitches.
pub(crate) fn look(tune: &Tune) -> (View<'static>, Heard) {
    let mut notes = Vec::with_capacity(tune.events.len());
    let mut bars = Vec::with_capacity(tune.bars.len());
    let mut heard = Heard::new();
    let mut pulse = Pulse::of(Metre::FREE);
    // One past the events that are heard as one.
    let mut joined_to = 0;
    // Where each bar of the tune begins among the bars of the view.
    let mut starts = Vec::new();
    for (number, bar) in tune.bars.iter().enumerate() {
        if bar.metre != pulse.metre {
            pulse = Pulse::of(bar.metre);
        }
        let length = ticks(bar.length);
        let full = if pulse.full == 0 { length.max(1) } else { pulse.full };
        // A pickup is the end of a bar.
        let shift = if bar.number == 0 { full.saturating_sub(length) } else { 0 };
        let first = notes.len();
        let mut whole = 0;
        let events = tune.events.get(bar.first..bar.end).unwrap_or_default();
        for (i, event) in (number_of(bar.first)..).zip(events) {
            let Some(pitch) = event.sound.pitch() else { continue };
            let counted = Counted::of(event.length);
            let known = heard.known(pitch, i);
            let held = i < joined_to;
            if !held {
                let mut length = counted;
                if event.tied {
                    (length, joined_to) = joined(tune, i, event, pitch);
                }
                known.ticks += length.ticks;
                if known.count == 0 {
                    known.firm = is_firm(bar, event, length.length, pulse.first);
                }
                known.count += 1;
            }
            let (class, midi, ticks) = (known.class, known.midi, counted.short);
            whole += u64::from(ticks);
            let at = self::ticks(event.at) + shift;
            notes.push(Note { class, midi, at, ticks, held, event: i });
        }
        let bar = Bar { first, end: notes.len(), full, beat: pulse.beat, length, sounding: whole };
        if pulse.full == 0 && length > TICKS {
            // Up to here each bar was one.
            if starts.is_empty() {
                starts.extend(0..number);
            }
            starts.push(bars.len());
            cut(bar, &mut notes, &mut bars);
        } else {
            if !starts.is_empty() {
                starts.push(bars.len());
            }
            bars.push(bar);
        }
    }
    let at = |bar: usize| {
        if starts.is_empty() { bar } else { starts.get(bar).copied().unwrap_or(bars.len()) }
    };
    let strains = tune.strain_bars().map(|(first, end)| (at(first), at(end))).collect();
    (View { notes: notes.into(), bars: bars.into(), strains }, heard)
}

/// How long a note sounds with all that is tied to it, and one past the last of them.
#[inline(never)]
fn joined(tune: &Tune, i: u32, event: &Event, pitch: Pitch) -> (Counted, u32) {
    let sounding = sounding(&tune.events, i as usize, event, pitch);
    (Counted::of(sounding.length), i.saturating_add(number_of(sounding.count)))
}

/// Whether a note begins on a beat or lasts longer than one.
#[inline(never)]
fn is_firm(bar: &tune::Bar, event: &Event, length: Length, beat: Length) -> bool {
    // Counted from the end of a pickup, from the start of any other bar.
    let to_end = || bar.length.minus(event.at).unwrap_or_default();
    let at = if bar.number == 0 { to_end() } else { event.at };
    length > beat || beat.divides(at).is_some()
}

/// A number of events, of which a tune has at most a million.
fn number_of(events: usize) -> u32 {
    u32::try_from(events).unwrap_or(u32::MAX)
}

impl View<'_> {
    /// All of a tune.
    #[must_use]
    pub fn of(tune: &Tune) -> Self {
        look(tune).0
    }

    /// Some of its strains, by their places.
    #[must_use]
    pub fn strains(&self, first: usize, end: usize) -> View<'_> {
        let strains = self.strains.get(first..end).unwrap_or(&[]).to_vec();
        self.of_strains(strains)
    }

    /// The same without the bar that each strain comes to rest in, where enough is left: a way
    /// to learn from tunes whose ends say nothing.
    #[must_use]
    pub fn without_ends(&self) -> View<'_> {
        let mut strains = Vec::new();
        for &(first, end) in &self.strains {
            let rest = self.rest_bar(first, end);
            if rest >= first + 3 && (first..rest).any(|b| self.bars[b].end > self.bars[b].first) {
                strains.push((first, rest));
            }
        }
        self.of_strains(strains)
    }

    /// Other strains of the same notes, which are not copied.
    fn of_strains(&self, strains: Vec<(usize, usize)>) -> View<'_> {
        View { notes: Cow::Borrowed(&self.notes), bars: Cow::Borrowed(&self.bars), strains }
    }

    /// Number of strains.
    #[must_use]
    pub fn strain_count(&self) -> usize {
        self.strains.len()
    }

    /// The notes of a bar.
    pub(super) fn notes_of(&self, bar: usize) -> &[Note] {
        let bar = &self.bars[bar];
        &self.notes[bar.first..bar.end]
    }

    /// Bars of all strains, in order.
    pub(super) fn all_bars(&self) -> impl Iterator<Item = usize> + '_ {
        self.strains.iter().flat_map(|&(first, end)| first..end)
    }

    /// Notes of all strains, in order.
    pub(super) fn all_notes(&self) -> impl Iterator<Item = &Note> + '_ {
        self.all_bars().flat_map(|bar| self.notes_of(bar))
    }

    /// Whether notes fill at least half of a full bar.
    pub(super) fn is_substantial(&self, bar: usize) -> bool {
        let bar = &self.bars[bar];
        bar.sounding > 0 && 2 * bar.sounding >= u64::from(bar.full)
    }
}

/// Cuts a long line of notes without metre into pieces of a semibreve, counted from its end, so
/// that its beginning and its end can be told from its middle.
#[cold]
fn cut(line: Bar, notes: &mut [Note], bars: &mut Vec<Bar>) {
    let lead = line.length % TICKS;
    let mut start = 0;
    let mut end = if lead == 0 { TICKS } else { lead };
    let mut first = line.first;
    loop {
        let inside = notes[first..line.end].iter().take_while(|n| n.at < end).count();
        // The short piece in front is counted from its end, like a pickup.
        let shift = TICKS - (end - start);
        for note in &mut notes[first..first + inside] {
            note.at = note.at - start + shift;
        }
        let length = end - start;
        let piece = &notes[first..first + inside];
        let sounding = piece.iter().map(|note| u64::from(note.ticks)).sum();
        let end_note = first + inside;
        bars.push(Bar { first, end: end_note, full: TICKS, beat: line.beat, length, sounding });
        first += inside;
        if end >= line.length {
            break;
        }
        (start, end) = (end, end.saturating_add(TICKS));
        // Of pieces in which no note begins the first stands for all, however long a note lasts.
        if inside == 0 {
            let Some(next) = notes[first..line.end].first() else { break };
            start += next.at.saturating_sub(start) / TICKS * TICKS;
            end = start.saturating_add(TICKS);
        }
    }
}

/// A length in ticks, cut to what fits.
fn ticks(length: Length) -> u32 {
    Counted::cut(length.ticks(TICKS))
}

/// What a metre means in ticks.
struct Pulse {
    metre: Metre,
    /// The length of a bar; 0 in free metre.
    full: u32,
    /// The length of the first beat, at least 1.
    beat: u32,
    /// The same, exactly.
    first: Length,
}

impl Pulse {
    fn of(metre: Metre) -> Self {
        let first = beat_of(metre);
        let full = metre.bar_length().map_or(0, ticks);
        Self { metre, full, beat: ticks(first).max(1), first }
    }
}

/// The length of the first beat of a bar in some metre; a crotchet in free metre.
fn beat_of(metre: Metre) -> Length {
    let unit = metre.unit().unwrap_or(Length::CROTCHET);
    unit.times(first_beat(metre), 1).unwrap_or(unit)
}

/// How many of the counted note values the first beat holds.
fn first_beat(metre: Metre) -> u32 {
    use crate::MetreKind::{Compound, Free, Irregular, Simple};
    match (metre.kind(), metre.groups()) {
        (Compound, _) => 3,
        (Simple, [_]) | (Free, _) => 1,
        (Irregular, [upper]) if *upper < 4 => u32::from(*upper),
        (Irregular, [_]) => 2,
        (_, groups) => groups.first().map_or(1, |&g| u32::from(g)),
    }
}

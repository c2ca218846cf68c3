//! Bars with something to stumble over.

use crate::count::bar_places;
use crate::tune::Strain;
use crate::{Interval, Length, MetreKind, Pitch, Spelling, Tune};
use std::collections::HashSet;

/// Why a bar is hard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// A leap wider than a fifth, inside the bar or into it.
    Leap {
        /// From note to note.
        interval: Interval,
        /// The note it leads to, as an index into the tune's events.
        to: usize,
    },
    /// A note that begins between beats and is held over the next.
    Syncopation {
        /// The note.
        index: usize,
    },
    /// A dotted note that ends between beats.
    Dotted {
        /// The note.
        index: usize,
    },
    /// A note tied to the next, or from the bar before.
    Tied {
        /// The first of the written notes in this bar.
        index: usize,
    },
    /// A note outside the signature, heard for the first time.
    FirstAccidental {
        /// The note.
        index: usize,
        /// Its name.
        note: Spelling,
    },
    /// The shortest notes of the tune, where they are rare.
    Fastest {
        /// The first of them in this bar.
        index: usize,
        /// How long they are.
        length: Length,
    },
    /// A note that is awkward on the instrument.
    Awkward {
        /// The note.
        index: usize,
    },
}

impl Why {
    /// How much it weighs when hard bars are ranked: what stops the hand or the foot twice as
    /// much as what needs a look (our own judgement, no source).
    #[must_use]
    pub const fn weight(self) -> u32 {
        match self {
            Self::Leap { .. } | Self::Syncopation { .. } | Self::Awkward { .. } => 2,
            Self::Dotted { .. }
            | Self::Tied { .. }
            | Self::FirstAccidental { .. }
            | Self::Fastest { .. } => 1,
        }
    }
}

/// A hard bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hard {
    /// The bar, as an index into the tune's bars.
    pub bar: usize,
    /// Why; one reason of each kind, the first in the bar.
    pub why: Vec<Why>,
}

impl Hard {
    /// The weight of all reasons together.
    #[must_use]
    pub fn weight(&self) -> u32 {
        self.why.iter().map(|why| why.weight()).sum()
    }
}

/// Semitones of a perfect fifth: wider leaps are told.
const FIFTH: i16 = 7;

pub(super) fn of(tune: &Tune, strains: &[Strain], awkward: &[usize]) -> Vec<Hard> {
    let fastest = fastest(tune);
    let mut heard: HashSet<Spelling> = HashSet::new();
    let mut before: Option<Pitch> = None;
    let mut held: Option<Pitch> = None;
    let mut hard = Vec::new();
    for (i, place) in bar_places(tune).into_iter().enumerate() {
        let bar = &tune.bars[i];
        // Between strains the repeat may come: from one into the next is no leap.
        if strains.binary_search_by_key(&i, |strain| strain.first).is_ok() {
            before = None;
        }
        let mut reasons = Reasons::default();
        let beats = beat_places(tune, i);
        let events = tune.events_of(i);
        for (index, event) in (bar.first..).zip(events) {
            let Some(pitch) = event.sound.pitch() else {
                held = None;
                continue;
            };
            let continues = held == Some(pitch);
            held = event.tied.then_some(pitch);
            if let Some(last) = before.filter(|_| !continues) {
                let interval = pitch - last;
                if interval.semitones().abs() > FIFTH {
                    reasons.add(0, Why::Leap { interval, to: index });
                }
            }
            before = Some(pitch);
            let at = place.offset.plus(event.at).unwrap_or(event.at);
            let end = at.plus(event.length).unwrap_or(at);
            let starts_between = !beats.is_empty() && beats.binary_search(&at).is_err();
            let next_beat = beats.get(beats.partition_point(|beat| *beat <= at));
            let over =
                next_beat.is_some_and(|beat| *beat < end) || event.tied && held == Some(pitch);
            if starts_between && over && !continues {
                reasons.add(1, Why::Syncopation { index });
            }
            let ends_between = !beats.is_empty() && beats.binary_search(&end).is_err();
            if event.length.numerator() == 3 && ends_between && end < end_of(tune, i, place.offset)
            {
                reasons.add(2, Why::Dotted { index });
            }
            if continues || event.tied {
                reasons.add(3, Why::Tied { index });
            }
            let note = pitch.spelling();
            let natural = tune.keys.get(bar.key).map(|key| key.alter(note.step));
            if natural.is_some_and(|alter| alter != note.alter) && heard.insert(note) {
                reasons.add(4, Why::FirstAccidental { index, note });
            }
            if fastest == Some(event.length) {
                reasons.add(5, Why::Fastest { index, length: event.length });
            }
            if awkward.binary_search(&index).is_ok() {
                reasons.add(6, Why::Awkward { index });
            }
        }
        let why: Vec<Why> = reasons.kinds.into_iter().flatten().collect();
        if !why.is_empty() {
            hard.push(Hard { bar: i, why });
        }
    }
    hard
}

/// The first reason of each kind.
#[derive(Default)]
struct Reasons {
    kinds: [Option<Why>; 7],
}

impl Reasons {
    fn add(&mut self, kind: usize, why: Why) {
        let place = &mut self.kinds[kind];
        if place.is_none() {
            *place = Some(why);
        }
    }
}

fn end_of(tune: &Tune, bar: usize, offset: Length) -> Length {
    offset.plus(tune.bars[bar].length).unwrap_or(offset)
}

/// Where beats begin and the bar ends; nothing in free metre. Minims and longer beats are felt
/// in halves, so their halves count as well.
fn beat_places(tune: &Tune, bar: usize) -> Vec<Length> {
    let metre = tune.bars[bar].metre;
    let Some(unit) = metre.unit().filter(|_| metre.kind() != MetreKind::Free) else {
        return Vec::new();
    };
    let mut places = vec![Length::ZERO];
    let mut sum = 0;
    let halves = if metre.lower() <= 2 && metre.kind() == MetreKind::Simple { 2 } else { 1 };
    for beat in metre.beats() {
        for half in 1..=halves {
            places.extend(unit.times(halves * sum + half * beat, halves));
        }
        sum += beat;
    }
    places
}

/// The shortest length of the tune, if a fifth of its notes or fewer are that short.
fn fastest(tune: &Tune) -> Option<Length> {
    let notes = || tune.events.iter().filter(|event| event.sound.pitch().is_some());
    let shortest = notes().map(|event| event.length).filter(|length| !length.is_zero()).min()?;
    let (short, all) = notes().fold((0, 0), |(short, all), event| {
        (short + usize::from(event.length == shortest), all + 1)
    });
    (short * 5 <= all).then_some(shortest)
}

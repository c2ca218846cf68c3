//! Bars that return.

use crate::count::bar_places;
use crate::{Length, Pitch, Tune};
use std::collections::HashMap;

/// How a bar is like an earlier one. Bars are indices into the tune's bars.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Likeness {
    /// No note sounds in it.
    Silent,
    /// Like none before.
    New,
    /// Note for note an earlier bar.
    Same {
        /// The first of them.
        bar: usize,
    },
    /// The melody of an earlier bar, so many steps of the stave higher (or lower, below nothing).
    Moved {
        /// The first of them.
        bar: usize,
        /// Steps of the stave.
        steps: i16,
    },
    /// Another melody in the rhythm of an earlier bar.
    Rhythm {
        /// The first of them.
        bar: usize,
    },
}

impl Likeness {
    /// The earlier bar that is the same note for note.
    #[must_use]
    pub const fn same(self) -> Option<usize> {
        match self {
            Self::Same { bar } => Some(bar),
            _ => None,
        }
    }
}

/// A note or rest as far as rhythm goes.
type Beat = (bool, Length, bool);

/// Fewer notes than this make no melody that could be recognised when it is moved.
const LEAST_NOTES: usize = 3;

/// Compares every bar with all before it; each look costs as much as the bar is long.
pub(super) fn of(tune: &Tune) -> Vec<Likeness> {
    let mut same: HashMap<(Vec<Beat>, Vec<Pitch>), usize> = HashMap::new();
    let mut shapes: HashMap<(Vec<Beat>, Vec<i16>), (usize, i16)> = HashMap::new();
    let mut rhythms: HashMap<Vec<Beat>, usize> = HashMap::new();
    let mut found = Vec::with_capacity(tune.bars.len());
    for (i, place) in bar_places(tune).into_iter().enumerate() {
        let events = tune.events_of(i);
        let pitches: Vec<Pitch> = events.iter().filter_map(|e| e.sound.pitch()).collect();
        let Some(first) = pitches.first() else {
            found.push(Likeness::Silent);
            continue;
        };
        let mut rhythm = vec![(false, place.offset, false)];
        rhythm.extend(events.iter().map(|e| (e.sound.pitch().is_some(), e.length, e.tied)));
        let height = first.stave_place();
        let shape: Vec<i16> = pitches.iter().map(|p| p.stave_place() - height).collect();
        let is_melody = pitches.len() >= LEAST_NOTES;
        let like_same = *same.entry((rhythm.clone(), pitches)).or_insert(i);
        let (like_shape, from) = *shapes.entry((rhythm.clone(), shape)).or_insert((i, height));
        let like_rhythm = *rhythms.entry(rhythm).or_insert(i);
        found.push(if like_same < i {
            Likeness::Same { bar: like_same }
        } else if is_melody && like_shape < i && height != from {
            Likeness::Moved { bar: like_shape, steps: height - from }
        } else if like_rhythm < i {
            Likeness::Rhythm { bar: like_rhythm }
        } else {
            Likeness::New
        });
    }
    found
}

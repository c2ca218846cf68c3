//! Which accidentals must be written: the reader's rules, turned round.

use crate::abc::accidentals::{Accidentals, Reach};
use crate::abc::note::tied_to;
use modewright_core::tune::WrittenKey;
use modewright_core::{Alter, Pitch};

/// The accidentals in force.
#[derive(Debug, Default)]
pub(super) struct Signs {
    pub(super) reach: Reach,
    key: WrittenKey,
    bar: Accidentals,
    /// Pitches whose tie is open: it carries their accidental to the next sound.
    tied: Vec<Pitch>,
}

impl Signs {
    /// A key begins.
    pub(super) fn key(&mut self, key: &WrittenKey) {
        self.key = *key;
        self.bar.clear();
    }

    /// A bar line is drawn.
    pub(super) fn bar_line(&mut self) {
        self.bar.clear();
    }

    /// The sound that was written is tied to the next, or not.
    pub(super) fn tie(&mut self, pitches: &[Pitch]) {
        self.tied.clear();
        self.tied.extend_from_slice(pitches);
    }

    /// The sign that a note needs, if it needs one.
    pub(super) fn sign(&mut self, pitch: Pitch) -> Option<Alter> {
        let (step, alter) = (pitch.spelling().step, pitch.spelling().alter);
        let carried = tied_to(&self.tied, step, i32::from(pitch.octave()));
        if carried.unwrap_or_else(|| self.in_force(pitch)) == alter {
            return None;
        }
        self.bar.set(self.reach, step, pitch.octave(), alter);
        Some(alter)
    }

    /// The sign that a grace note needs; it changes nothing for others.
    pub(super) fn grace_sign(&self, pitch: Pitch) -> Option<Alter> {
        let alter = pitch.spelling().alter;
        (self.in_force(pitch) != alter).then_some(alter)
    }

    fn in_force(&self, pitch: Pitch) -> Alter {
        let step = pitch.spelling().step;
        let in_bar = self.bar.in_force(self.reach, step, pitch.octave());
        in_bar.unwrap_or_else(|| self.key.alter(step))
    }
}

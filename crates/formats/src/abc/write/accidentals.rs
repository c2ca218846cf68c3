//! Which accidentals must be written: the reader's rules, turned round.

use crate::abc::state::Reach;
use modewright_core::tune::WrittenKey;
use modewright_core::{Alter, Pitch};

/// The accidentals in force.
#[derive(Debug, Default)]
pub(super) struct Accidentals {
    pub(super) reach: Reach,
    key: WrittenKey,
    /// Those of the bar: letter, octave, alteration; the latest is last.
    bar: Vec<(u8, i8, Alter)>,
    /// Pitches whose tie is open: it carries their accidental to the next sound.
    tied: Vec<Pitch>,
}

impl Accidentals {
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
        let (step, alter) = (pitch.spelling().step.index(), pitch.spelling().alter);
        let carried = self.tied.iter().find(|tied| {
            tied.spelling().step == pitch.spelling().step && tied.octave() == pitch.octave()
        });
        let in_force = carried.map_or_else(|| self.in_force(pitch), |tied| tied.spelling().alter);
        if in_force == alter {
            return None;
        }
        if self.reach != Reach::Note {
            self.bar.retain(|&(s, o, _)| (s, o) != (step, pitch.octave()));
            self.bar.push((step, pitch.octave(), alter));
        }
        Some(alter)
    }

    /// The sign that a grace note needs; it changes nothing for others.
    pub(super) fn grace_sign(&self, pitch: Pitch) -> Option<Alter> {
        let alter = pitch.spelling().alter;
        (self.in_force(pitch) != alter).then_some(alter)
    }

    fn in_force(&self, pitch: Pitch) -> Alter {
        let letter = pitch.spelling().step;
        let found = self.bar.iter().rev().find(|&&(step, octave, _)| {
            step == letter.index() && (self.reach == Reach::Pitch || octave == pitch.octave())
        });
        found.map_or_else(|| self.key.alter(letter), |&(_, _, alter)| alter)
    }
}

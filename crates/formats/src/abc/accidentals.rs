//! The accidentals of a bar, and how far they reach.

use modewright_core::{Alter, Step};

/// How far an accidental reaches within its bar (ABC 2.1, §11.3).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Reach {
    /// The note alone.
    Note,
    /// Notes of the same letter in the same octave.
    Octave,
    /// Notes of the same letter in all octaves.
    #[default]
    Pitch,
}

/// Accidentals that stand in the bar so far: letter, octave, alteration.
#[derive(Clone, Debug, Default)]
pub(super) struct Accidentals(Vec<(Step, i8, Alter)>);

impl Accidentals {
    /// A bar begins.
    pub(super) fn clear(&mut self) {
        self.0.clear();
    }

    /// Notes the accidental of a letter. The latest of a letter counts, so it goes to the end.
    pub(super) fn set(&mut self, reach: Reach, step: Step, octave: i8, alter: Alter) {
        if reach != Reach::Note {
            self.0.retain(|&(s, o, _)| (s, o) != (step, octave));
            self.0.push((step, octave, alter));
        }
    }

    /// The accidental in force for a letter; `None` where the key decides.
    pub(super) fn in_force(&self, reach: Reach, step: Step, octave: i8) -> Option<Alter> {
        let same = |&&(letter, in_octave, _): &&(Step, i8, Alter)| {
            letter == step && (reach == Reach::Pitch || in_octave == octave)
        };
        self.0.iter().rev().find(same).map(|&(_, _, alter)| alter)
    }
}

//! What a tune calls its notes, and what its candidates are called.

use super::{facts::Use, features::written_signature, model::Model};
use crate::tune::WrittenKey;
use crate::{Key, PitchClass, Signature, Spelling, Step, Tune};

/// The names of one tune.
pub(super) struct Names {
    /// The name of each pitch class that sounds; of several the one that sounds longest.
    used: [Option<Spelling>; 12],
    /// The signature that candidates without a name are written near to.
    near: i32,
}

impl Names {
    pub(super) fn of(tune: &Tune, uses: &[Use]) -> Self {
        let written = tune.key().and_then(WrittenKey::signature).map(Signature::fifths);
        let mut used = [None; 12];
        for u in uses.iter().rev() {
            used[u.class.index()] = Some(u.note);
        }
        Self { used, near: written.map_or_else(|| lean(uses), i32::from) }
    }

    /// A candidate as the tune spells it: with the name that its home note has in the tune where
    /// that key can be written, else near the signature, else in the usual way.
    pub(super) fn key(&self, index: usize) -> Key {
        let (home, mode) = Model::candidate(index);
        let used = self.used[home.index()].map(|note| Key::new(note, mode));
        let by_name = used.filter(|key| key.signature().is_ok());
        by_name.unwrap_or_else(|| Key::written_near(home, mode, self.near))
    }

    /// The name that the tune gives to each pitch class; the usual one near its signature for
    /// those that do not sound.
    pub(super) fn notes(&self, tune: &Tune) -> [Spelling; 12] {
        let centre = i32::from(written_signature(tune).unwrap_or(0)) + 2;
        std::array::from_fn(|i| {
            let class = PitchClass::new(i32::try_from(i).unwrap_or(0));
            self.used[i].unwrap_or_else(|| Spelling::near(class, centre))
        })
    }
}

/// Which way the accidentals of a tune lean, as a signature: the sum of its altered letters.
fn lean(uses: &[Use]) -> i32 {
    Step::ALL
        .into_iter()
        .filter_map(|step| uses.iter().find(|u| u.note.step == step))
        .map(|u| i32::from(u.note.alter.semitones()))
        .sum()
}

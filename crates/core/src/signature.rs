//! Key signatures.

use crate::{Alter, Step, error::TheoryError};
use std::fmt;

/// A key signature, counted in fifths: sharps are positive, flats negative, −7 to +7.
///
/// # Examples
///
/// ```
/// use modewright_core::{Alter, Signature, Step};
///
/// let two_sharps = Signature::new(2)?;
/// assert_eq!(two_sharps.alter(Step::C), Alter::SHARP);
/// assert_eq!(two_sharps.alter(Step::G), Alter::NATURAL);
/// // Nobody writes eight sharps.
/// assert!(Signature::new(8).is_err());
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Signature(i8);

impl Signature {
    /// The most sharps or flats.
    pub const MAX: i32 = 7;

    /// No sharps, no flats.
    pub const NATURAL: Self = Self(0);

    /// A signature of so many sharps (positive) or flats (negative).
    ///
    /// # Errors
    ///
    /// [`TheoryError::FifthsOutOfRange`] beyond seven.
    pub const fn new(fifths: i32) -> Result<Self, TheoryError> {
        if fifths < -Self::MAX || fifths > Self::MAX {
            return Err(TheoryError::FifthsOutOfRange { fifths });
        }
        #[expect(clippy::cast_possible_truncation, reason = "checked above")]
        Ok(Self(fifths as i8))
    }

    /// Sharps as a positive number, flats as a negative one.
    #[must_use]
    pub const fn fifths(self) -> i8 {
        self.0
    }

    /// What the signature does to a letter.
    #[must_use]
    pub const fn alter(self, step: Step) -> Alter {
        // F is the first to be sharpened and the last to be flattened.
        let place = step.fifths() + 1;
        if place < self.0 {
            Alter::SHARP
        } else if 6 - place < -self.0 {
            Alter::FLAT
        } else {
            Alter::NATURAL
        }
    }

    /// The alterations of the seven letters, C first.
    #[must_use]
    pub fn alters(self) -> [Alter; 7] {
        Step::ALL.map(|step| self.alter(step))
    }

    /// The signature that makes these alterations (C first); `None` where there is none.
    #[must_use]
    pub fn from_alters(alters: [Alter; 7]) -> Option<Self> {
        // Each sharp of a signature counts for one, and each flat takes one away.
        let mut fifths = 0;
        for alter in alters {
            fifths += i32::from(alter.semitones());
        }
        let signature = Self::new(fifths).ok()?;
        Step::ALL
            .into_iter()
            .all(|step| alters[usize::from(step.index())] == signature.alter(step))
            .then_some(signature)
    }

    /// All fifteen, from seven flats to seven sharps.
    pub fn all() -> impl Iterator<Item = Self> {
        (-7..=7).map(Self)
    }

    /// The altered letters in the order in which they are printed.
    #[must_use]
    pub fn steps(self) -> Vec<Step> {
        let count = usize::from(self.0.unsigned_abs());
        let order = Step::SHARP_ORDER.into_iter();
        if self.0 > 0 { order.take(count).collect() } else { order.rev().take(count).collect() }
    }
}

impl fmt::Display for Signature {
    /// Signed fifths: `+2`, `-3`, `0`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 > 0 { write!(f, "+{}", self.0) } else { write!(f, "{}", self.0) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_fifteen_alter_as_many_letters_as_they_say() {
        for signature in Signature::all() {
            let sum: i8 = signature.alters().iter().map(|a| a.semitones()).sum();
            assert_eq!(sum, signature.fifths());
            assert_eq!(signature.steps().len(), usize::from(sum.unsigned_abs()));
            for step in signature.steps() {
                assert_ne!(signature.alter(step), Alter::NATURAL);
            }
            assert_eq!(Signature::from_alters(signature.alters()), Some(signature));
        }
        assert_eq!(Signature::new(-3).unwrap().steps(), vec![Step::B, Step::E, Step::A]);
    }
}

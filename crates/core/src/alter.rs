//! Sharps and flats.

use crate::error::TheoryError;
use std::fmt;

/// How far a note is raised or lowered from its letter, in semitones.
///
/// A natural is 0 and never absent. ABC and print know −2 to +2; arithmetic may pass
/// through [`Alter::MIN`] to [`Alter::MAX`] (a double sharp raised by an augmented
/// interval), and refuses to go further.
///
/// # Examples
///
/// ```
/// use modewright_core::Alter;
///
/// assert_eq!(Alter::SHARP.to_string(), "#");
/// // A natural prints nothing: its letter says it all.
/// assert_eq!(Alter::NATURAL.to_string(), "");
/// assert!(Alter::new(8).is_err());
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Alter(i8);

impl Alter {
    /// Two semitones down.
    pub const DOUBLE_FLAT: Self = Self(-2);
    /// One semitone down.
    pub const FLAT: Self = Self(-1);
    /// The letter itself.
    pub const NATURAL: Self = Self(0);
    /// One semitone up.
    pub const SHARP: Self = Self(1);
    /// Two semitones up.
    pub const DOUBLE_SHARP: Self = Self(2);
    /// The furthest flat that arithmetic allows: seven.
    pub const MIN: i8 = -7;
    /// The furthest sharp that arithmetic allows: seven.
    pub const MAX: i8 = 7;

    /// An alteration of so many semitones.
    ///
    /// # Errors
    ///
    /// [`TheoryError::AlterTooLarge`] outside [`Alter::MIN`] to [`Alter::MAX`].
    pub const fn new(semitones: i32) -> Result<Self, TheoryError> {
        if semitones < Self::MIN as i32 || semitones > Self::MAX as i32 {
            return Err(TheoryError::AlterTooLarge { semitones });
        }
        #[expect(clippy::cast_possible_truncation, reason = "checked above")]
        Ok(Self(semitones as i8))
    }

    /// Signed semitones from the natural note.
    #[must_use]
    pub const fn semitones(self) -> i8 {
        self.0
    }
}

impl fmt::Display for Alter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.0 < 0 { "b" } else { "#" };
        for _ in 0..self.0.unsigned_abs() {
            f.write_str(sign)?;
        }
        Ok(())
    }
}

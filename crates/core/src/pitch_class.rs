//! The twelve notes of the octave, without spelling.

use std::fmt;

/// One of the twelve notes of the octave, in semitones above C; no octave, no spelling.
///
/// # Examples
///
/// ```
/// use modewright_core::PitchClass;
///
/// assert_eq!(PitchClass::new(14), PitchClass::new(2));
/// assert_eq!(PitchClass::new(2).above(PitchClass::new(11)), 3);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PitchClass(u8);

impl PitchClass {
    /// The pitch class of a number of semitones above any C, counted round.
    #[must_use]
    pub const fn new(semitones: i32) -> Self {
        #[expect(clippy::cast_possible_truncation, reason = "0 to 11")]
        Self(semitones.rem_euclid(12).unsigned_abs() as u8)
    }

    /// A class that is known to be from 0 to 11.
    pub(crate) const fn within(semitones: i32) -> Self {
        debug_assert!(semitones >= 0 && semitones < 12);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 11")]
        Self(semitones as u8)
    }

    /// Semitones above C, 0 to 11.
    #[must_use]
    pub const fn semitones(self) -> u8 {
        self.0
    }

    /// 0 to 11 as an index.
    #[must_use]
    pub const fn index(self) -> usize {
        self.0 as usize
    }

    /// Semitones that this lies above `home`, 0 to 11.
    #[must_use]
    pub const fn above(self, home: Self) -> u8 {
        (self.0 + 12 - home.0) % 12
    }

    /// The pitch class `semitones` higher.
    #[must_use]
    pub const fn up(self, semitones: i32) -> Self {
        Self::new(self.0 as i32 + semitones)
    }

    /// All twelve, C first.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..12).map(Self::new)
    }
}

impl fmt::Display for PitchClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

//! Scale degrees, named against the major scale.

use crate::{Alter, PitchClass};
use std::fmt;

/// A degree of a scale: its number, and how it differs from the major scale on the same home.
///
/// # Examples
///
/// ```
/// use modewright_core::{Alter, Degree};
///
/// let third = Degree::new(3, Alter::FLAT);
/// assert_eq!(third.to_string(), "b3");
/// assert_eq!(third.semitones(), 3);
/// // Numbers beyond seven go round: a ninth is a second.
/// assert_eq!(Degree::new(9, Alter::NATURAL).number(), 2);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Degree {
    number: u8,
    alter: Alter,
}

/// Semitones of the degrees of the major scale above its home.
pub(crate) const MAJOR: [u8; 7] = [0, 2, 4, 5, 7, 9, 11];

impl Degree {
    /// A degree by its number from 1 (counted round from 8 on; 0 counts as 7) and alteration.
    #[must_use]
    pub const fn new(number: u8, alter: Alter) -> Self {
        Self { number: (number + 6) % 7 + 1, alter }
    }

    /// 1 to 7.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.number
    }

    /// Difference from the major scale on the same home.
    #[must_use]
    pub const fn alter(self) -> Alter {
        self.alter
    }

    /// Semitones above home, 0 to 11, counted round.
    #[must_use]
    pub const fn semitones(self) -> u8 {
        let natural = MAJOR[self.number as usize - 1] as i32;
        PitchClass::new(natural + self.alter.semitones() as i32).semitones()
    }

    /// The usual degree for a distance above home: flat 2, 3, 6, 7 and sharp 4.
    #[must_use]
    pub const fn from_semitones(above: u8) -> Self {
        const USUAL: [(u8, Alter); 12] = [
            (1, Alter::NATURAL),
            (2, Alter::FLAT),
            (2, Alter::NATURAL),
            (3, Alter::FLAT),
            (3, Alter::NATURAL),
            (4, Alter::NATURAL),
            (4, Alter::SHARP),
            (5, Alter::NATURAL),
            (6, Alter::FLAT),
            (6, Alter::NATURAL),
            (7, Alter::FLAT),
            (7, Alter::NATURAL),
        ];
        let (number, alter) = USUAL[(above % 12) as usize];
        Self { number, alter }
    }
}

impl fmt::Display for Degree {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.alter, self.number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn semitones_round_trip() {
        for above in 0..12 {
            assert_eq!(Degree::from_semitones(above).semitones(), above);
        }
        assert_eq!(Degree::new(0, Alter::NATURAL).number(), 7);
        assert_eq!(Degree::new(1, Alter::FLAT).semitones(), 11);
    }
}

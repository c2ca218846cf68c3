//! Sets of pitch classes.

use crate::PitchClass;
use std::fmt;

/// A set of the twelve notes of the octave.
///
/// # Examples
///
/// ```
/// use modewright_core::{PitchClass, PitchSet};
///
/// let triad: PitchSet = [0, 4, 7].into_iter().map(PitchClass::new).collect();
/// assert_eq!(triad.len(), 3);
/// assert!(triad.contains(PitchClass::new(19)));
/// // Turned round the circle, it is still a triad.
/// assert_eq!(triad.up(12), triad);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PitchSet(u16);

impl PitchSet {
    /// No note at all.
    pub const EMPTY: Self = Self(0);
    /// All twelve notes.
    pub const ALL: Self = Self(0xFFF);

    /// The set with one more note.
    #[must_use]
    pub const fn with(self, class: PitchClass) -> Self {
        Self(self.0 | 1 << class.semitones())
    }

    /// Adds a note.
    pub const fn insert(&mut self, class: PitchClass) {
        self.0 |= 1 << class.semitones();
    }

    /// Whether a note is in the set.
    #[must_use]
    pub const fn contains(self, class: PitchClass) -> bool {
        self.0 >> class.semitones() & 1 == 1
    }

    /// How many notes it holds.
    #[must_use]
    pub const fn len(self) -> u32 {
        self.0.count_ones()
    }

    /// Whether it holds none.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The set moved up by so many semitones, counted round.
    #[must_use]
    pub const fn up(self, semitones: i32) -> Self {
        let by = semitones.rem_euclid(12) as u32;
        Self((self.0 << by | self.0 >> (12 - by)) & 0xFFF)
    }

    /// Whether every note of this is in `other`.
    #[must_use]
    pub const fn is_subset(self, other: Self) -> bool {
        self.0 & !other.0 == 0
    }

    /// Notes in both.
    #[must_use]
    pub const fn intersection(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// Notes in either.
    #[must_use]
    pub const fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Notes in this and not in `other`.
    #[must_use]
    pub const fn minus(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }

    /// The notes, from C upwards.
    pub fn iter(self) -> impl Iterator<Item = PitchClass> {
        PitchClass::all().filter(move |&class| self.contains(class))
    }
}

impl FromIterator<PitchClass> for PitchSet {
    fn from_iter<I: IntoIterator<Item = PitchClass>>(classes: I) -> Self {
        classes.into_iter().fold(Self::EMPTY, Self::with)
    }
}

impl fmt::Display for PitchSet {
    /// Semitones above C, with spaces: `0 4 7`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, class) in self.iter().enumerate() {
            if i > 0 {
                f.write_str(" ")?;
            }
            write!(f, "{class}")?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_set_turns_and_counts() {
        for bits in 0..=0xFFF_u16 {
            let set = PitchSet(bits);
            assert_eq!(set.iter().collect::<PitchSet>(), set);
            assert_eq!(set.iter().count(), set.len() as usize);
            for by in -12..=24 {
                assert_eq!(set.up(by).up(-by), set);
                assert_eq!(set.up(by).len(), set.len());
            }
            assert!(set.is_subset(PitchSet::ALL) && PitchSet::EMPTY.is_subset(set));
            assert_eq!(PitchSet::ALL.minus(set).union(set), PitchSet::ALL);
        }
    }
}

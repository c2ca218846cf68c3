//! The unit length of notes, and its multiples.

use modewright_core::Length;

/// The unit length in force, and what a single digit after a note makes of it.
pub(super) struct Unit([Length; 10]);

impl Unit {
    pub(super) fn of(unit: Length) -> Self {
        let times = |digit| u32::try_from(digit).ok().and_then(|digit| unit.times(digit, 1).ok());
        Self(std::array::from_fn(|digit| times(digit.max(1)).unwrap_or(unit)))
    }

    /// A note without a number.
    pub(super) const fn length(&self) -> Length {
        self.0[0]
    }

    /// A note with a digit behind it, from 1 to 9; 0 stands for none. The unit itself where so
    /// long a note has no length.
    #[inline]
    pub(super) fn times(&self, digit: u8) -> Length {
        self.0.get(usize::from(digit)).copied().unwrap_or(self.0[0])
    }
}

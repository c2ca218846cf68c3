//! Exact lengths.

use crate::error::TheoryError;
use std::{cmp::Ordering, fmt, str::FromStr};

/// A length or a place in time, as an exact fraction of a semibreve (whole note).
///
/// Always in lowest terms. Sums and products are checked: a length that no longer fits is an
/// error, never a rounded one.
///
/// # Examples
///
/// ```
/// use modewright_core::Length;
///
/// let quaver = Length::new(1, 8)?;
/// assert_eq!(quaver.plus(quaver)?, Length::new(1, 4)?);
/// // Three in the time of two: each is exactly a twelfth.
/// assert_eq!(quaver.times(2, 3)?.to_string(), "1/12");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Length {
    numerator: u32,
    denominator: u32,
}

impl Length {
    /// No time at all.
    pub const ZERO: Self = Self { numerator: 0, denominator: 1 };
    /// A semibreve (whole note).
    pub const SEMIBREVE: Self = Self { numerator: 1, denominator: 1 };
    /// A crotchet (quarter note).
    pub const CROTCHET: Self = Self { numerator: 1, denominator: 4 };
    /// A quaver (eighth note).
    pub const QUAVER: Self = Self { numerator: 1, denominator: 8 };

    /// A fraction of a semibreve.
    ///
    /// # Errors
    ///
    /// [`TheoryError::LengthOutOfRange`] for a zero denominator.
    pub const fn new(numerator: u32, denominator: u32) -> Result<Self, TheoryError> {
        Self::reduced(numerator as u64, denominator as u64)
    }

    #[inline]
    const fn reduced(numerator: u64, denominator: u64) -> Result<Self, TheoryError> {
        match Self::fitting(numerator, denominator) {
            Some(length) => Ok(length),
            None => Err(TheoryError::LengthOutOfRange),
        }
    }

    /// In lowest terms; `None` where that does not fit.
    #[inline]
    const fn fitting(numerator: u64, denominator: u64) -> Option<Self> {
        if denominator == 0 {
            return None;
        }
        let (numerator, denominator) = lowest_terms(numerator, denominator);
        if numerator > u32::MAX as u64 || denominator > u32::MAX as u64 {
            return None;
        }
        #[expect(clippy::cast_possible_truncation, reason = "checked above")]
        Some(Self { numerator: numerator as u32, denominator: denominator as u32 })
    }

    /// The upper part of the fraction in lowest terms.
    #[must_use]
    pub const fn numerator(self) -> u32 {
        self.numerator
    }

    /// The lower part of the fraction in lowest terms.
    #[must_use]
    pub const fn denominator(self) -> u32 {
        self.denominator
    }

    /// Whether it is no time at all.
    #[must_use]
    pub const fn is_zero(self) -> bool {
        self.numerator == 0
    }

    /// The sum.
    ///
    /// # Errors
    ///
    /// [`TheoryError::LengthOutOfRange`] where it no longer fits.
    pub const fn plus(self, other: Self) -> Result<Self, TheoryError> {
        match self.sum(other) {
            Some(sum) => Ok(sum),
            None => Err(TheoryError::LengthOutOfRange),
        }
    }

    /// The sum; `None` where it no longer fits.
    #[inline]
    pub(crate) const fn sum(self, other: Self) -> Option<Self> {
        let (a, b) = (self.denominator as u64, other.denominator as u64);
        // Each product is below 2^64 and at most one of them can pass 2^63 only if the sum
        // would not fit anyway, so the sum is taken checked.
        let (left, right) = (self.numerator as u64 * b, other.numerator as u64 * a);
        let Some(sum) = left.checked_add(right) else { return None };
        let below = a * b;
        // Note values have powers of two below, for which no division is needed; and what is
        // below their sum is no more than what was below one of them.
        if below.is_power_of_two() {
            let twos = (sum | below).trailing_zeros();
            let (sum, below) = (sum >> twos, below >> twos);
            #[expect(clippy::cast_possible_truncation, reason = "checked, or as said above")]
            return if sum >> 32 == 0 {
                Some(Self { numerator: sum as u32, denominator: below as u32 })
            } else {
                None
            };
        }
        Self::fitting(sum, below)
    }

    /// The difference; `None` where it would be negative or no longer fits.
    #[must_use]
    pub fn minus(self, other: Self) -> Option<Self> {
        let (a, b) = (u64::from(self.denominator), u64::from(other.denominator));
        let left = u64::from(self.numerator) * b;
        let right = u64::from(other.numerator) * a;
        Self::fitting(left.checked_sub(right)?, a * b)
    }

    /// The length times a fraction.
    ///
    /// # Errors
    ///
    /// [`TheoryError::LengthOutOfRange`] where it no longer fits, or `under` is zero.
    #[inline]
    pub const fn times(self, over: u32, under: u32) -> Result<Self, TheoryError> {
        Self::reduced(self.numerator as u64 * over as u64, self.denominator as u64 * under as u64)
    }

    /// How many of these fit exactly into `whole`; `None` where they do not fit a whole number
    /// of times.
    #[must_use]
    pub fn divides(self, whole: Self) -> Option<u64> {
        let over = u64::from(whole.numerator) * u64::from(self.denominator);
        let under = u64::from(whole.denominator) * u64::from(self.numerator);
        (under != 0 && over.is_multiple_of(under)).then(|| over / under)
    }

    /// The whole number of times that `part` fits into this; 0 for an empty part.
    #[must_use]
    pub const fn count(self, part: Self) -> u64 {
        let over = self.numerator as u64 * part.denominator as u64;
        let under = self.denominator as u64 * part.numerator as u64;
        match over.checked_div(under) {
            Some(times) => times,
            None => 0,
        }
    }

    /// The length in parts of a semibreve, rounded down: `ticks(960)` of a crotchet is 240.
    #[must_use]
    pub const fn ticks(self, per_semibreve: u32) -> u64 {
        let parts = self.numerator as u64 * per_semibreve as u64;
        // Note values have powers of two below, for which no division is needed.
        if self.denominator.is_power_of_two() {
            parts >> self.denominator.trailing_zeros()
        } else {
            parts / self.denominator as u64
        }
    }
}

/// Both parts divided by all that they share. Note values have powers of two below, for which
/// no division is needed.
#[inline]
const fn lowest_terms(numerator: u64, denominator: u64) -> (u64, u64) {
    if denominator.is_power_of_two() {
        let twos = (numerator | denominator).trailing_zeros();
        return (numerator >> twos, denominator >> twos);
    }
    let divisor = gcd(numerator, denominator);
    (numerator / divisor, denominator / divisor)
}

const fn gcd(mut a: u64, mut b: u64) -> u64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    if a == 0 { 1 } else { a }
}

impl Ord for Length {
    fn cmp(&self, other: &Self) -> Ordering {
        let left = u64::from(self.numerator) * u64::from(other.denominator);
        let right = u64::from(other.numerator) * u64::from(self.denominator);
        left.cmp(&right)
    }
}

impl PartialOrd for Length {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Length {
    /// `3/8`, and `2` for a whole number.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.denominator == 1 {
            write!(f, "{}", self.numerator)
        } else {
            write!(f, "{}/{}", self.numerator, self.denominator)
        }
    }
}

impl FromStr for Length {
    type Err = TheoryError;

    /// Reads the canonical form: `3/8` or `2`.
    fn from_str(text: &str) -> Result<Self, TheoryError> {
        let bad = || TheoryError::NotA { wanted: "length", found: text.to_owned() };
        let (over, under) = text.split_once('/').unwrap_or((text, "1"));
        Self::new(over.parse().map_err(|_| bad())?, under.parse().map_err(|_| bad())?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn any_length() -> impl Strategy<Value = Length> {
        (0..5000_u32, 1..5000_u32).prop_map(|(n, d)| Length::new(n, d).unwrap())
    }

    proptest! {
        #[test]
        fn sums_keep_their_laws(a in any_length(), b in any_length()) {
            let sum = a.plus(b).unwrap();
            prop_assert_eq!(sum, b.plus(a).unwrap());
            prop_assert_eq!(sum.minus(b), Some(a));
            prop_assert!(sum >= a);
            prop_assert_eq!(sum.to_string().parse::<Length>(), Ok(sum));
        }

        #[test]
        fn products_undo(a in any_length(), n in 1..5000_u32, d in 1..5000_u32) {
            let b = a.times(n, d).and_then(|b| b.times(d, n));
            if let Ok(b) = b { prop_assert_eq!(a, b); }
        }

        #[test]
        fn extremes_never_panic(n in any::<u32>(), d in any::<u32>(), m in any::<u32>(), e in any::<u32>()) {
            if let (Ok(a), Ok(b)) = (Length::new(n, d), Length::new(m, e)) {
                let _ = (a.plus(b), a.minus(b), a.times(m, e), a.divides(b), a.count(b), a.cmp(&b));
            }
        }
    }

    #[test]
    fn zero_is_nothing_and_empty_parts_are_refused() {
        assert!(Length::new(1, 0).is_err());
        assert_eq!(Length::new(0, 7).unwrap(), Length::ZERO);
        assert_eq!(Length::ZERO.divides(Length::SEMIBREVE), None);
        assert_eq!(Length::QUAVER.divides(Length::SEMIBREVE), Some(8));
        assert_eq!(Length::SEMIBREVE.ticks(960), 960);
    }
}

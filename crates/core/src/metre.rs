//! Metres: how a bar is divided.

use crate::{Length, error::TheoryError};
use std::{fmt, str::FromStr};

/// How a metre is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum MetreSign {
    /// Two numbers.
    #[default]
    Numbers,
    /// The common-time sign, for 4/4.
    Common,
    /// The cut-time sign, for 2/2.
    Cut,
}

/// The class of a metre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MetreKind {
    /// No metre is stated: bars have no fixed length.
    Free,
    /// Beats divide into two.
    Simple,
    /// Beats divide into three.
    Compound,
    /// Beats of unequal length.
    Irregular,
}

/// A metre, or the absence of one.
///
/// # Examples
///
/// ```
/// use modewright_core::{Length, Metre, MetreKind};
///
/// let jig = Metre::new(&[6], 8)?;
/// assert_eq!(jig.bar_length(), Some(Length::new(3, 4)?));
/// assert_eq!(jig.kind(), MetreKind::Compound);
/// // Seven quavers with a stated grouping have unequal beats.
/// let seven = Metre::new(&[2, 2, 3], 8)?;
/// assert_eq!(seven.kind(), MetreKind::Irregular);
/// assert_eq!(seven.beats(), vec![2, 2, 3]);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Metre {
    groups: [u8; Self::MAX_GROUPS],
    count: u8,
    value: u8,
    sign: MetreSign,
}

impl Metre {
    /// The most groups that an upper number may be written as: 2+2+3 are three.
    pub const MAX_GROUPS: usize = 12;
    /// The largest upper number.
    pub const MAX_UPPER: u32 = 64;
    /// No metre.
    pub const FREE: Self =
        Self { groups: [0; Self::MAX_GROUPS], count: 0, value: 0, sign: MetreSign::Numbers };
    /// 4/4 as two numbers.
    pub const FOUR_FOUR: Self = {
        let mut groups = [0; Self::MAX_GROUPS];
        groups[0] = 4;
        Self { groups, count: 1, value: 4, sign: MetreSign::Numbers }
    };

    /// A metre from its upper number, whole (`[7]`) or in groups (`[2, 2, 3]`), and its lower
    /// number, a power of two up to 128.
    ///
    /// # Errors
    ///
    /// [`TheoryError::BadMetre`] for an empty or zero group, too many groups, an upper number
    /// over [`Metre::MAX_UPPER`] or a lower number that is no note value.
    pub fn new(groups: &[u32], value: u32) -> Result<Self, TheoryError> {
        let upper = groups.iter().fold(0_u32, |sum, g| sum.saturating_add(*g));
        let bad = TheoryError::BadMetre { beats: upper, value };
        let fits = !groups.is_empty()
            && groups.len() <= Self::MAX_GROUPS
            && groups.iter().all(|&g| g > 0)
            && upper <= Self::MAX_UPPER
            && value.is_power_of_two()
            && value <= 128;
        if !fits {
            return Err(bad);
        }
        let mut metre = Self::FREE;
        for (to, &from) in metre.groups.iter_mut().zip(groups) {
            *to = u8::try_from(from).map_err(|_| bad.clone())?;
        }
        metre.count = u8::try_from(groups.len()).map_err(|_| bad.clone())?;
        metre.value = u8::try_from(value).map_err(|_| bad.clone())?;
        Ok(metre)
    }

    /// The same metre, printed with a sign.
    #[must_use]
    pub const fn with_sign(mut self, sign: MetreSign) -> Self {
        self.sign = sign;
        self
    }

    /// How it is printed.
    #[must_use]
    pub const fn sign(self) -> MetreSign {
        self.sign
    }

    /// The groups as written: one number, or several.
    #[must_use]
    pub fn groups(&self) -> &[u8] {
        &self.groups[..usize::from(self.count).min(Self::MAX_GROUPS)]
    }

    /// The upper number: how many note values fill a bar; 0 in free metre.
    #[must_use]
    pub fn upper(&self) -> u32 {
        self.groups().iter().map(|&g| u32::from(g)).sum()
    }

    /// The lower number: which note value is counted (4 is a crotchet); 0 in free metre.
    #[must_use]
    pub const fn lower(&self) -> u32 {
        self.value as u32
    }

    /// Whether no metre is stated.
    #[must_use]
    pub const fn is_free(&self) -> bool {
        self.count == 0
    }

    /// The length of a full bar; `None` in free metre.
    #[must_use]
    pub fn bar_length(&self) -> Option<Length> {
        Length::new(self.upper(), self.lower()).ok()
    }

    /// The note value that is counted; `None` in free metre.
    #[must_use]
    pub fn unit(&self) -> Option<Length> {
        Length::new(1, self.lower()).ok()
    }

    /// The class of the metre.
    ///
    /// Upper numbers 6, 9, 12 and so on over 4, 8 or 16 are compound unless written in groups;
    /// 2, 3, 4 are simple. Source: *Open Music Theory*, "Meter and time signatures".
    #[must_use]
    pub fn kind(&self) -> MetreKind {
        let upper = self.upper();
        match self.groups() {
            [] => MetreKind::Free,
            [_] if upper > 3 && upper.is_multiple_of(3) => MetreKind::Compound,
            [_] if matches!(upper, 1..=4) => MetreKind::Simple,
            [_] => MetreKind::Irregular,
            groups if groups.iter().all(|&g| g == 3) => MetreKind::Compound,
            groups if groups.iter().all(|&g| g == groups[0]) => MetreKind::Simple,
            _ => MetreKind::Irregular,
        }
    }

    /// The beats of a bar, each as a number of the note value that is counted.
    ///
    /// 4/4 is `[1, 1, 1, 1]`, 6/8 is `[3, 3]`. An irregular metre without stated grouping is
    /// read as twos with a three at the end: 7/8 is `[2, 2, 3]` (common practice, no source).
    #[must_use]
    pub fn beats(&self) -> Vec<u32> {
        let upper = self.upper();
        match (self.kind(), self.groups()) {
            (MetreKind::Free, _) => Vec::new(),
            (MetreKind::Compound, _) => vec![3; (upper / 3) as usize],
            (MetreKind::Simple, [_]) => vec![1; upper as usize],
            (_, [_]) => {
                let odd = upper % 2;
                let mut beats = vec![2; ((upper - 3 * odd) / 2) as usize];
                beats.extend(vec![3; odd as usize]);
                beats
            }
            (_, groups) => groups.iter().map(|&g| u32::from(g)).collect(),
        }
    }
}

impl fmt::Display for Metre {
    /// `6/8`, `2+2+3/8`, `free`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_free() {
            return f.write_str("free");
        }
        for (i, group) in self.groups().iter().enumerate() {
            if i > 0 {
                f.write_str("+")?;
            }
            write!(f, "{group}")?;
        }
        write!(f, "/{}", self.value)
    }
}

impl FromStr for Metre {
    type Err = TheoryError;

    /// Reads the canonical form: `6/8`, `2+2+3/8` or `free`.
    fn from_str(text: &str) -> Result<Self, TheoryError> {
        if text == "free" {
            return Ok(Self::FREE);
        }
        let bad = || TheoryError::NotA { wanted: "metre", found: text.to_owned() };
        let (upper, lower) = text.split_once('/').ok_or_else(bad)?;
        let groups: Result<Vec<u32>, _> = upper.split('+').map(str::parse).collect();
        Self::new(&groups.map_err(|_| bad())?, lower.parse().map_err(|_| bad())?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Classes of *Open Music Theory*, "Meter and time signatures", and Hutchinson §4.4.
    #[test]
    fn classes_and_beats() {
        use MetreKind::{Compound, Irregular, Simple};
        for (groups, value, kind, beats) in [
            (&[2][..], 4, Simple, &[1, 1][..]),
            (&[3], 4, Simple, &[1, 1, 1]),
            (&[4], 4, Simple, &[1, 1, 1, 1]),
            (&[3], 8, Simple, &[1, 1, 1]),
            (&[6], 8, Compound, &[3, 3]),
            (&[9], 8, Compound, &[3, 3, 3]),
            (&[12], 8, Compound, &[3, 3, 3, 3]),
            (&[6], 4, Compound, &[3, 3]),
            (&[5], 8, Irregular, &[2, 3]),
            (&[7], 8, Irregular, &[2, 2, 3]),
            (&[3, 2, 2], 8, Irregular, &[3, 2, 2]),
            (&[2, 2, 2, 3], 8, Irregular, &[2, 2, 2, 3]),
            (&[8], 8, Irregular, &[2, 2, 2, 2]),
        ] {
            let metre = Metre::new(groups, value).unwrap();
            assert_eq!(metre.to_string().parse(), Ok(metre));
            assert_eq!(metre.kind(), kind, "{metre}");
            assert_eq!(metre.beats(), beats, "{metre}");
            assert_eq!(metre.beats().iter().sum::<u32>(), metre.upper());
        }
    }

    #[test]
    fn impossible_metres_are_refused() {
        for (groups, value) in
            [(&[][..], 4), (&[0], 4), (&[4], 0), (&[4], 3), (&[4], 256), (&[65], 8), (&[1; 13], 8)]
        {
            assert!(Metre::new(groups, value).is_err(), "{groups:?}/{value}");
        }
        assert_eq!(Metre::FREE.bar_length(), None);
        assert!(Metre::FREE.beats().is_empty());
    }

    #[test]
    fn every_metre_has_beats_that_fill_it() {
        for upper in 1..=Metre::MAX_UPPER {
            for value in [1, 2, 4, 8, 16, 32, 64, 128] {
                let metre = Metre::new(&[upper], value).unwrap();
                assert_eq!(metre.beats().iter().sum::<u32>(), upper, "{metre}");
            }
        }
    }
}

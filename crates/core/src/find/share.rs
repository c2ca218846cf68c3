//! Shares of a whole, in whole parts of a thousand and twenty-four.

use super::features::SCALE;

/// Sums by pitch class before they are scaled.
pub(super) type Sums = [i64; 12];

/// The most that a block says of a note, either way.
const MOST: i64 = 4096;

/// A whole that parts are measured by.
#[derive(Clone, Copy, Debug)]
pub(super) struct Whole {
    whole: i64,
    /// 2^`bits` over the whole, rounded up: from 2^30 to 2^31; nothing where multiplying by it
    /// would not be exact.
    inverse: Option<u32>,
    bits: u32,
}

/// Wholes below this have an inverse. What it is too large by is at most the whole over 2^`bits`,
/// and `bits` is 31 more than the whole has places after its first: for a number of at most 2^12
/// wholes that stays below one part of the whole.
const LARGEST: i64 = 1 << 18;

impl Whole {
    pub(super) fn of(whole: i64) -> Self {
        if !(1..LARGEST).contains(&whole) {
            return Self { whole, inverse: None, bits: 0 };
        }
        let bits = 31 + whole.ilog2();
        let inverse = (1 << bits) / whole.unsigned_abs() + 1;
        Self { whole, inverse: u32::try_from(inverse).ok(), bits }
    }

    /// Another whole; where it is the same, nothing is worked out again.
    #[inline]
    pub(super) fn again(&mut self, whole: i64) -> Self {
        if self.whole != whole {
            *self = Self::of(whole);
        }
        *self
    }

    /// The number to multiply parts by, and the power of two to divide by then, for parts in
    /// [`SCALE`]; nothing where that would not be exact.
    pub(super) const fn scale(self) -> Option<(u32, u32)> {
        match self.inverse {
            Some(inverse) => Some((inverse, self.bits - SCALE.ilog2())),
            None => None,
        }
    }

    /// Numbers divided by it, towards nothing; nothing for an empty whole. None is less than
    /// nothing or more than 2^12 wholes.
    #[inline]
    pub(super) fn divide(self, numbers: &Sums) -> [i16; 12] {
        if let Some(inverse) = self.inverse {
            debug_assert!(numbers.iter().all(|n| (0..=self.whole << 12).contains(n)));
            return products(numbers, inverse, self.bits);
        }
        if self.whole > 0 { numbers.map(|number| clip(number / self.whole)) } else { [0; 12] }
    }

    /// Parts of it in [`SCALE`]; none is more than four times the whole.
    #[inline]
    pub(super) fn shares(self, parts: &Sums) -> [i16; 12] {
        // Beyond this the products below do not fit, and the last places say nothing.
        if self.whole >> 48 > 0 {
            return Self::of(self.whole >> 16).shares(&parts.map(|part| part >> 16));
        }
        if let Some((inverse, bits)) = self.scale() {
            debug_assert!(parts.iter().all(|part| (0..=self.whole << 2).contains(part)));
            return products(parts, inverse, bits);
        }
        self.divide(&parts.map(|part| part * i64::from(SCALE)))
    }
}

/// Numbers below 2^30 times an inverse. A plain loop that stands alone is turned into one that
/// takes several at a time; merged with its callers it is not.
#[inline(never)]
fn products(numbers: &Sums, inverse: u32, bits: u32) -> [i16; 12] {
    let mut parts = [0; 12];
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "from 0 to 2^30, and at most 2^12 when divided"
    )]
    for i in 0..12 {
        parts[i] = ((u64::from(numbers[i] as u32) * u64::from(inverse)) >> bits) as i16;
    }
    parts
}

/// Each part of what all parts add up to.
pub(super) fn shares(parts: &Sums) -> [i16; 12] {
    Whole::of(parts.iter().sum()).shares(parts)
}

/// For each note, how much more it sounds than the one a semitone above, from −1 to 1. Rounded
/// towards nothing, and exactly so below 2^40; all notes take one way, for there is no telling
/// which have a neighbour.
pub(super) fn ratios(sums: &Sums) -> [i16; 12] {
    std::array::from_fn(|class| {
        let (here, above) = (sums[class], sums[(class + 1) % 12]);
        #[expect(clippy::cast_precision_loss, reason = "as said above")]
        let ratio = ((here - above) * i64::from(SCALE)) as f64 / (here + above).max(1) as f64;
        #[expect(clippy::cast_possible_truncation, reason = "between -1024 and 1024")]
        clip(i64::from(ratio as i32))
    })
}

/// A number that a block may hold.
pub(super) fn clip(value: i64) -> i16 {
    i16::try_from(value.clamp(-MOST, MOST)).unwrap_or(0)
}

/// The square root of a share, in [`SCALE`]; nothing of less than nothing.
pub(super) fn root(share: i16) -> i16 {
    // Exact: whole numbers of 22 bits, whose roots lie far from whole numbers or on them.
    let root = libm::sqrt(f64::from(i32::from(share.max(0)) * SCALE));
    #[expect(clippy::cast_possible_truncation, reason = "at most 5793")]
    clip(i64::from(root as i32))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn sums_of_very_long_notes_have_shares() {
        for whole in [(1_i64 << 48) - 1, 1 << 48, 1 << 55, 1 << 60] {
            let parts = [whole / 4, whole / 2, whole, 0, 0, 0, 0, 0, 0, 0, 0, 0];
            let shares = Whole::of(whole).shares(&parts);
            let wanted = [256, 512, 1024, 0, 0, 0, 0, 0, 0, 0, 0, 0];
            let near = shares.iter().zip(wanted).all(|(share, wanted)| (share - wanted).abs() < 2);
            assert!(near, "{whole}: {shares:?}");
        }
    }

    proptest! {
        #[test]
        fn shares_are_exact(
            whole in -5..3 * LARGEST, parts in prop::array::uniform12(0..=4 * 1024_i64),
        ) {
            let near = [0, 1, whole - 1, whole, whole + 1, 4 * whole - 1, 4 * whole];
            let mut parts = parts.map(|part| part * whole / 1024);
            parts[..7].copy_from_slice(&near);
            let parts = parts.map(|part| part.clamp(0, 4 * whole.max(0)));
            let plain = parts.map(|part| if whole <= 0 { 0 } else { clip(part * 1024 / whole) });
            prop_assert_eq!(Whole::of(whole).shares(&parts), plain, "{:?} of {}", parts, whole);
        }
    }

    proptest! {
        #[test]
        fn ratios_are_exact(sums in prop::array::uniform12(0..1_i64 << 39), bits in 0..39_u32) {
            let sums: Sums = sums.map(|sum| sum >> bits);
            let plain: [i16; 12] = std::array::from_fn(|i| {
                let (here, above) = (sums[i], sums[(i + 1) % 12]);
                clip((here - above) * 1024 / (here + above).max(1))
            });
            prop_assert_eq!(ratios(&sums), plain, "{:?}", sums);
        }
    }

    #[test]
    fn roots_and_ratios() {
        assert_eq!([0, 1, 256, 1024, -5].map(root), [0, 32, 512, 1024, 0]);
        for share in 1..=4096 {
            assert_eq!(i32::from(root(share)), (i32::from(share) * SCALE).isqrt().min(4096));
        }
        let mut sums = [0; 12];
        (sums[0], sums[1], sums[4]) = (3, 1, 7);
        let ratios = ratios(&sums);
        assert_eq!(
            (ratios[0], ratios[1], ratios[3], ratios[4], ratios[11]),
            (512, 1024, -1024, 1024, -1024)
        );
    }
}

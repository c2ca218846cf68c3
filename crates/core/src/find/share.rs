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
    /// 2^[`BITS`] over the whole, rounded up; nothing where multiplying by it would not be exact.
    inverse: Option<u64>,
}

/// How exact an inverse is.
const BITS: u32 = 51;
/// Wholes below this have an inverse: a number of at most 2^12 wholes has a product that fits, and
/// what it is too large by stays below one part of the whole.
const LARGEST: i64 = 1 << 19;

impl Whole {
    pub(super) fn of(whole: i64) -> Self {
        let inverse = (1..LARGEST).contains(&whole).then(|| (1 << BITS) / whole.unsigned_abs() + 1);
        Self { whole, inverse }
    }

    /// Numbers divided by it, towards nothing; nothing for an empty whole. None is less than
    /// nothing or more than 2^12 wholes.
    #[inline]
    pub(super) fn divide(self, numbers: &Sums) -> [i16; 12] {
        let mut parts = [0; 12];
        if let Some(inverse) = self.inverse {
            for (part, &number) in parts.iter_mut().zip(numbers) {
                debug_assert!(
                    (0..=self.whole << 12).contains(&number),
                    "{number} of {}",
                    self.whole
                );
                // At most 2^12.
                *part = (number.cast_unsigned().wrapping_mul(inverse) >> BITS) as i16;
            }
        } else if self.whole > 0 {
            for (part, &number) in parts.iter_mut().zip(numbers) {
                *part = clip(number / self.whole);
            }
        }
        parts
    }

    /// Parts of it in [`SCALE`]; none is more than four times the whole.
    #[inline]
    pub(super) fn shares(self, parts: &Sums) -> [i16; 12] {
        // Beyond this the products below do not fit, and the last places say nothing.
        if self.whole >> 48 > 0 {
            return Self::of(self.whole >> 16).shares(&parts.map(|part| part >> 16));
        }
        let mut scaled = [0; 12];
        for (scaled, part) in scaled.iter_mut().zip(parts) {
            *scaled = part * i64::from(SCALE);
        }
        self.divide(&scaled)
    }
}

/// Each part of what all parts add up to.
pub(super) fn shares(parts: &Sums) -> [i16; 12] {
    Whole::of(parts.iter().sum()).shares(parts)
}

/// For each note, how much more it sounds than the one a semitone above, from −1 to 1.
pub(super) fn ratios(sums: &Sums) -> [i16; 12] {
    let mut ratios = [0; 12];
    for (class, ratio) in ratios.iter_mut().enumerate() {
        let (here, above) = (sums[class], sums[(class + 1) % 12]);
        *ratio = match (here, above) {
            // Most notes have no neighbour that sounds: all or nothing.
            (0, 0) => 0,
            (_, 0) => clip(i64::from(SCALE)),
            (0, _) => clip(-i64::from(SCALE)),
            _ => clip((here - above) * i64::from(SCALE) / (here + above)),
        };
    }
    ratios
}

/// A number that a block may hold.
pub(super) fn clip(value: i64) -> i16 {
    i16::try_from(value.clamp(-MOST, MOST)).unwrap_or(0)
}

/// The square root of a share, in [`SCALE`].
pub(super) fn root(share: i16) -> i16 {
    let square = i32::from(share.max(0)) * SCALE;
    clip(i64::from(square.isqrt()))
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

    #[test]
    fn roots_and_ratios() {
        assert_eq!([0, 1, 256, 1024, -5].map(root), [0, 32, 512, 1024, 0]);
        let mut sums = [0; 12];
        (sums[0], sums[1], sums[4]) = (3, 1, 7);
        let ratios = ratios(&sums);
        assert_eq!(
            (ratios[0], ratios[1], ratios[3], ratios[4], ratios[11]),
            (512, 1024, -1024, 1024, -1024)
        );
    }
}

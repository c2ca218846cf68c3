//! Random numbers that are the same each time.

/// A generator after Steele, Lea and Flood, "Fast splittable pseudorandom number generators"
/// (2014): `SplitMix64`.
#[derive(Clone, Debug)]
pub struct Chance(u64);

impl Chance {
    /// Begins with a number; the same number gives the same choices.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// Any number.
    pub const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A number below `end`; 0 where `end` is 0.
    pub fn below(&mut self, end: usize) -> usize {
        let end = u64::try_from(end).unwrap_or(u64::MAX);
        usize::try_from(self.next().checked_rem(end).unwrap_or(0)).unwrap_or(0)
    }

    /// True once in so many times.
    pub fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    /// One of several; `None` of none.
    pub fn one<'a, T>(&mut self, of: &'a [T]) -> Option<&'a T> {
        of.get(self.below(of.len()))
    }

    /// Small numbers often, large ones rarely: at most two to the power `bits`.
    pub fn small(&mut self, bits: usize) -> usize {
        let bits = self.below(bits + 1);
        1 + self.below(1_usize << bits.min(30))
    }
}

//! The pitches that can be reached.

use crate::Pitch;

/// A set of pitches by their MIDI numbers, 0 to 127.
///
/// # Examples
///
/// ```
/// use modewright_core::transpose::Reach;
///
/// let reach: Reach = (62..=83).collect();
/// assert!(reach.contains(62) && !reach.contains(60));
/// // Middle C lies below it; an octave up it lies within.
/// assert_eq!(reach.octaves_into(60), 1);
/// // Nothing is ever moved into an empty reach.
/// assert_eq!(Reach::default().octaves_into(60), 0);
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Reach(u128);

impl Reach {
    /// Whether it holds a MIDI number.
    #[must_use]
    pub const fn contains(self, midi: i32) -> bool {
        0 <= midi && midi < 128 && self.0 >> midi & 1 == 1
    }

    /// Whether it holds nothing.
    #[must_use]
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The lowest number; `None` of nothing.
    #[must_use]
    pub const fn lowest(self) -> Option<i32> {
        if self.is_empty() { None } else { Some(self.0.trailing_zeros().cast_signed()) }
    }

    /// The highest number; `None` of nothing.
    #[must_use]
    pub const fn highest(self) -> Option<i32> {
        if self.is_empty() { None } else { Some(127 - self.0.leading_zeros().cast_signed()) }
    }

    /// The fewest octaves, up or down, that bring a number into the set: 0 where it lies there
    /// already, or where no octave does. Of two equal ways up comes first.
    #[must_use]
    pub fn octaves_into(self, midi: i32) -> i8 {
        let ways = [0_i8, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6, 7, -7, 8, -8, 9, -9, 10, -10];
        let inside = |&octaves: &i8| self.contains(midi.saturating_add(i32::from(octaves) * 12));
        ways.into_iter().find(inside).unwrap_or(0)
    }
}

impl FromIterator<i32> for Reach {
    /// Numbers outside 0 to 127 are left out.
    fn from_iter<I: IntoIterator<Item = i32>>(numbers: I) -> Self {
        let inside = numbers.into_iter().filter(|n| (0..128).contains(n));
        Self(inside.fold(0, |set, n| set | 1 << n))
    }
}

impl FromIterator<Pitch> for Reach {
    fn from_iter<I: IntoIterator<Item = Pitch>>(pitches: I) -> Self {
        pitches.into_iter().map(|pitch| i32::from(pitch.midi())).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_is_folded_as_little_as_can_be() {
        for (low, high) in [(60, 71), (62, 83), (0, 127), (60, 64)] {
            let reach: Reach = (low..=high).collect();
            assert_eq!((reach.lowest(), reach.highest()), (Some(low), Some(high)));
            for midi in 0..128 {
                let octaves = i32::from(reach.octaves_into(midi));
                let possible = (-10..=10).filter(|k| reach.contains(midi + k * 12));
                let least = possible.map(i32::abs).min();
                assert_eq!(octaves.abs(), least.unwrap_or(0), "{midi} into {low} to {high}");
                assert!(least.is_none() || reach.contains(midi + octaves * 12));
            }
        }
        let none: Reach = std::iter::empty::<i32>().collect();
        assert_eq!((none.lowest(), none.highest(), none.octaves_into(60)), (None, None, 0));
        assert_eq!([-1, 128].into_iter().collect::<Reach>(), none);
    }
}

//! Lengths as printed note values: a head with its dots, or several tied together.

use modewright_core::Length;

/// A printed value: a power of two of a semibreve, with dots.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Value {
    /// 0 is a semibreve, 1 a minim, 3 a quaver, −1 a breve.
    pub(crate) power: i8,
    /// Dots after it.
    pub(crate) dots: u8,
}

impl Value {
    /// The shortest value that is printed, a 128th.
    const SHORTEST: i8 = 7;
    const LONGEST: i8 = -1;

    /// Flags or beams of the value.
    pub(crate) const fn flags(self) -> u8 {
        if self.power > 2 { self.power.unsigned_abs() - 2 } else { 0 }
    }

    /// Whether the value has a stem.
    pub(crate) const fn has_stem(self) -> bool {
        self.power > 0
    }

    /// Its length; a value that is printed always has one.
    pub(crate) fn length(self) -> Length {
        let dots = u32::from(self.dots.min(4));
        // 1 + 1/2 + 1/4…: (2^(dots+1) − 1) / 2^dots.
        let over = (2_u32 << dots) - 1;
        let under = 1_u32 << dots;
        let (over, under) = match self.power {
            -1 => (over * 2, under),
            power => (over, under << power.clamp(0, Self::SHORTEST).unsigned_abs()),
        };
        Length::new(over, under).unwrap_or(Length::SEMIBREVE)
    }
}

/// Most values that one length is written as.
const MOST: usize = 6;

/// The values that a length is written as, the longest first; several are tied. A length that no
/// values add up to is written as the nearest shorter sum, never as nothing.
pub(crate) fn values(length: Length) -> Vec<Value> {
    let mut values = Vec::with_capacity(1);
    let mut left = length;
    while !left.is_zero() && values.len() < MOST {
        let Some(value) = longest(left) else { break };
        values.push(value);
        match left.minus(value.length()) {
            Some(rest) => left = rest,
            None => break,
        }
    }
    if values.is_empty() {
        values.push(Value { power: Value::SHORTEST, dots: 0 });
    }
    values
}

/// The longest single value of at most two dots that fits; three where that is exact.
fn longest(length: Length) -> Option<Value> {
    let power = (Value::LONGEST..=Value::SHORTEST)
        .find(|&power| Value { power, dots: 0 }.length() <= length)?;
    let exact = (0..=3).map(|dots| Value { power, dots }).find(|v| v.length() == length);
    Some(exact.unwrap_or(Value { power, dots: 0 }))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(over: u32, under: u32) -> Vec<(i8, u8)> {
        let values = values(Length::new(over, under).unwrap());
        values.into_iter().map(|v| (v.power, v.dots)).collect()
    }

    #[test]
    fn every_plain_and_dotted_value_is_itself() {
        for power in -1..=7 {
            for dots in 0..=3 {
                let value = Value { power, dots };
                assert_eq!(values(value.length()), [value]);
            }
        }
    }

    #[test]
    fn sums_are_tied_and_the_unprintable_is_cut() {
        assert_eq!(told(5, 8), [(1, 0), (3, 0)]);
        assert_eq!(told(9, 8), [(0, 0), (3, 0)]);
        assert_eq!(told(0, 1), [(7, 0)]);
        assert_eq!(told(1, 1000), [(7, 0)]);
        // A third of a semibreve without a tuplet: a quarter and what more fits.
        assert_eq!(told(1, 3)[0], (2, 0));
        assert_eq!(told(9999, 1).len(), MOST);
    }
}

//! Note values: which lengths one written note can have, and what to do with the others.

mod joins;
mod notatable;
mod rows;
mod tuplets;

pub use joins::join_by_beat;
pub use notatable::notatable;
pub use rows::{Row, add_rows};
pub use tuplets::mark_tuplets;

use modewright_core::Length;

/// A note value with its dots.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Value {
    /// Place in [`TYPES`].
    kind: usize,
    pub(crate) dots: u8,
}

/// The most dots that a note is written with.
const MOST_DOTS: u8 = 3;

/// Note values as MusicXML 4.0 names them (`note-type-value`), each half of the one before;
/// the first is eight semibreves.
const TYPES: [&str; 14] = [
    "maxima", "long", "breve", "whole", "half", "quarter", "eighth", "16th", "32nd", "64th",
    "128th", "256th", "512th", "1024th",
];

impl Value {
    /// The value of a length; `None` for a length that one note cannot have.
    pub(crate) fn of(length: Length) -> Option<Self> {
        let (over, under) = (length.numerator(), length.denominator());
        if over == 0 {
            return None;
        }
        // With n dots a note is worth 2^(n+1) - 1 of its smallest part.
        let odd = over >> over.trailing_zeros();
        let dots = u8::try_from(odd.trailing_ones() - 1).ok().filter(|&d| d <= MOST_DOTS)?;
        let whole = odd + 1;
        if !whole.is_power_of_two() || !under.is_power_of_two() {
            return None;
        }
        // The note without its dots, as a power of two of a semibreve.
        let power = i64::from(over.ilog2()) - i64::from(under.ilog2());
        let kind = usize::try_from(3 - power).ok().filter(|&kind| kind < TYPES.len())?;
        Some(Self { kind, dots })
    }

    /// The value of a name; `None` for a name that is none.
    #[cfg(feature = "musicxml")]
    pub(crate) fn named(name: &str, dots: u8) -> Option<Self> {
        let kind = TYPES.iter().position(|&known| known == name)?;
        Some(Self { kind, dots })
    }

    #[cfg(feature = "musicxml")]
    pub(crate) fn name(self) -> &'static str {
        TYPES.get(self.kind).copied().unwrap_or_default()
    }

    /// How long a note of this value is.
    pub(crate) fn length(self) -> Length {
        // Eight semibreves, halved so often.
        let plain = Length::SEMIBREVE.times(8, 1 << self.kind).unwrap_or(Length::SEMIBREVE);
        let dots = u32::from(self.dots.min(8));
        plain.times((2 << dots) - 1, 1 << dots).unwrap_or(plain)
    }

    /// How many flags or beams a note of this value has.
    #[cfg(feature = "musicxml")]
    pub(crate) const fn flags(self) -> usize {
        self.kind.saturating_sub(5)
    }
}

/// The fewest notes that make up a length, the longest first; `None` where no whole number of
/// note values does.
pub(crate) fn values(length: Length) -> Option<Vec<Value>> {
    let mut left = length;
    let mut values = Vec::new();
    while !left.is_zero() {
        if let Some(value) = Value::of(left) {
            values.push(value);
            return Some(values);
        }
        // The largest power of two that fits: what is left has one binary digit less.
        let (over, under) = (left.numerator(), left.denominator());
        if !under.is_power_of_two() {
            return None;
        }
        let most = Length::new(1 << over.ilog2(), under).ok()?.min(Length::new(8, 1).ok()?);
        values.push(Value::of(most)?);
        left = left.minus(most)?;
        if values.len() > 64 {
            return None;
        }
    }
    Some(values)
}

/// The tuplet that a length outside any tuplet needs: so many in the time of so many.
pub(crate) fn tuplet_of(length: Length) -> Option<(u8, u8)> {
    let odd = length.denominator() >> length.denominator().trailing_zeros();
    let actual = u8::try_from(odd).ok().filter(|&odd| odd > 1 && odd < 100)?;
    Some((actual, 1 << actual.ilog2()))
}

#[cfg(all(test, feature = "musicxml"))]
mod tests {
    use super::*;

    #[test]
    fn names_and_lengths_belong_together() {
        for (i, name) in TYPES.into_iter().enumerate() {
            for dots in 0..=MOST_DOTS {
                let value = Value::named(name, dots).unwrap();
                assert_eq!((value.kind, value.name()), (i, name));
                assert_eq!(Value::of(value.length()), Some(value), "{name} {dots}");
            }
        }
        // Values of the notation reference, by their fraction of a semibreve.
        for (length, name, dots) in
            [("3/8", "quarter", 1), ("7/16", "quarter", 2), ("1/8", "eighth", 0), ("3", "breve", 1)]
        {
            let value = Value::of(length.parse().unwrap()).unwrap();
            assert_eq!((value.name(), value.dots), (name, dots), "{length}");
        }
        assert_eq!(Value::of("5/8".parse().unwrap()), None);
        assert_eq!(Value::of("1/12".parse().unwrap()), None);
        assert_eq!(Value::of(Length::ZERO), None);
    }

    #[test]
    fn other_lengths_are_sums() {
        for (length, sum) in [("5/8", "1/2 1/8"), ("9/8", "1 1/8"), ("11/16", "1/2 3/16")] {
            let values = values(length.parse().unwrap()).unwrap();
            let parts: Vec<String> = values.iter().map(|v| v.length().to_string()).collect();
            assert_eq!(parts.join(" "), sum);
        }
        assert_eq!(values(Length::new(1, 12).unwrap()), None);
        assert_eq!(tuplet_of(Length::new(1, 12).unwrap()), Some((3, 2)));
        assert_eq!(tuplet_of(Length::new(1, 20).unwrap()), Some((5, 4)));
        assert_eq!(tuplet_of(Length::new(1, 4).unwrap()), None);
    }
}

//! What numbers behind letters mean.

use crate::piece::cut;

/// Counts notes and the numbers that stand behind them, to tell octaves from lengths.
///
/// Numbers are octaves if more than half of the notes have one, every one is 3 to 6, none is a
/// fraction and the letters are not capital and small in the ABC way: `D4 E4 F#4`. Otherwise
/// they are lengths: `D2 E F3`. Two numbers, `D4/2`, are never octaves.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct NumberCount {
    notes: usize,
    numbered: usize,
    outside: bool,
    fraction: bool,
    capital: bool,
    small: bool,
}

impl NumberCount {
    /// Counts a note and what stands behind it, after its sharps and flats.
    pub(crate) fn add(&mut self, letter: char, after: &str) {
        self.count(letter.is_ascii_uppercase(), letter.is_ascii_lowercase());
        let after = after.trim_start_matches(['#', '♯', '♭', '♮', '\'', '’', '′', ',']);
        let digits = after.len() - after.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let (number, behind) = cut(after, digits);
        let number = (digits > 0).then(|| number.parse().unwrap_or(u32::MAX));
        self.number(number, behind.starts_with('/'));
    }

    /// Counts a note by its case; neither where case means nothing.
    pub(crate) const fn count(&mut self, capital: bool, small: bool) {
        self.notes += 1;
        self.capital |= capital;
        self.small |= small;
    }

    /// Counts what stands behind a note.
    pub(crate) fn number(&mut self, number: Option<u32>, fraction: bool) {
        self.fraction |= fraction;
        self.numbered += usize::from(number.is_some());
        self.outside |= number.is_some_and(|n| !(3..=6).contains(&n));
    }

    /// Whether any note has a number or a fraction.
    pub(crate) const fn any(&self) -> bool {
        self.numbered > 0 || self.fraction
    }

    /// Whether the numbers are octaves.
    pub(crate) const fn are_octaves(&self) -> bool {
        let mixed = self.capital && self.small;
        self.numbered * 2 > self.notes && !self.outside && !self.fraction && !mixed
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn octaves_and_lengths() {
        let count = |text: &str| {
            let mut count = NumberCount::default();
            for word in text.split(' ') {
                count.add(word.chars().next().unwrap(), &word[1..]);
            }
            (count.any(), count.are_octaves())
        };
        for (text, any, octaves) in [
            ("D4 E4 F#4", true, true),
            ("D4 E F#4", true, true),
            ("D4", true, true),
            ("G3 A3 B3 C4 D5 E6", true, true),
            ("D4 E F G", true, false),
            ("D4 E F3 G", true, false),
            ("D2 E4 F4", true, false),
            ("D4 e4 f4", true, false),
            ("D4/2 E4", true, false),
            ("D E/", true, false),
            ("D E F", false, false),
            ("D44 E4", true, false),
        ] {
            assert_eq!(count(text), (any, octaves), "{text}");
        }
    }
}

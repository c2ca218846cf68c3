//! What numbers behind letters mean.

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
        self.notes += 1;
        self.capital |= letter.is_ascii_uppercase();
        self.small |= letter.is_ascii_lowercase();
        let after = after.trim_start_matches(['#', '♯', '♭', '♮', '\'', '’', '′', ',']);
        let digits = after.len() - after.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let (number, behind) = after.split_at(digits);
        self.fraction |= behind.starts_with('/');
        if !number.is_empty() {
            self.numbered += 1;
            self.outside |= !matches!(number, "3" | "4" | "5" | "6");
        }
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

    /// Takes the letters' case as meaningless, as in a message that begins with a capital.
    pub(crate) const fn ignore_case(&mut self) {
        self.capital = false;
        self.small = false;
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

//! Pieces of texts, with little code: the searches of the standard library bring several KiB, and
//! its cuts panic in words that a phone would load.

/// Whether a text holds a piece that is not empty.
pub(crate) fn holds(text: &str, piece: &str) -> bool {
    text.as_bytes().windows(piece.len().max(1)).any(|part| part == piece.as_bytes())
}

/// Whether a word may hold a character: any letter, and the ten digits.
pub(crate) fn of_word(c: char) -> bool {
    c.is_alphabetic() || c.is_ascii_digit()
}

/// A text cut at a byte; whole where no character begins there.
pub(crate) fn cut(text: &str, at: usize) -> (&str, &str) {
    text.split_at_checked(at).unwrap_or((text, ""))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piece_is_found_wherever_it_stands() {
        for (text, piece, found) in
            [("abc", "bc", true), ("abc", "ac", false), ("", "a", false), ("é", "é", true)]
        {
            assert_eq!(holds(text, piece), found, "{text} {piece}");
        }
    }

    #[test]
    fn a_cut_within_a_character_takes_nothing_apart() {
        assert_eq!(cut("aé", 1), ("a", "é"));
        assert_eq!(cut("aé", 2), ("aé", ""));
        assert_eq!(cut("aé", 9), ("aé", ""));
    }
}

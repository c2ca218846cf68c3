//! What case, numbers and dashes mean in a text: decided once, by the whole of it.

use super::NumberCount;
use super::scanner::Place;
use super::token::{Note, Token, TokenKind};

/// The habits of whoever typed the text.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Habits {
    /// Whether small letters lie an octave above capitals, in the ABC way.
    pub(super) case_is_octave: bool,
    /// Whether numbers behind notes are octaves.
    pub(super) numbers_are_octaves: bool,
    /// Whether any note has a length.
    pub(super) has_lengths: bool,
    /// Whether the text has bar lines.
    pub(super) has_bars: bool,
    /// The first dash, where dashes are rests.
    pub(super) dash_is_rest: Option<Place>,
}

impl Habits {
    /// Looks at all notes.
    pub(super) fn of(tokens: &[Token]) -> Self {
        let case_is_octave = case_is_octave(tokens);
        let mut numbers = NumberCount::default();
        let mut rest_lengths = false;
        for token in tokens {
            match &token.kind {
                TokenKind::Note(note) => {
                    numbers.count(case_is_octave && note.capital, case_is_octave && !note.capital);
                    numbers.number(note.number, note.under.is_some());
                }
                TokenKind::Rest(length) => rest_lengths |= length.over.or(length.under).is_some(),
                _ => {}
            }
        }
        let numbers_are_octaves = numbers.are_octaves();
        Self {
            case_is_octave,
            numbers_are_octaves,
            has_lengths: rest_lengths || numbers.any() && !numbers_are_octaves,
            has_bars: tokens.iter().any(|t| matches!(t.kind, TokenKind::Bar(_))),
            dash_is_rest: dash_is_rest(tokens),
        }
    }
}

/// Whether the case of letters means octaves, as in ABC: there are both kinds, and the capitals
/// do not only open lines and sentences, where a telephone puts them by itself.
fn case_is_octave(tokens: &[Token]) -> bool {
    let (mut small, mut inside) = (false, false);
    for token in tokens {
        if let TokenKind::Note(note) = &token.kind {
            small |= !note.capital;
            inside |= note.capital && !note.opens;
        }
    }
    small && inside
}

/// The first dash, if dashes are rests. They are not where one stands between most of the notes
/// (or groups of notes), at least twice as often as a blank alone; two in a row always are.
fn dash_is_rest(tokens: &[Token]) -> Option<Place> {
    let (mut alone, mut with_dash, mut several) = (0_usize, 0_usize, false);
    let mut first = None;
    // Dashes since the last note of the line.
    let mut dashes: Option<usize> = None;
    for token in tokens {
        match &token.kind {
            TokenKind::Note(Note { joined: false, .. }) | TokenKind::Rest(_) => {
                match dashes {
                    Some(0) => alone += 1,
                    Some(_) => with_dash += 1,
                    None => {}
                }
                dashes = Some(0);
            }
            TokenKind::Dash => {
                first = first.or(Some(token.place));
                several |= dashes.is_some_and(|n| n > 0);
                dashes = dashes.map(|n| n + 1);
            }
            TokenKind::LineEnd | TokenKind::Bar(_) => dashes = None,
            _ => {}
        }
    }
    let parts = !several && with_dash > 0 && with_dash >= 2 * alone;
    first.filter(|_| !parts)
}

#[cfg(test)]
mod tests {
    use super::super::lex::tokens;
    use super::*;

    #[test]
    fn case() {
        for (text, counts) in [
            ("D E F# G A B c# d", true),
            ("D E F# G A B C# D", false),
            ("d e f# g a b c# d", false),
            ("D e f# g a b", false),
            ("D e f# g\nA b c# d", false),
            ("D e f. G a b", false),
            ("D e f G a b", true),
            ("D d", false),
            ("Bb a g f", false),
            ("d Bb A", true),
        ] {
            assert_eq!(Habits::of(&tokens(text, 1)).case_is_octave, counts, "{text}");
        }
    }

    #[test]
    fn numbers() {
        for (text, octaves, lengths) in [
            ("D4 E4 F#4 G4", true, false),
            ("D4 e4 f#4 g4", true, false),
            ("Bb3 C4 D4", true, false),
            ("D E F# G4", false, true),
            ("D2 E F2", false, true),
            ("D E/2 F", false, true),
            ("D E z2", false, true),
            ("d4 D4 e4", false, true),
            ("D E F", false, false),
        ] {
            let habits = Habits::of(&tokens(text, 1));
            assert_eq!(
                (habits.numbers_are_octaves, habits.has_lengths),
                (octaves, lengths),
                "{text}"
            );
        }
    }

    #[test]
    fn dashes() {
        for (text, rest) in [
            ("d - e - f# - g", false),
            ("d-e-f#-g", false),
            ("- d e f\n- g a b", false),
            ("DEF - GAB - cde", false),
            ("D - - E", true),
            ("D E - F G A", true),
            ("D E F -", true),
            ("D – E – F", false),
            ("d - e - f -\ng - a - b -", false),
        ] {
            assert_eq!(Habits::of(&tokens(text, 1)).dash_is_rest.is_some(), rest, "{text}");
        }
    }
}

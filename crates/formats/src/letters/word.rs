//! Runs of letters: notes, or something else.
//!
//! When is a small b a flat, and when the note B?
//!
//! - After a capital, without a blank: a flat. `Bb`, `Eb` and `Ab` are B, E and A flat; the note
//!   B above would be a ninth or more away, which nobody joins on. `Bbb` is a double flat.
//! - After a small letter, as a word of two letters (`bb`, `eb`): a flat, if the text writes its
//!   notes one by one; two notes, if it joins them into groups (`gab dbg`).
//! - In a longer run of small letters (`gabc`), and alone (`A b c`): the note.

use modewright_core::Alter;

/// Whether a letter is a note name.
pub(super) const fn is_note(c: char) -> bool {
    matches!(c, 'A'..='G' | 'a'..='g')
}

/// Whether a letter is a rest.
pub(super) const fn is_rest(c: char) -> bool {
    matches!(c, 'z' | 'Z')
}

/// A letter of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Letter {
    /// A note; its alteration where a small b says it; how many letters it takes.
    Note(char, Option<Alter>, usize),
    Rest,
    /// The letter H.
    H(char),
}

/// Whether a run joins notes into a group: then small letters with b are two notes.
pub(super) fn joins(run: &str) -> bool {
    let notes = run.chars().all(|c| is_note(c) || is_rest(c));
    notes
        && match run.as_bytes() {
            [] | [_] | [_, b'b'] => false,
            [a, b'b', b'b'] => !a.is_ascii_uppercase(),
            _ => true,
        }
}

/// The notes of a run of letters; `None` if it is a word of another kind.
pub(super) fn notes(run: &str, joined_text: bool) -> Option<impl Iterator<Item = Letter> + '_> {
    let is_h = |c: char| c == 'H' || c == 'h' && run.len() == 1;
    if run.is_empty() || !run.chars().all(|c| is_note(c) || is_rest(c) || is_h(c)) {
        return None;
    }
    let mut rest = run.as_bytes();
    Some(std::iter::from_fn(move || {
        let [first, tail @ ..] = rest else { return None };
        let letter = char::from(*first);
        let flats = match tail {
            _ if !is_note(letter) => 0,
            [b'b', b'b'] if first.is_ascii_uppercase() && run.len() == 3 => 2,
            [b'b', ..] if first.is_ascii_uppercase() => 1,
            [b'b'] if run.len() == 2 && !joined_text => 1,
            _ => 0,
        };
        rest = tail.get(flats..).unwrap_or_default();
        let alter = match flats {
            0 => None,
            1 => Some(Alter::FLAT),
            _ => Some(Alter::DOUBLE_FLAT),
        };
        Some(match letter {
            c if is_rest(c) => Letter::Rest,
            c if is_note(c) => Letter::Note(c, alter, 1 + flats),
            c => Letter::H(c),
        })
    }))
}

/// What words say about the note before them, or joined to its letter: `F sharp`, `Bflat`.
pub(super) fn sign_word(word: &str) -> Option<Alter> {
    [("sharp", Alter::SHARP), ("flat", Alter::FLAT), ("natural", Alter::NATURAL)]
        .into_iter()
        .find_map(|(name, alter)| word.eq_ignore_ascii_case(name).then_some(alter))
}

/// A letter with a sign word joined to it: `Fsharp`.
pub(super) fn note_with_word(run: &str) -> Option<(char, Alter)> {
    let first = run.chars().next().filter(|&c| is_note(c))?;
    Some((first, sign_word(run.get(1..)?)?))
}

/// Whether a word is notes and nothing else, to tell titles from tunes: `D`, `Bb`, `F#4`, `G,A,B`.
pub(super) fn looks_like_notes(word: &str) -> bool {
    let part_is_notes = |part: &str| {
        part.starts_with(|c| is_note(c) || is_rest(c))
            && part.chars().all(|c| is_note(c) || is_rest(c) || "#♯♭♮'’′0123456789/".contains(c))
    };
    let parts = word.split([',', '.', ';', '(', ')', '-', '–', '—', '"', '“', '”']);
    let mut parts = parts.filter(|part| !part.is_empty()).peekable();
    parts.peek().is_some() && parts.all(part_is_notes)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Runs, in texts of single notes and in texts of groups.
    #[test]
    fn flats_and_the_note_b() {
        for (run, single, grouped) in [
            ("B", "B", "B"),
            ("b", "b", "b"),
            ("Bb", "B♭", "B♭"),
            ("bb", "b♭", "b b"),
            ("eb", "e♭", "e b"),
            ("ab", "a♭", "a b"),
            ("Eb", "E♭", "E♭"),
            ("Bbb", "B♭♭", "B♭♭"),
            ("bbb", "b b b", "b b b"),
            ("ebb", "e b b", "e b b"),
            ("gabc", "g a b c", "g a b c"),
            ("GABc", "G A B c", "G A B c"),
            ("EbDC", "E♭ D C", "E♭ D C"),
            ("dBAG", "d B A G", "d B A G"),
            ("dzB", "d z B", "d z B"),
            ("H", "H?", "H?"),
            ("h", "h?", "h?"),
            ("AHc", "A H? c", "A H? c"),
            ("zb", "z b", "z b"),
        ] {
            for (joined, wanted) in [(false, single), (true, grouped)] {
                let words: Vec<String> = notes(run, joined)
                    .unwrap()
                    .map(|letter| match letter {
                        Letter::Note(c, None, _) => c.to_string(),
                        Letter::Note(c, Some(a), _) if a == Alter::FLAT => format!("{c}♭"),
                        Letter::Note(c, Some(_), _) => format!("{c}♭♭"),
                        Letter::Rest => "z".to_owned(),
                        Letter::H(c) => format!("{c}?"),
                    })
                    .collect();
                assert_eq!(words.join(" "), wanted, "{run}, joined: {joined}");
            }
        }
        for run in ["", "had", "hello", "Dm", "é", "x"] {
            assert!(notes(run, true).is_none(), "{run}");
        }
    }

    #[test]
    fn groups_are_told_from_flats() {
        for (run, joined) in [
            ("ab", false),
            ("Bb", false),
            ("Bbb", false),
            ("bbb", true),
            ("AB", true),
            ("A", false),
        ] {
            assert_eq!(joins(run), joined, "{run}");
        }
    }

    #[test]
    fn words_for_signs() {
        assert_eq!(note_with_word("Fsharp"), Some(('F', Alter::SHARP)));
        assert_eq!(note_with_word("bflat"), Some(('b', Alter::FLAT)));
        assert_eq!(note_with_word("flat"), None);
        assert_eq!(sign_word("Natural"), Some(Alter::NATURAL));
    }

    #[test]
    fn note_names_in_prose() {
        for word in [
            "D",
            "F#",
            "Bb",
            "c#'",
            "D4",
            "ded",
            "F#G",
            "(A",
            "G,",
            "B♭",
            "G,A,B,CDE",
            "d-e-f#",
            "“D",
            "F#4G4",
        ] {
            assert!(looks_like_notes(word), "{word}");
        }
        for word in ["Tide", "in", "", "4", "D-day", "é", "Hob", "#"] {
            assert!(!looks_like_notes(word), "{word}");
        }
    }
}

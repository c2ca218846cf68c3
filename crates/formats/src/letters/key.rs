//! Keys in words: `D`, `E minor`, `F# dorian`, `Bb major`.

use super::word::{is_note, sign_word};
use crate::names;
use modewright_core::{Alter, Key, Mode, Spelling, Step};

/// Reads a home note and perhaps a mode; the note alone is major.
///
/// A mode counts by its first three letters, as ABC 2.1 §3.1.14 has it.
pub(super) fn key(text: &str) -> Option<Key> {
    let text = text.trim().trim_end_matches(['.', ')', '!']).trim_end();
    let first = text.chars().next().filter(|&c| is_note(c))?;
    let step = Step::from_letter(first)?;
    let rest = text.get(1..)?;
    let signs = [("#", Alter::SHARP), ("♯", Alter::SHARP), ("♭", Alter::FLAT), ("b", Alter::FLAT)];
    let by_sign =
        signs.into_iter().find_map(|(sign, alter)| Some((alter, rest.strip_prefix(sign)?)));
    let (alter, rest) = by_sign.unwrap_or((Alter::NATURAL, rest));
    let mut words: Vec<&str> = rest.split([' ', '-']).filter(|w| !w.is_empty()).take(4).collect();
    let mut home = Spelling::new(step, alter);
    if let Some(alter) = words.first().and_then(|w| sign_word(w)) {
        home.alter = alter;
        words.remove(0);
    }
    let mode = match words.as_slice() {
        [] => Mode::Ionian,
        // A dorian scale, in D minor key.
        [mode] | [mode, "scale" | "key" | "mode"] => names::mode(mode).ok()?,
        _ => return None,
    };
    Some(Key::new(home, mode))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_in_words() {
        for (text, wanted) in [
            ("D", "D ionian"),
            ("D major", "D ionian"),
            ("Em", "E aeolian"),
            ("e minor", "E aeolian"),
            ("E Dorian", "E dorian"),
            ("Amix", "A mixolydian"),
            ("Bb", "Bb ionian"),
            ("B flat major", "Bb ionian"),
            ("F# minor", "F# aeolian"),
            ("F sharp", "F# ionian"),
            ("A dorian scale.", "A dorian"),
        ] {
            assert_eq!(key(text).map(|k| k.to_string()), Some(wanted.to_owned()), "{text}");
        }
        for text in ["", "H", "a nice tune", "D E F", "dance", "é"] {
            assert_eq!(key(text), None, "{text}");
        }
    }
}

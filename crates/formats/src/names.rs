//! Names of notes, modes and keys as people type them: "f sharp", "Bb", "E minor", "F♯ mix".

use modewright_core::{Alter, Key, Mode, Spelling, Step, TheoryError};

/// The longest name that is looked at, in characters.
const LONGEST: usize = 40;

/// A note name: a letter in either case, then signs (`#`, `b`, `♯`, `♭`) or the words sharp and
/// flat.
///
/// # Examples
///
/// ```
/// use modewright_formats::names::note;
///
/// assert_eq!(note("f sharp")?.to_string(), "F#");
/// // A small b alone is the note B; after a letter it is a flat.
/// assert_eq!(note("b")?.to_string(), "B");
/// assert_eq!(note("bb")?.to_string(), "Bb");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
///
/// # Errors
///
/// [`TheoryError::NotA`] for anything else.
pub fn note(text: &str) -> Result<Spelling, TheoryError> {
    match leading_note(text.trim()) {
        Some((note, "")) => Ok(note),
        _ => Err(not_a("note name", text)),
    }
}

/// A mode name, in any case, of which the first three letters count, as in ABC: "dorian",
/// "Mix", "major", "m".
///
/// # Errors
///
/// [`TheoryError::NotA`] for anything else.
pub fn mode(text: &str) -> Result<Mode, TheoryError> {
    let word = text.trim();
    if word.eq_ignore_ascii_case("m") {
        return Ok(Mode::Aeolian);
    }
    let bad = || not_a("mode", text);
    let mut start: [u8; 3] = *word.as_bytes().first_chunk().ok_or_else(bad)?;
    start.make_ascii_lowercase();
    Ok(match &start {
        b"maj" | b"ion" => Mode::Ionian,
        b"min" | b"aeo" => Mode::Aeolian,
        b"dor" => Mode::Dorian,
        b"phr" => Mode::Phrygian,
        b"lyd" => Mode::Lydian,
        b"mix" => Mode::Mixolydian,
        b"loc" => Mode::Locrian,
        _ => return Err(bad()),
    })
}

/// A key: a note name, then a mode; without one it is major.
///
/// # Examples
///
/// ```
/// use modewright_formats::names::key;
///
/// assert_eq!(key("e Dorian")?.to_string(), "E dorian");
/// assert_eq!(key("F#m")?.to_string(), "F# aeolian");
/// assert_eq!(key("B flat")?.to_string(), "Bb ionian");
/// // The flat belongs to the note before the mode is read.
/// assert_eq!(key("Bbmix")?.to_string(), "Bb mixolydian");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
///
/// # Errors
///
/// [`TheoryError::NotA`] for anything else.
pub fn key(text: &str) -> Result<Key, TheoryError> {
    let (home, rest) = leading_note(text.trim()).ok_or_else(|| not_a("key", text))?;
    let rest = rest.trim();
    let mode =
        if rest.is_empty() { Mode::Ionian } else { mode(rest).map_err(|_| not_a("key", text))? };
    Ok(Key::new(home, mode))
}

/// The note name that a text begins with, and what follows it.
fn leading_note(text: &str) -> Option<(Spelling, &str)> {
    let mut letters = text.chars();
    let step = Step::from_letter(letters.next()?)?;
    let mut rest = letters.as_str();
    let mut semitones: i32 = 0;
    // A flat or a sharp, twice at most; a b only counts as a flat right after the letter.
    while semitones.abs() < 2 {
        let (by, length) = match rest.chars().next() {
            Some(c @ ('#' | '♯')) if semitones >= 0 => (1, c.len_utf8()),
            Some(c @ ('b' | '♭')) if semitones <= 0 => (-1, c.len_utf8()),
            _ => break,
        };
        semitones += by;
        rest = rest.get(length..)?;
    }
    if semitones == 0 {
        let after = rest.trim_start();
        for (word, by) in [("sharp", 1), ("flat", -1)] {
            let said = after.split_at_checked(word.len());
            if let Some((_, more)) = said.filter(|(said, _)| said.eq_ignore_ascii_case(word)) {
                semitones = by;
                rest = more;
                break;
            }
        }
    }
    Some((Spelling::new(step, Alter::new(semitones).ok()?), rest))
}

fn not_a(wanted: &'static str, text: &str) -> TheoryError {
    TheoryError::NotA { wanted, found: text.trim().chars().take(LONGEST).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_as_people_type_them() {
        for (text, name) in [
            ("D", "D ionian"),
            ("d major", "D ionian"),
            ("Em", "E aeolian"),
            ("E MINOR", "E aeolian"),
            ("f# mixolydian", "F# mixolydian"),
            ("F♯ Mix", "F# mixolydian"),
            ("a flat lydian", "Ab lydian"),
            ("B♭ dor", "Bb dorian"),
            ("Bmix", "B mixolydian"),
            ("  C  ", "C ionian"),
        ] {
            assert_eq!(key(text).unwrap().to_string(), name, "{text}");
        }
        for text in ["", "H", "E xyz", "dorian", "♯", "Cbb#"] {
            assert!(key(text).is_err(), "{text}");
        }
    }
}

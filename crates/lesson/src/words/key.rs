//! Notes, modes and keys in words.

use super::list::list;
use modewright_core::{Alter, Key, Mode, Pattern, Scale, Signature, Spelling};

/// A note name as print has it: "F♯", "B♭".
///
/// # Examples
///
/// ```
/// use modewright_lesson::words::note;
///
/// assert_eq!(note("F#".parse()?), "F♯");
/// // A double sharp has a sign of its own in print; here it is two plain ones.
/// assert_eq!(note("F##".parse()?), "F♯♯");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn note(note: Spelling) -> String {
    note.to_string().replace('#', "♯").replace('b', "♭")
}

/// A mode's name: "Dorian", and the everyday "major" and "minor".
#[must_use]
pub const fn mode_name(mode: Mode) -> &'static str {
    match mode {
        Mode::Ionian => "major",
        Mode::Dorian => "Dorian",
        Mode::Phrygian => "Phrygian",
        Mode::Lydian => "Lydian",
        Mode::Mixolydian => "Mixolydian",
        Mode::Aeolian => "minor",
        Mode::Locrian => "Locrian",
    }
}

/// A key's name: "E Dorian", "G major".
#[must_use]
pub fn key_name(key: Key) -> String {
    format!("{} {}", note(key.home), mode_name(key.mode))
}

/// A key in a learner's words: "E Dorian is the notes of D major with E as home".
///
/// # Examples
///
/// ```
/// use modewright_lesson::words::story;
///
/// assert_eq!(story("A aeolian".parse()?), "A minor is the notes of C major with A as home");
/// // Major is where the story starts.
/// assert_eq!(story("G ionian".parse()?), "G major is the plain major scale on G");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn story(key: Key) -> String {
    let (name, home) = (key_name(key), note(key.home));
    match (key.mode, key.parent()) {
        (Mode::Ionian, _) => format!("{name} is the plain major scale on {home}"),
        (_, Ok(parent)) => {
            format!("{name} is the notes of {} with {home} as home", key_name(parent))
        }
        (_, Err(_)) => format!("{name} cannot be written with seven sharps or flats"),
    }
}

/// How a mode differs from the major or minor that a learner knows, on the same home: "like
/// E minor, but with C♯ in place of C"; `None` for major and minor themselves.
#[must_use]
pub fn compared(key: Key) -> Option<String> {
    let known = match key.mode {
        Mode::Ionian | Mode::Aeolian => return None,
        Mode::Lydian | Mode::Mixolydian => Mode::Ionian,
        Mode::Dorian | Mode::Phrygian | Mode::Locrian => Mode::Aeolian,
    };
    let known = Key::new(key.home, known);
    // Both must be keys that can be written.
    if key.signature().is_err() || known.signature().is_err() {
        return None;
    }
    let changes: Vec<String> = changed(known, key)
        .into_iter()
        .map(|(theirs, mine)| format!("{} in place of {}", note(mine), note(theirs)))
        .collect();
    Some(format!("like {}, but with {}", key_name(known), list(&changes)))
}

/// The notes that change between two modes on one home: what each was, and what it becomes.
pub(crate) fn changed(from: Key, to: Key) -> Vec<(Spelling, Spelling)> {
    let notes = |key: Key| Scale::new(key.home, Pattern::Mode(key.mode)).notes();
    let (Ok(old), Ok(new)) = (notes(from), notes(to)) else { return Vec::new() };
    let pairs = old.iter().zip(&new).map(|(old, new)| (old.1, new.1));
    pairs.filter(|(old, new)| old != new).collect()
}

/// A signature in words: "two sharps, F♯ and C♯", "no sharps or flats".
#[must_use]
pub fn signature(signature: Signature) -> String {
    const NUMBERS: [&str; 8] = ["no", "one", "two", "three", "four", "five", "six", "seven"];
    let count = usize::from(signature.fifths().unsigned_abs());
    if count == 0 {
        return "no sharps or flats".to_owned();
    }
    let (kind, alter) =
        if signature.fifths() > 0 { ("sharp", Alter::SHARP) } else { ("flat", Alter::FLAT) };
    let plural = if count == 1 { "" } else { "s" };
    let names: Vec<String> =
        signature.steps().into_iter().map(|step| note(Spelling::new(step, alter))).collect();
    format!("{} {kind}{plural}, {}", NUMBERS[count.min(7)], list(&names))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_mode_is_told_against_what_a_learner_knows() {
        let told: Vec<String> = Mode::BY_BRIGHTNESS
            .into_iter()
            .filter_map(|mode| compared(Key::new("E".parse().unwrap(), mode)))
            .collect();
        assert_eq!(
            told,
            [
                "like E major, but with A♯ in place of A",
                "like E major, but with D in place of D♯",
                "like E minor, but with C♯ in place of C",
                "like E minor, but with F in place of F♯",
                "like E minor, but with F in place of F♯ and B♭ in place of B",
            ]
        );
    }

    #[test]
    fn signatures_name_their_notes() {
        let words = |fifths| signature(Signature::new(fifths).unwrap());
        assert_eq!(words(0), "no sharps or flats");
        assert_eq!(words(1), "one sharp, F♯");
        assert_eq!(words(-3), "three flats, B♭, E♭ and A♭");
    }
}

//! Degrees of a scale in words.

use modewright_core::{Key, Spelling};

/// "first" to "seventh".
#[must_use]
pub fn ordinal(degree: u8) -> &'static str {
    match degree {
        1 => "first",
        2 => "second",
        3 => "third",
        4 => "fourth",
        5 => "fifth",
        6 => "sixth",
        _ => "seventh",
    }
}

/// What a note is in a key: "home", "its fifth", "outside it".
///
/// # Examples
///
/// ```
/// use modewright_lesson::words::role;
///
/// assert_eq!(role("B".parse()?, "E dorian".parse()?), "its fifth");
/// // C natural lies outside E Dorian, which has C sharp.
/// assert_eq!(role("C".parse()?, "E dorian".parse()?), "outside it");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn role(note: Spelling, key: Key) -> String {
    if note.pitch_class() == key.home.pitch_class() {
        return "home".to_owned();
    }
    let above = note.pitch_class().above(key.home.pitch_class());
    let place = key.mode.semitones().iter().position(|&s| s == above);
    match place.and_then(|p| u8::try_from(p + 1).ok()) {
        Some(degree) => format!("its {}", ordinal(degree)),
        None => "outside it".to_owned(),
    }
}

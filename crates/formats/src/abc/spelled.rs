//! A pitch in the letters of ABC.

use modewright_core::{Alter, Step};

/// The sign of an alteration; ABC has none beyond two semitones.
pub(super) const fn sign(alter: Alter) -> &'static str {
    match alter.semitones() {
        ..=-2 => "__",
        -1 => "_",
        0 => "=",
        1 => "^",
        2.. => "^^",
    }
}

/// A letter with the marks of its octave: `F,`, `c'`.
pub(super) fn letters(step: Step, octave: i32) -> String {
    let letter = step.letter();
    let marks = |mark: &str, count: i32| mark.repeat(usize::try_from(count).unwrap_or(0));
    if octave >= 5 {
        format!("{}{}", letter.to_ascii_lowercase(), marks("'", octave - 5))
    } else {
        format!("{letter}{}", marks(",", 4 - octave))
    }
}

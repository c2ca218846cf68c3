//! Pitches and ranges in words.

use super::key::note;
use modewright_core::{Pitch, Position, Spelling};

/// Where a pitch lies, for somebody who knows middle C: "the D just above middle C".
///
/// # Examples
///
/// ```
/// use modewright_lesson::words::pitch;
///
/// assert_eq!(pitch("D4".parse()?), "the D just above middle C");
/// assert_eq!(pitch("B5".parse()?), "the second B above middle C");
/// // B sharp below middle C sounds like middle C, but is written below it.
/// assert_eq!(pitch("B#3".parse()?), "the B♯ just below middle C");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn pitch(pitch: Pitch) -> String {
    let name = note(pitch.spelling());
    let (away, above, is_c) = about_middle_c(pitch);
    if away == 0 {
        return "middle C".to_owned();
    }
    let side = if above { "above" } else { "below" };
    match (away, is_c) {
        (1, true) => format!("the C an octave {side} middle C"),
        (1, false) => format!("the {name} just {side} middle C"),
        (2, _) => format!("the second {name} {side} middle C"),
        (3, _) => format!("the third {name} {side} middle C"),
        (n, _) => format!("the {n}th {name} {side} middle C"),
    }
}

/// How many notes of its name away from middle C a pitch lies, whether above it, and whether its
/// name is C; nothing away for middle C itself.
pub(crate) fn about_middle_c(pitch: Pitch) -> (i32, bool, bool) {
    let octaves = i32::from(pitch.octave()) - 4;
    let is_c = pitch.spelling() == Spelling::natural(modewright_core::Step::C);
    // C is counted from middle C itself, every other name from the octave above or below it.
    match (octaves, is_c) {
        (0.., true) => (octaves, true, is_c),
        (0.., false) => (octaves + 1, true, is_c),
        (..0, _) => (-octaves, false, is_c),
    }
}

/// What a position about home means.
#[must_use]
pub const fn position(position: Position) -> &'static str {
    match position {
        Position::Authentic => "the tune lies above its home note (an authentic range)",
        Position::Plagal => {
            "the tune lies around its home note, which is in the middle (a plagal range)"
        }
        Position::Mixed => {
            "the tune goes well below its home note and an octave or more above it (a mixed range)"
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_about_middle_c() {
        for (name, words) in [
            ("C4", "middle C"),
            ("C#4", "the C♯ just above middle C"),
            ("C5", "the C an octave above middle C"),
            ("C#5", "the second C♯ above middle C"),
            ("C6", "the second C above middle C"),
            ("A4", "the A just above middle C"),
            ("G3", "the G just below middle C"),
            ("C3", "the C an octave below middle C"),
            ("G2", "the second G below middle C"),
            ("B7", "the 4th B above middle C"),
        ] {
            assert_eq!(pitch(name.parse().unwrap()), words);
        }
    }
}

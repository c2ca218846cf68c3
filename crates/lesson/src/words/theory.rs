//! Impossible requests to the theory, in words.

use super::{Advice, key::key_name};
use modewright_core::{Key, TheoryError};

const MODES: &str = "the modes are Ionian (major), Dorian, Phrygian, Lydian, Mixolydian, \
                     Aeolian (minor) and Locrian";

/// What was asked for and why it cannot be, with a way out.
///
/// # Examples
///
/// ```
/// use modewright_core::Key;
/// use modewright_lesson::words::theory_error;
///
/// let key: Key = "G# ionian".parse()?;
/// let advice = theory_error(&key.signature().unwrap_err());
/// assert_eq!(advice.message, "G♯ major would need 8 sharps, and a signature holds seven");
/// assert_eq!(advice.hint, "write A♭ major: it sounds the same");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn theory_error(error: &TheoryError) -> Advice {
    let (message, hint) = match error {
        TheoryError::SignatureTooLarge { home, mode, fifths } => {
            let key = Key::new(*home, *mode);
            let kind = if *fifths > 0 { "sharps" } else { "flats" };
            let count = fifths.unsigned_abs();
            let hint = key.respelled().map_or_else(
                || "choose a key with seven sharps or flats at most".to_owned(),
                |other| format!("write {}: it sounds the same", key_name(other)),
            );
            (
                format!("{} would need {count} {kind}, and a signature holds seven", key_name(key)),
                hint,
            )
        }
        TheoryError::FifthsOutOfRange { fifths } => (
            format!("a signature of {fifths} is not written"),
            "signatures run from seven flats (-7) to seven sharps (7)".to_owned(),
        ),
        TheoryError::AlterTooLarge { semitones } => (
            format!("a note cannot be altered by {semitones} semitones"),
            "two sharps or flats are the most that print knows".to_owned(),
        ),
        TheoryError::OctaveOutOfRange { octave } => (
            format!("octave {octave} lies beyond every instrument"),
            "middle C begins octave 4; use 0 to 9".to_owned(),
        ),
        TheoryError::LengthOutOfRange => (
            "that length is too long or too finely divided to count exactly".to_owned(),
            "use fractions like 3/8".to_owned(),
        ),
        TheoryError::BadMetre { beats, value } => (
            format!("{beats}/{value} is not a metre"),
            "write it like 6/8 or 2+2+3/8; the lower number is 1, 2, 4, 8, 16, 32 or 64".to_owned(),
        ),
        TheoryError::NotA { wanted, .. } => {
            let hint = match *wanted {
                "mode" => MODES,
                "key" => {
                    let hint = format!("write a home note and a mode, like \"E dorian\"; {MODES}");
                    return Advice { message: error.to_string(), hint };
                }
                "note name" => "letters run from A to G, with # or b after them, like F# or Bb",
                "pitch" => "write a note name and an octave, like F#4; C4 is middle C",
                "metre" => "write it like 6/8 or 2+2+3/8",
                "fret" => "write a number, with + after it for a half fret, like 6+",
                "length" => "write a fraction of a whole note, like 3/8",
                _ => "write it like \"m3\", \"P5\" or \"-M2\"",
            };
            (error.to_string(), hint.to_owned())
        }
    };
    Advice { message, hint }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_out_can_be_written() {
        for place in [-16, -9, 8, 9, 15] {
            let home = modewright_core::Spelling::from_fifths(place).unwrap();
            let error = Key::new(home, modewright_core::Mode::Ionian).signature().unwrap_err();
            let advice = theory_error(&error);
            assert!(advice.message.starts_with(&crate::words::note(home)), "{advice:?}");
            assert!(advice.hint.ends_with("it sounds the same"), "{advice:?}");
        }
    }
}

//! Names for notes that have none.

use modewright_core::{Pitch, Spelling};

/// The pitch of a MIDI key in a signature: the twelve names from the flat third to the sharp
/// fifth of its major key, counted on the line of fifths.
///
/// In every mode of the signature these are its seven notes and the accidentals that are usual
/// beside them: the raised seventh of minor is the sharp fifth of its relative major. Common
/// practice, no source.
pub(super) fn pitch(key: u8, fifths: i8) -> Option<Pitch> {
    let low = i32::from(fifths) - 3;
    (low..low + 12).find_map(|place| {
        let spelling = Spelling::from_fifths(place).ok()?;
        if i32::from(spelling.pitch_class().semitones()) != i32::from(key) % 12 {
            return None;
        }
        // The octave number follows the letter.
        let natural = i32::from(key) - i32::from(spelling.alter.semitones());
        Pitch::new(spelling, natural.div_euclid(12) - 1).ok()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_has_its_name_in_every_signature() {
        for fifths in -7..=7 {
            for key in 0..=127 {
                let pitch = pitch(key, fifths).unwrap();
                assert_eq!(pitch.midi(), i16::from(key), "{pitch} in {fifths}");
                assert!(pitch.spelling().alter.semitones().abs() <= 2);
            }
        }
    }

    #[test]
    fn names_are_those_of_the_key() {
        for (fifths, names) in [
            (0, "C C# D Eb E F F# G G# A Bb B"),
            (2, "C C# D D# E F F# G G# A A# B"),
            (-3, "C Db D Eb E F Gb G Ab A Bb B"),
        ] {
            let own: Vec<String> =
                (60..72).map(|k| pitch(k, fifths).unwrap().spelling().to_string()).collect();
            assert_eq!(own.join(" "), names);
        }
    }
}

//! A note name without its octave: a letter and an alteration.

use crate::{Alter, Interval, PitchClass, Step, error::TheoryError};
use std::{fmt, str::FromStr};

/// A spelled note name: F sharp and G flat are two.
///
/// # Examples
///
/// ```
/// use modewright_core::Spelling;
///
/// let f_sharp: Spelling = "F#".parse()?;
/// assert_eq!(f_sharp.fifths(), 6);
/// // The same key on a piano, another name on paper.
/// let g_flat: Spelling = "Gb".parse()?;
/// assert_ne!(f_sharp, g_flat);
/// assert_eq!(f_sharp.pitch_class(), g_flat.pitch_class());
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Spelling {
    /// The letter.
    pub step: Step,
    /// The alteration.
    pub alter: Alter,
}

impl Spelling {
    /// A letter with an alteration.
    #[must_use]
    pub const fn new(step: Step, alter: Alter) -> Self {
        Self { step, alter }
    }

    /// A letter as it is.
    #[must_use]
    pub const fn natural(step: Step) -> Self {
        Self::new(step, Alter::NATURAL)
    }

    /// Place on the line of fifths, C at 0: each sharp adds seven, each flat takes seven.
    #[must_use]
    pub const fn fifths(self) -> i32 {
        self.step.fifths() as i32 + 7 * self.alter.semitones() as i32
    }

    /// The note name at a place on the line of fifths, C at 0.
    ///
    /// # Errors
    ///
    /// [`TheoryError::AlterTooLarge`] where the name would need more than seven sharps or flats.
    pub fn from_fifths(fifths: i32) -> Result<Self, TheoryError> {
        // F is at −1, so counting from F gives letters in the order of sharps.
        let step = Step::SHARP_ORDER[(fifths + 1).rem_euclid(7) as usize];
        match Alter::new((fifths + 1).div_euclid(7)) {
            Ok(alter) => Ok(Self { step, alter }),
            Err(e) => Err(e),
        }
    }

    /// Which of the twelve notes of the octave this is.
    #[must_use]
    pub const fn pitch_class(self) -> PitchClass {
        // Alterations span less than an octave either way, so one step of twelve brings them in.
        let place = self.step.semitones() as i32 + self.alter.semitones() as i32;
        PitchClass::within(if place < 0 {
            place + 12
        } else if place > 11 {
            place - 12
        } else {
            place
        })
    }

    /// The note name an interval above (below, if the interval goes down).
    ///
    /// # Errors
    ///
    /// [`TheoryError::AlterTooLarge`] where the name would need more than seven sharps or flats.
    pub fn transpose(self, by: Interval) -> Result<Self, TheoryError> {
        Self::from_fifths(self.fifths() + by.fifths())
    }

    /// The usual name of a pitch class on one side of the circle of fifths.
    ///
    /// `centre` is the place on the line of fifths that the name should stay near: with the
    /// signature of a key plus two, the key's own notes keep their names and the nearest
    /// names are taken for the others. Ties go to the sharp side.
    #[must_use]
    pub fn near(class: PitchClass, centre: i32) -> Self {
        let base = (i32::from(class.semitones()) * 7).rem_euclid(12);
        // The one place congruent to `base` modulo 12 within −5 to +6 of the centre.
        let place = centre - 5 + (base - (centre - 5)).rem_euclid(12);
        Self::from_fifths(place.clamp(-48, 48)).unwrap_or(Self::natural(Step::C))
    }
}

impl fmt::Display for Spelling {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.step, self.alter)
    }
}

impl FromStr for Spelling {
    type Err = TheoryError;

    /// Reads the canonical form: a capital letter, then `#`s or `b`s.
    fn from_str(text: &str) -> Result<Self, TheoryError> {
        let bad = || TheoryError::NotA { wanted: "note name", found: text.to_owned() };
        let mut chars = text.chars();
        let step = chars
            .next()
            .filter(char::is_ascii_uppercase)
            .and_then(Step::from_letter)
            .ok_or_else(bad)?;
        let signs = chars.as_str();
        let count = i32::try_from(signs.len()).map_err(|_| bad())?;
        let semitones = if signs.chars().all(|c| c == '#') {
            count
        } else if signs.chars().all(|c| c == 'b') {
            -count
        } else {
            return Err(bad());
        };
        Ok(Self::new(step, Alter::new(semitones)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_spelling_round_trips_through_fifths_and_text() {
        for step in Step::ALL {
            for alter in Alter::MIN..=Alter::MAX {
                let s = Spelling::new(step, Alter::new(i32::from(alter)).unwrap());
                assert_eq!(Spelling::from_fifths(s.fifths()), Ok(s));
                assert_eq!(s.to_string().parse(), Ok(s));
                let class = (s.fifths() * 7).rem_euclid(12);
                assert_eq!(i32::from(s.pitch_class().semitones()), class);
            }
        }
    }

    #[test]
    fn names_stay_near_the_centre() {
        for centre in -9..=11 {
            for class in PitchClass::all() {
                let s = Spelling::near(class, centre);
                assert_eq!(s.pitch_class(), class);
                assert!((-5..=6).contains(&(s.fifths() - centre)), "{s} near {centre}");
            }
        }
    }

    #[test]
    fn rubbish_is_refused() {
        for text in ["", "H", "c", "F#b", "Cx", "b", "F♯", "########"] {
            assert!(text.parse::<Spelling>().is_err(), "{text}");
        }
    }
}

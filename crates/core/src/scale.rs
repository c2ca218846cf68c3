//! A scale: a pattern on a home note.

use crate::{Alter, Degree, Pattern, Spelling, error::TheoryError};

/// A pattern with its home.
///
/// # Examples
///
/// ```
/// use modewright_core::{Pattern, Scale};
///
/// let scale = Scale::new("A".parse()?, Pattern::HarmonicMinor);
/// let names: Vec<String> = scale.notes()?.iter().map(|(_, n)| n.to_string()).collect();
/// assert_eq!(names.join(" "), "A B C D E F G#");
/// // On G sharp its seventh needs a double sharp, and gets it.
/// let high = Scale::new("G#".parse()?, Pattern::HarmonicMinor);
/// assert_eq!(high.notes()?[6].1.to_string(), "F##");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Scale {
    /// The home note.
    pub home: Spelling,
    /// Which degrees it has.
    pub pattern: Pattern,
}

impl Scale {
    /// A pattern on a home.
    #[must_use]
    pub const fn new(home: Spelling, pattern: Pattern) -> Self {
        Self { home, pattern }
    }

    /// The degrees with their notes, from home upwards, each on its own letter.
    ///
    /// # Errors
    ///
    /// [`TheoryError::AlterTooLarge`] where a note would need more than seven sharps or flats.
    pub fn notes(self) -> Result<Vec<(Degree, Spelling)>, TheoryError> {
        self.pattern.degrees().into_iter().map(|d| Ok((d, self.note(d)?))).collect()
    }

    /// The note of a degree.
    ///
    /// # Errors
    ///
    /// [`TheoryError::AlterTooLarge`] where it would need more than seven sharps or flats.
    pub fn note(self, degree: Degree) -> Result<Spelling, TheoryError> {
        let step = self.home.step.up(i32::from(degree.number()) - 1);
        let wanted = i32::from(degree.semitones());
        let have = Spelling::natural(step)
            .pitch_class()
            .above(Spelling::natural(self.home.step).pitch_class());
        // The difference within half an octave: a degree never strays further from its letter.
        let by = (wanted - i32::from(have) + 6).rem_euclid(12) - 6;
        let alter = Alter::new(i32::from(self.home.alter.semitones()) + by)?;
        Ok(Spelling::new(step, alter))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Key, Mode};

    #[test]
    fn a_mode_as_a_scale_is_the_key() {
        for place in -14..=14 {
            let home = Spelling::from_fifths(place).unwrap();
            for mode in Mode::ALL {
                let notes = Scale::new(home, Pattern::Mode(mode)).notes().unwrap();
                for (degree, note) in &notes {
                    assert_eq!(note.pitch_class().above(home.pitch_class()), degree.semitones());
                }
                if let Ok(scale) = Key::new(home, mode).scale() {
                    assert!(notes.iter().map(|n| n.1).eq(scale));
                }
            }
        }
    }
}

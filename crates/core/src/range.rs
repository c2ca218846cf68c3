//! Lowest and highest note, and where home lies between them.

use crate::find::look;
use crate::{Interval, Pitch, PitchClass, Tune};

/// Where the tune lies about its home note.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Position {
    /// Above home, perhaps dipping a tone below it.
    Authentic,
    /// Around home.
    Plagal,
    /// Well below home and also an octave or more above it.
    Mixed,
}

/// The compass of a tune, in written pitch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Range {
    /// The lowest note.
    pub lowest: Pitch,
    /// The first place where it stands, as an index into the tune's events.
    pub lowest_at: usize,
    /// The highest note.
    pub highest: Pitch,
    /// The first place where it stands, as an index into the tune's events.
    pub highest_at: usize,
    /// The middle half of the sounding time: a quarter of it lies below the first pitch and a
    /// quarter above the second.
    pub tessitura: (Pitch, Pitch),
}

impl Range {
    /// The range of a tune; `None` where no note sounds.
    ///
    /// Grace notes and the lower notes of chords do not count. Height is by sound: B sharp is
    /// as high as the C above it.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::tune::{Sound, Span, TuneBuilder};
    /// use modewright_core::{Length, Range, Tune};
    ///
    /// let mut builder = TuneBuilder::new();
    /// for name in ["E4", "D4", "B4"] {
    ///     builder.event(Sound::Note(name.parse()?), Length::CROTCHET, Span::default()).unwrap();
    /// }
    /// let range = Range::of(&builder.finish()).unwrap();
    /// assert_eq!(range.span().in_words(), "major sixth");
    /// // A tune of no notes has no range, rather than an empty one.
    /// assert_eq!(Range::of(&Tune::default()), None);
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    #[must_use]
    pub fn of(tune: &Tune) -> Option<Self> {
        look(tune).1.range()
    }

    /// The interval from the lowest to the highest note.
    #[must_use]
    pub fn span(&self) -> Interval {
        self.highest - self.lowest
    }

    /// Where the tune lies about a home; `None` where no home note lies within two semitones of
    /// the range.
    ///
    /// The rule counts from the lowest home within the range: a tune that goes at most two
    /// semitones below it is authentic; one that goes lower is plagal, or mixed if it also goes
    /// an octave or more above. It follows the ranges of the church modes (MacDowell 1912): an
    /// authentic mode may dip one note below its final.
    #[must_use]
    pub fn position(&self, home: PitchClass) -> Option<Position> {
        let low = i32::from(self.lowest.midi());
        let high = i32::from(self.highest.midi());
        // Semitones from the lowest note up to the lowest home in the range.
        let below = i32::from(home.above(PitchClass::new(low)));
        // A home just under the lowest note is as good as one in the range.
        if below <= 2 || below >= 10 {
            return (low + below <= high || below >= 10).then_some(Position::Authentic);
        }
        let above = high - (low + below);
        match above {
            ..0 => None,
            0..12 => Some(Position::Plagal),
            _ => Some(Position::Mixed),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn range(low: &str, high: &str) -> Range {
        let (lowest, highest) = (low.parse().unwrap(), high.parse().unwrap());
        Range { lowest, lowest_at: 0, highest, highest_at: 0, tessitura: (lowest, highest) }
    }

    /// Nominal octaves of the church modes (MacDowell 1912; Tonalsoft Encyclopedia), and tunes
    /// that overstep them.
    #[test]
    fn home_at_the_bottom_in_the_middle_and_both() {
        use Position::{Authentic, Mixed, Plagal};
        for (low, high, home, position) in [
            ("D4", "D5", 2, Some(Authentic)),
            ("C4", "D5", 2, Some(Authentic)),
            ("D4", "B5", 4, Some(Authentic)),
            ("A3", "A4", 2, Some(Plagal)),
            ("D4", "D5", 7, Some(Plagal)),
            ("D4", "B5", 7, Some(Mixed)),
            ("A3", "F5", 2, Some(Mixed)),
            ("B4", "A5", 9, Some(Authentic)),
            ("E4", "F4", 9, None),
            ("G4", "G4", 7, Some(Authentic)),
            ("G4", "G4", 8, None),
        ] {
            let home = PitchClass::new(home);
            assert_eq!(range(low, high).position(home), position, "{low} to {high} on {home}");
        }
    }
}

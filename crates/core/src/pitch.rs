//! A note name with its octave.

use crate::{Interval, PitchClass, Spelling, Step, error::TheoryError};
use std::{fmt, ops::Sub, str::FromStr};

/// A spelled pitch: letter, alteration and octave.
///
/// Octaves are counted in scientific pitch notation: `C4` is middle C, and the octave
/// changes at the letter C, so `Cb4` lies a semitone below `C4`.
///
/// Order is by height on the stave, then by alteration: `B#3` comes before `C4`, though both
/// sound alike. To compare by sound use [`Pitch::midi`].
///
/// # Examples
///
/// ```
/// use modewright_core::Pitch;
///
/// let a: Pitch = "A4".parse()?;
/// assert_eq!(a.midi(), 69);
/// // B sharp sounds like the C above it, but belongs to the octave below.
/// let b_sharp: Pitch = "B#3".parse()?;
/// assert_eq!(b_sharp.midi(), 60);
/// assert_eq!(b_sharp.octave(), 3);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pitch {
    spelling: Spelling,
    octave: i8,
}

impl Pitch {
    /// The lowest octave that a pitch may have.
    pub const MIN_OCTAVE: i8 = -4;
    /// The highest octave that a pitch may have.
    pub const MAX_OCTAVE: i8 = 14;
    /// Middle C, MIDI 60.
    pub const MIDDLE_C: Self = Self { spelling: Spelling::natural(Step::C), octave: 4 };

    /// A note name in an octave.
    ///
    /// # Errors
    ///
    /// [`TheoryError::OctaveOutOfRange`] outside [`Pitch::MIN_OCTAVE`] to [`Pitch::MAX_OCTAVE`].
    pub const fn new(spelling: Spelling, octave: i32) -> Result<Self, TheoryError> {
        if octave < Self::MIN_OCTAVE as i32 || octave > Self::MAX_OCTAVE as i32 {
            return Err(TheoryError::OctaveOutOfRange { octave });
        }
        #[expect(clippy::cast_possible_truncation, reason = "checked above")]
        Ok(Self { spelling, octave: octave as i8 })
    }

    /// The note name.
    #[must_use]
    pub const fn spelling(self) -> Spelling {
        self.spelling
    }

    /// The octave; 4 is the one that begins with middle C.
    #[must_use]
    pub const fn octave(self) -> i8 {
        self.octave
    }

    /// Which of the twelve notes of the octave this is.
    #[must_use]
    pub const fn pitch_class(self) -> PitchClass {
        self.spelling.pitch_class()
    }

    /// Semitones on the MIDI scale, middle C at 60. May lie outside 0 to 127.
    #[must_use]
    pub const fn midi(self) -> i16 {
        (self.octave as i16 + 1) * 12
            + self.spelling.step.semitones() as i16
            + self.spelling.alter.semitones() as i16
    }

    /// Lines and spaces above C0: middle C is at 28.
    #[must_use]
    pub const fn stave_place(self) -> i16 {
        self.octave as i16 * 7 + self.spelling.step.index() as i16
    }

    /// The pitch at a place on the stave (see [`Pitch::stave_place`]) and of a height (see
    /// [`Pitch::midi`]).
    ///
    /// # Errors
    ///
    /// [`TheoryError::OctaveOutOfRange`] or [`TheoryError::AlterTooLarge`].
    pub fn from_place(place: i32, midi: i32) -> Result<Self, TheoryError> {
        let step = Step::from_index(place);
        let octave = place.div_euclid(7);
        let natural = (octave + 1) * 12 + step.semitones() as i32;
        match crate::Alter::new(midi - natural) {
            Ok(alter) => Self::new(Spelling::new(step, alter), octave),
            Err(e) => Err(e),
        }
    }

    /// The pitch itself, or the same sound with no more than a double sharp or flat: there are no
    /// signs for more.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::{Interval, Pitch};
    ///
    /// let (flat, tone): (Pitch, Interval) = ("Fbb4".parse()?, "M2".parse()?);
    /// let lower = flat.transpose(-tone)?;
    /// assert_eq!(lower.to_string(), "Ebbb4");
    /// assert_eq!(lower.writable().to_string(), "Db4");
    /// assert_eq!(flat.writable(), flat);
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    #[must_use]
    pub fn writable(self) -> Self {
        let mut place = i32::from(self.stave_place());
        let mut nearest = self;
        while nearest.spelling().alter.semitones().abs() > 2 {
            place += i32::from(nearest.spelling().alter.semitones().signum());
            match Self::from_place(place, i32::from(self.midi())) {
                Ok(next) => nearest = next,
                Err(_) => return self,
            }
        }
        nearest
    }

    /// The pitch an interval higher (lower, if the interval goes down), spelled right.
    ///
    /// # Errors
    ///
    /// [`TheoryError::OctaveOutOfRange`] or [`TheoryError::AlterTooLarge`] where the result
    /// leaves what a pitch can be.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::{Interval, Pitch};
    ///
    /// let third: Interval = "M3".parse()?;
    /// let c_sharp: Pitch = "C#4".parse()?;
    /// assert_eq!(c_sharp.transpose(third)?.to_string(), "E#4");
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    pub fn transpose(self, by: Interval) -> Result<Self, TheoryError> {
        Self::from_place(
            self.stave_place() as i32 + by.steps() as i32,
            self.midi() as i32 + by.semitones() as i32,
        )
    }
}

impl Sub for Pitch {
    type Output = Interval;

    /// The interval up from `other` to this.
    fn sub(self, other: Self) -> Interval {
        Interval::between(other, self)
    }
}

impl Ord for Pitch {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        (self.stave_place(), self.spelling.alter).cmp(&(other.stave_place(), other.spelling.alter))
    }
}

impl PartialOrd for Pitch {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl fmt::Display for Pitch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.spelling, self.octave)
    }
}

impl FromStr for Pitch {
    type Err = TheoryError;

    /// Reads the canonical form: a note name and an octave number, `F#4`.
    fn from_str(text: &str) -> Result<Self, TheoryError> {
        let bad = || TheoryError::NotA { wanted: "pitch", found: text.to_owned() };
        let at = text.find(|c: char| c.is_ascii_digit() || c == '-').ok_or_else(bad)?;
        let (name, octave) = text.split_at(at);
        let spelling = name.parse().map_err(|_| bad())?;
        Self::new(spelling, octave.parse().map_err(|_| bad())?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Letter, octave and MIDI number of the ABC standard's table, §4.1 and §4.6.
    #[test]
    fn known_heights() {
        for (name, midi) in
            [("C2", 36), ("G3", 55), ("B3", 59), ("C4", 60), ("A4", 69), ("B4", 71), ("C7", 96)]
        {
            let pitch: Pitch = name.parse().unwrap();
            assert_eq!(pitch.midi(), midi, "{name}");
            assert_eq!(pitch.to_string(), name);
        }
        assert_eq!("C-1".parse::<Pitch>().unwrap().midi(), 0);
        assert_eq!("Cb4".parse::<Pitch>().unwrap().midi(), 59);
    }

    /// Every spelling with up to two signs, by every interval within two octaves.
    #[test]
    fn up_and_down_again_is_where_it_was() {
        for place in -15..=19 {
            let from = Pitch::new(Spelling::from_fifths(place).unwrap(), 4).unwrap();
            for steps in -14..=14 {
                for semitones in -26..=26 {
                    let interval = Interval::new(steps, semitones);
                    let Ok(to) = from.transpose(interval) else { continue };
                    assert_eq!(to - from, interval);
                    assert_eq!(to.transpose(-interval), Ok(from));
                    let name = from.spelling().transpose(interval).unwrap();
                    assert_eq!(to.spelling(), name, "{from} by {interval}");
                    assert_eq!(to.midi() - from.midi(), semitones);
                }
            }
        }
    }

    #[test]
    fn order_is_by_stave_then_alteration() {
        let p = |s: &str| s.parse::<Pitch>().unwrap();
        assert!(p("B#3") < p("C4"));
        assert!(p("Cb4") < p("C4") && p("C4") < p("C#4") && p("C##4") < p("Db4"));
    }

    #[test]
    fn rubbish_is_refused() {
        for text in ["", "4", "C", "H4", "C4#", "C99", "C4 ", "c4"] {
            assert!(text.parse::<Pitch>().is_err(), "{text}");
        }
    }
}

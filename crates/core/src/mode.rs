//! The seven diatonic modes.

use crate::{Alter, Degree, PitchClass, PitchSet, degree::MAJOR, error::TheoryError};
use std::{fmt, str::FromStr};

/// One of the seven diatonic modes: the notes of a major scale, begun on one of its degrees.
///
/// Everything about a mode follows from the degree it starts on.
///
/// # Examples
///
/// ```
/// use modewright_core::Mode;
///
/// assert_eq!(Mode::Dorian.semitones(), [0, 2, 3, 5, 7, 9, 10]);
/// // Dorian is two fifths flatter than major, and the only mode that reads the same backwards.
/// assert_eq!(Mode::Dorian.fifths(), -2);
/// let steps = Mode::Dorian.steps();
/// assert!(steps.iter().eq(steps.iter().rev()));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mode {
    /// Major: starts on the first degree.
    Ionian,
    /// Starts on the second degree of a major scale.
    Dorian,
    /// Starts on the third degree of a major scale.
    Phrygian,
    /// Starts on the fourth degree of a major scale.
    Lydian,
    /// Starts on the fifth degree of a major scale.
    Mixolydian,
    /// Natural minor: starts on the sixth degree of a major scale.
    Aeolian,
    /// Starts on the seventh degree of a major scale.
    Locrian,
}

impl Mode {
    /// All modes in the order of the major scale's degrees.
    pub const ALL: [Self; 7] = [
        Self::Ionian,
        Self::Dorian,
        Self::Phrygian,
        Self::Lydian,
        Self::Mixolydian,
        Self::Aeolian,
        Self::Locrian,
    ];

    /// All modes from the brightest to the darkest; each lowers one degree of the one before.
    ///
    /// Source: *Integrated Musicianship: Theory*, lesson 2b.
    pub const BY_BRIGHTNESS: [Self; 7] = [
        Self::Lydian,
        Self::Ionian,
        Self::Mixolydian,
        Self::Dorian,
        Self::Aeolian,
        Self::Phrygian,
        Self::Locrian,
    ];

    /// Place in [`Mode::ALL`], 0 to 6.
    #[must_use]
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Place in [`Mode::BY_BRIGHTNESS`]: Lydian 0, Locrian 6.
    ///
    /// It is also home's place in the mode's arc of seven on the circle of fifths, counted
    /// from the flattest note.
    #[must_use]
    pub const fn darkness(self) -> u8 {
        [1, 3, 5, 0, 2, 4, 6][self as usize]
    }

    /// The degree of the parent major scale that the mode starts on, 1 to 7.
    #[must_use]
    pub const fn parent_degree(self) -> u8 {
        self as u8 + 1
    }

    /// How many fifths sharper (flatter, if negative) than major on the same home.
    #[must_use]
    pub const fn fifths(self) -> i32 {
        1 - self.darkness() as i32
    }

    /// Semitones of the seven degrees above home: the major scale, turned.
    #[must_use]
    pub const fn semitones(self) -> [u8; 7] {
        let start = self as usize;
        let mut above = [0; 7];
        let mut i = 0;
        while i < 7 {
            above[i] = (MAJOR[(start + i) % 7] + 12 - MAJOR[start]) % 12;
            i += 1;
        }
        above
    }

    /// Semitones from each degree to the next, the last one back to home.
    #[must_use]
    pub const fn steps(self) -> [u8; 7] {
        let above = self.semitones();
        let mut steps = [0; 7];
        let mut i = 0;
        while i < 7 {
            let next = if i == 6 { 12 } else { above[i + 1] };
            steps[i] = next - above[i];
            i += 1;
        }
        steps
    }

    /// The seven degrees, each with its difference from major.
    #[must_use]
    pub fn degrees(self) -> [Degree; 7] {
        let above = self.semitones();
        std::array::from_fn(|i| {
            let alter = Alter::new(i32::from(above[i]) - i32::from(MAJOR[i]));
            Degree::new(u8::try_from(i + 1).unwrap_or(1), alter.unwrap_or_default())
        })
    }

    /// The notes that the mode has on a home.
    #[must_use]
    pub fn pitch_set(self, home: PitchClass) -> PitchSet {
        const ON_C: [PitchSet; 7] = {
            let mut sets = [PitchSet::EMPTY; 7];
            let mut mode = 0;
            while mode < 7 {
                let above = Mode::ALL[mode].semitones();
                let mut i = 0;
                while i < 7 {
                    sets[mode].insert(PitchClass::within(above[i] as i32));
                    i += 1;
                }
                mode += 1;
            }
            sets
        };
        ON_C[self.index()].up(i32::from(home.semitones()))
    }

    /// Degrees that tell the mode from its neighbours: Dorian's sixth, Mixolydian's flat seventh.
    ///
    /// Common practice, no source.
    #[must_use]
    pub fn telltale_degrees(self) -> &'static [Degree] {
        const fn flat(number: u8) -> Degree {
            Degree::new(number, Alter::FLAT)
        }
        const fn plain(number: u8) -> Degree {
            Degree::new(number, Alter::NATURAL)
        }
        const IONIAN: [Degree; 2] = [plain(4), plain(7)];
        const DORIAN: [Degree; 2] = [flat(3), plain(6)];
        const PHRYGIAN: [Degree; 1] = [flat(2)];
        const LYDIAN: [Degree; 1] = [Degree::new(4, Alter::SHARP)];
        const MIXOLYDIAN: [Degree; 1] = [flat(7)];
        const AEOLIAN: [Degree; 1] = [flat(6)];
        const LOCRIAN: [Degree; 1] = [flat(5)];
        match self {
            Self::Ionian => &IONIAN,
            Self::Dorian => &DORIAN,
            Self::Phrygian => &PHRYGIAN,
            Self::Lydian => &LYDIAN,
            Self::Mixolydian => &MIXOLYDIAN,
            Self::Aeolian => &AEOLIAN,
            Self::Locrian => &LOCRIAN,
        }
    }

    /// Whether the third of the mode is a minor third.
    #[must_use]
    pub const fn has_minor_third(self) -> bool {
        self.semitones()[2] == 3
    }

    /// The next darker mode on the same home and the degree that it lowers; `None` for Locrian.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::Mode;
    ///
    /// assert_eq!(Mode::Dorian.darker(), Some((Mode::Aeolian, 6)));
    /// // Nothing is darker than Locrian: the next step would lower home itself.
    /// assert_eq!(Mode::Locrian.darker(), None);
    /// ```
    #[must_use]
    pub const fn darker(self) -> Option<(Self, u8)> {
        const LOWERED: [u8; 6] = [4, 7, 3, 6, 2, 5];
        let place = self.darkness() as usize;
        if place == 6 {
            return None;
        }
        Some((Self::BY_BRIGHTNESS[place + 1], LOWERED[place]))
    }

    /// The modes left open when a degree never sounds: at most two, this one among them.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::Mode;
    ///
    /// assert_eq!(Mode::Dorian.open_without(6), vec![Mode::Dorian, Mode::Aeolian]);
    /// assert_eq!(Mode::Dorian.open_without(3), vec![Mode::Mixolydian, Mode::Dorian]);
    /// // A missing fourth leaves Dorian certain.
    /// assert_eq!(Mode::Dorian.open_without(4), vec![Mode::Dorian]);
    /// ```
    #[must_use]
    pub fn open_without(self, degree: u8) -> Vec<Self> {
        let gap = usize::from(degree.clamp(1, 7) - 1);
        let matches = |other: &Self| {
            let (a, b) = (self.semitones(), other.semitones());
            (0..7).all(|i| i == gap || a[i] == b[i])
        };
        Self::BY_BRIGHTNESS.into_iter().filter(matches).collect()
    }

    /// The name in small letters, as answers and commands use it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Ionian => "ionian",
            Self::Dorian => "dorian",
            Self::Phrygian => "phrygian",
            Self::Lydian => "lydian",
            Self::Mixolydian => "mixolydian",
            Self::Aeolian => "aeolian",
            Self::Locrian => "locrian",
        }
    }
}

impl fmt::Display for Mode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl FromStr for Mode {
    type Err = TheoryError;

    /// Reads the canonical form: one of the seven names in small letters.
    fn from_str(text: &str) -> Result<Self, TheoryError> {
        Self::ALL
            .into_iter()
            .find(|mode| mode.name() == text)
            .ok_or_else(|| TheoryError::NotA { wanted: "mode", found: text.to_owned() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_mode_keeps_its_laws() {
        for mode in Mode::ALL {
            assert_eq!(mode.to_string().parse(), Ok(mode));
            assert_eq!(mode.steps().iter().sum::<u8>(), 12);
            assert_eq!(Mode::BY_BRIGHTNESS[usize::from(mode.darkness())], mode);
            // Sharps minus flats against major is the difference of the signatures.
            let sum: i32 = mode.degrees().iter().map(|d| i32::from(d.alter().semitones())).sum();
            assert_eq!(sum, mode.fifths(), "{mode}");
            assert_eq!(mode.pitch_set(PitchClass::new(0)).len(), 7);
            for degree in mode.degrees() {
                assert!(mode.semitones().contains(&degree.semitones()));
            }
            for telltale in mode.telltale_degrees() {
                assert!(mode.degrees().contains(telltale), "{mode} {telltale}");
            }
        }
    }

    #[test]
    fn each_darker_mode_lowers_just_one_degree() {
        for mode in Mode::ALL {
            let Some((darker, lowered)) = mode.darker() else { continue };
            for i in 0..7_u8 {
                let at = usize::from(i);
                let fall = mode.semitones()[at] - darker.semitones()[at];
                assert_eq!(fall, u8::from(i + 1 == lowered), "{mode} to {darker}");
            }
        }
    }
}

//! Scale patterns: which degrees a scale has, whatever its home.

use crate::{Alter, Degree, Mode, PitchClass, PitchSet};
use std::fmt;

/// A scale without its home.
///
/// Beside the seven modes: the two minors with raised notes, the five-note scales without half
/// steps, and the six-note scales that two neighbouring modes share.
///
/// # Examples
///
/// ```
/// use modewright_core::{Mode, Pattern};
///
/// let degrees: Vec<String> =
///     Pattern::HarmonicMinor.degrees().iter().map(|d| d.to_string()).collect();
/// assert_eq!(degrees.join(" "), "1 2 b3 4 5 b6 7");
/// // A gapped scale lies within several modes and names none of them.
/// assert_eq!(Pattern::WITHOUT_SIXTH.modes(), [Mode::Dorian, Mode::Aeolian]);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Pattern {
    /// One of the seven modes.
    Mode(Mode),
    /// Natural minor with a raised seventh.
    HarmonicMinor,
    /// Minor with raised sixth and seventh, as it goes up; downwards it is the natural minor.
    MelodicMinor,
    /// A five-note scale without half steps.
    Pentatonic(Pentatonic),
    /// A six-note scale: what a mode and the next darker one share.
    Hexatonic(Hexatonic),
}

/// The five rotations of the five-note scale without half steps, numbered as Cecil Sharp
/// numbered them (Campbell & Sharp, *English Folk Songs from the Southern Appalachians*, 1917,
/// introduction pp. xvi–xviii).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Pentatonic {
    /// 1 2 4 5 6.
    First,
    /// 1 b3 4 5 b7: the minor pentatonic.
    Second,
    /// 1 2 3 5 6: the major pentatonic.
    Third,
    /// 1 2 4 5 b7.
    Fourth,
    /// 1 b3 4 b6 b7.
    Fifth,
}

/// A mode that lacks the one degree in which it differs from the next darker mode.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Hexatonic {
    brighter: Mode,
}

impl Pattern {
    /// 1 2 b3 4 5 b7: within Dorian and Aeolian.
    pub const WITHOUT_SIXTH: Self = Self::Hexatonic(Hexatonic { brighter: Mode::Dorian });

    /// Every pattern: seven modes, two minors, five pentatonic, six hexatonic scales.
    #[must_use]
    pub fn all() -> Vec<Self> {
        use Pentatonic::{Fifth, First, Fourth, Second, Third};
        let mut all: Vec<Self> = Mode::ALL.into_iter().map(Self::Mode).collect();
        all.extend([Self::HarmonicMinor, Self::MelodicMinor]);
        all.extend([First, Second, Third, Fourth, Fifth].map(Self::Pentatonic));
        all.extend(
            Mode::BY_BRIGHTNESS
                .into_iter()
                .filter(|mode| mode.darker().is_some())
                .map(|brighter| Self::Hexatonic(Hexatonic { brighter })),
        );
        all
    }

    /// The degrees from home upwards.
    #[must_use]
    pub fn degrees(self) -> Vec<Degree> {
        let of = |list: &[(u8, i32)]| {
            list.iter()
                .map(|&(number, by)| Degree::new(number, Alter::new(by).unwrap_or_default()))
                .collect()
        };
        match self {
            Self::Mode(mode) => mode.degrees().to_vec(),
            Self::HarmonicMinor => of(&[(1, 0), (2, 0), (3, -1), (4, 0), (5, 0), (6, -1), (7, 0)]),
            Self::MelodicMinor => of(&[(1, 0), (2, 0), (3, -1), (4, 0), (5, 0), (6, 0), (7, 0)]),
            Self::Pentatonic(rotation) => of(match rotation {
                Pentatonic::First => &[(1, 0), (2, 0), (4, 0), (5, 0), (6, 0)],
                Pentatonic::Second => &[(1, 0), (3, -1), (4, 0), (5, 0), (7, -1)],
                Pentatonic::Third => &[(1, 0), (2, 0), (3, 0), (5, 0), (6, 0)],
                Pentatonic::Fourth => &[(1, 0), (2, 0), (4, 0), (5, 0), (7, -1)],
                Pentatonic::Fifth => &[(1, 0), (3, -1), (4, 0), (6, -1), (7, -1)],
            }),
            Self::Hexatonic(Hexatonic { brighter }) => {
                let gap = brighter.darker().map_or(0, |(_, degree)| degree);
                brighter.degrees().into_iter().filter(|d| d.number() != gap).collect()
            }
        }
    }

    /// The notes that the pattern has on a home.
    #[must_use]
    pub fn pitch_set(self, home: PitchClass) -> PitchSet {
        self.degrees().iter().map(|d| home.up(i32::from(d.semitones()))).collect()
    }

    /// The seven-note modes that hold all its notes on the same home, brightest first.
    #[must_use]
    pub fn modes(self) -> Vec<Mode> {
        let home = PitchClass::new(0);
        let notes = self.pitch_set(home);
        Mode::BY_BRIGHTNESS.into_iter().filter(|m| notes.is_subset(m.pitch_set(home))).collect()
    }
}

impl fmt::Display for Pattern {
    /// A plain name: `dorian`, `harmonic minor`, `major pentatonic`, `six-note without 6`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Mode(mode) => write!(f, "{mode}"),
            Self::HarmonicMinor => f.write_str("harmonic minor"),
            Self::MelodicMinor => f.write_str("melodic minor"),
            Self::Pentatonic(Pentatonic::Second) => f.write_str("minor pentatonic"),
            Self::Pentatonic(Pentatonic::Third) => f.write_str("major pentatonic"),
            Self::Pentatonic(Pentatonic::First) => f.write_str("pentatonic 1 2 4 5 6"),
            Self::Pentatonic(Pentatonic::Fourth) => f.write_str("pentatonic 1 2 4 5 b7"),
            Self::Pentatonic(Pentatonic::Fifth) => f.write_str("pentatonic 1 b3 4 b6 b7"),
            Self::Hexatonic(Hexatonic { brighter }) => {
                let gap = brighter.darker().map_or(0, |(_, degree)| degree);
                write!(f, "six-note without {gap}")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hexatonics_name_the_two_modes_they_lie_in() {
        for pattern in Pattern::all() {
            let degrees = pattern.degrees();
            match pattern {
                Pattern::Hexatonic(Hexatonic { brighter }) => {
                    let (darker, gap) = brighter.darker().unwrap();
                    assert_eq!(degrees.len(), 6);
                    assert_eq!(pattern.modes(), [brighter, darker]);
                    assert_eq!(brighter.open_without(gap), [brighter, darker]);
                }
                Pattern::Pentatonic(_) => {
                    assert_eq!(degrees.len(), 5);
                    assert_eq!(pattern.modes().len(), 3, "{pattern}");
                }
                Pattern::Mode(mode) => assert_eq!(pattern.modes(), [mode]),
                Pattern::HarmonicMinor | Pattern::MelodicMinor => {
                    assert!(pattern.modes().is_empty());
                }
            }
            assert!(degrees.windows(2).all(|w| w[0].semitones() < w[1].semitones()));
        }
        assert_eq!(Pattern::all().len(), 20);
    }
}

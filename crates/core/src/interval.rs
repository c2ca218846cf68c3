//! Intervals: how far from one pitch to another, in steps and in semitones.

use crate::{Pitch, error::TheoryError};
use std::{
    fmt,
    ops::{Add, Neg},
    str::FromStr,
};

/// A spelled interval: lines and spaces of the stave, and semitones.
///
/// Going up is positive. An augmented fourth (3 steps, 6 semitones) and a diminished fifth
/// (4 steps, 6 semitones) are two intervals.
///
/// # Examples
///
/// ```
/// use modewright_core::{Interval, Pitch};
///
/// let d: Pitch = "D4".parse()?;
/// let f: Pitch = "F4".parse()?;
/// assert_eq!((f - d).to_string(), "m3");
/// assert_eq!((f - d).in_words(), "minor third");
/// // Downwards the same third has a minus sign.
/// assert_eq!((d - f).to_string(), "-m3");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Interval {
    steps: i16,
    semitones: i16,
}

/// The quality of an interval.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Quality {
    /// So many semitones below minor or perfect.
    Diminished(u32),
    /// Of seconds, thirds, sixths and sevenths.
    Minor,
    /// Of unisons, fourths, fifths and octaves.
    Perfect,
    /// Of seconds, thirds, sixths and sevenths.
    Major,
    /// So many semitones above major or perfect.
    Augmented(u32),
}

/// Semitones of the perfect or major interval of each step within the octave.
const WIDE: [i16; 7] = [0, 2, 4, 5, 7, 9, 11];

impl Interval {
    /// No distance at all.
    pub const UNISON: Self = Self { steps: 0, semitones: 0 };
    /// Seven steps, twelve semitones.
    pub const OCTAVE: Self = Self { steps: 7, semitones: 12 };
    /// Furthest distance that text may name, in steps: eight octaves.
    pub const MAX_STEPS: i16 = 56;

    /// An interval of so many steps and semitones, both signed.
    #[must_use]
    pub const fn new(steps: i16, semitones: i16) -> Self {
        Self { steps, semitones }
    }

    /// From one pitch up to another.
    #[must_use]
    pub const fn between(low: Pitch, high: Pitch) -> Self {
        Self { steps: high.stave_place() - low.stave_place(), semitones: high.midi() - low.midi() }
    }

    /// The usual interval of so many semitones up or down: 3 is a minor third, 6 an augmented
    /// fourth, 8 a minor sixth.
    #[must_use]
    pub const fn from_semitones(semitones: i16) -> Self {
        const STEPS: [i16; 12] = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];
        let size = semitones.unsigned_abs();
        #[expect(clippy::cast_possible_wrap, reason = "at most 2730 octaves")]
        let steps = (size / 12) as i16 * 7 + STEPS[(size % 12) as usize];
        Self { steps: if semitones < 0 { -steps } else { steps }, semitones }
    }

    /// Lines and spaces, signed: a third is 2.
    #[must_use]
    pub const fn steps(self) -> i16 {
        self.steps
    }

    /// Semitones, signed.
    #[must_use]
    pub const fn semitones(self) -> i16 {
        self.semitones
    }

    /// How far it moves along the line of fifths: a fifth is 1, a semitone up (minor second) −5.
    #[must_use]
    pub const fn fifths(self) -> i32 {
        7 * self.semitones as i32 - 12 * self.steps as i32
    }

    /// Whether it goes down: fewer steps, or on one step fewer semitones.
    #[must_use]
    pub const fn is_down(self) -> bool {
        self.steps < 0 || self.steps == 0 && self.semitones < 0
    }

    /// The same distance upwards.
    #[must_use]
    pub const fn abs(self) -> Self {
        if self.is_down() {
            Self { steps: self.steps.saturating_neg(), semitones: self.semitones.saturating_neg() }
        } else {
            self
        }
    }

    /// The quality of the distance, whichever way it goes.
    #[must_use]
    pub const fn quality(self) -> Quality {
        let size = self.abs();
        let (octaves, within) = (size.steps / 7, size.steps % 7);
        let over = size.semitones as i32 - octaves as i32 * 12 - wide(within) as i32;
        let perfect = matches!(within, 0 | 3 | 4);
        match (over, perfect) {
            (0, true) => Quality::Perfect,
            (0, false) => Quality::Major,
            (-1, false) => Quality::Minor,
            (1.., _) => Quality::Augmented(over.unsigned_abs()),
            (_, true) => Quality::Diminished(over.unsigned_abs()),
            (_, false) => Quality::Diminished(over.unsigned_abs() - 1),
        }
    }

    /// The interval that completes this one to an octave; only its distance within the octave
    /// counts.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::Interval;
    ///
    /// let third: Interval = "M3".parse()?;
    /// assert_eq!(third.inversion().to_string(), "m6");
    /// // A tenth turns into the same sixth.
    /// let tenth: Interval = "M10".parse()?;
    /// assert_eq!(tenth.inversion().to_string(), "m6");
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    #[must_use]
    pub const fn inversion(self) -> Self {
        let size = self.abs();
        let rest = size.semitones as i32 - size.steps as i32 / 7 * 12;
        #[expect(clippy::cast_possible_truncation, reason = "clamped")]
        let semitones = if rest < -1000 || rest > 1000 { 0 } else { (12 - rest) as i16 };
        Self { steps: 7 - size.steps % 7, semitones }
    }

    /// The distance in words, without its direction: "octave and a major sixth".
    #[must_use]
    pub fn in_words(self) -> String {
        const NAMES: [&str; 8] =
            ["unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave"];
        let size = self.abs();
        // One octave alone is an octave; beyond it, octaves are counted apart.
        let (octaves, within) =
            if size.steps == 7 { (0, 7) } else { (size.steps / 7, size.steps % 7) };
        let quality = match self.quality() {
            Quality::Perfect if within == 7 => String::new(),
            Quality::Perfect => "perfect ".to_owned(),
            Quality::Major => "major ".to_owned(),
            Quality::Minor => "minor ".to_owned(),
            Quality::Augmented(n) => format!("{}augmented ", times(n)),
            Quality::Diminished(n) => format!("{}diminished ", times(n)),
        };
        let name = NAMES[usize::try_from(within).unwrap_or(0)];
        let count = match octaves {
            0 => return format!("{quality}{name}"),
            1 => "octave".to_owned(),
            2 => "two octaves".to_owned(),
            3 => "three octaves".to_owned(),
            n => format!("{n} octaves"),
        };
        if within == 0 && self.quality() == Quality::Perfect {
            return count;
        }
        let article = if quality.starts_with(['a', 'e']) { "an" } else { "a" };
        format!("{count} and {article} {quality}{name}")
    }
}

/// Semitones of the perfect or major interval of some steps, counted within the octave.
const fn wide(steps: i16) -> i16 {
    WIDE[steps.rem_euclid(7).unsigned_abs() as usize]
}

fn times(n: u32) -> String {
    match n {
        1 => String::new(),
        2 => "doubly ".to_owned(),
        3 => "triply ".to_owned(),
        n => format!("{n} times "),
    }
}

impl Neg for Interval {
    type Output = Self;
    fn neg(self) -> Self {
        Self { steps: self.steps.saturating_neg(), semitones: self.semitones.saturating_neg() }
    }
}

impl Add for Interval {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            steps: self.steps.saturating_add(other.steps),
            semitones: self.semitones.saturating_add(other.semitones),
        }
    }
}

impl fmt::Display for Interval {
    /// Quality and number: `m3`, `P5`, `AA4`, `-M2`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_down() {
            f.write_str("-")?;
        }
        match self.quality() {
            Quality::Perfect => f.write_str("P")?,
            Quality::Major => f.write_str("M")?,
            Quality::Minor => f.write_str("m")?,
            Quality::Augmented(n) => (0..n).try_for_each(|_| f.write_str("A"))?,
            Quality::Diminished(n) => (0..n).try_for_each(|_| f.write_str("d"))?,
        }
        write!(f, "{}", i32::from(self.abs().steps) + 1)
    }
}

impl FromStr for Interval {
    type Err = TheoryError;

    /// Reads the canonical form: `m3`, `P5`, `AA4`, `-M2`; the quality must suit the number.
    fn from_str(text: &str) -> Result<Self, TheoryError> {
        let bad = || TheoryError::NotA { wanted: "interval", found: text.to_owned() };
        let (down, rest) = text.strip_prefix('-').map_or((false, text), |rest| (true, rest));
        let at = rest.find(|c: char| c.is_ascii_digit()).ok_or_else(bad)?;
        let (quality, number) = rest.split_at(at);
        let number: i16 = number.parse().map_err(|_| bad())?;
        if !(1..=Self::MAX_STEPS + 1).contains(&number) || quality.len() > 8 {
            return Err(bad());
        }
        let steps = number - 1;
        let within = steps % 7;
        let perfect = matches!(within, 0 | 3 | 4);
        let many = i16::try_from(quality.len()).map_err(|_| bad())?;
        let over = match quality {
            "P" if perfect => 0,
            "M" if !perfect => 0,
            "m" if !perfect => -1,
            q if !q.is_empty() && q.bytes().all(|b| b == b'A') => many,
            q if !q.is_empty() && q.bytes().all(|b| b == b'd') => {
                if perfect {
                    -many
                } else {
                    -many - 1
                }
            }
            _ => return Err(bad()),
        };
        let semitones = steps / 7 * 12 + wide(within) + over;
        let up = Self { steps, semitones };
        Ok(if down { -up } else { up })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_words() {
        for (name, words) in [
            ("P1", "perfect unison"),
            ("A1", "augmented unison"),
            ("m2", "minor second"),
            ("P8", "octave"),
            ("A8", "augmented octave"),
            ("d8", "diminished octave"),
            ("M9", "octave and a major second"),
            ("A11", "octave and an augmented fourth"),
            ("P15", "two octaves"),
            ("M20", "two octaves and a major sixth"),
            ("dd5", "doubly diminished fifth"),
        ] {
            let interval: Interval = name.parse().unwrap();
            assert_eq!(interval.to_string(), name);
            assert_eq!(interval.in_words(), words);
        }
    }

    #[test]
    fn an_interval_and_its_inversion_make_an_octave() {
        for steps in 0..7 {
            for over in -3..=3 {
                let i = Interval::new(steps, wide(steps) + over);
                if i.is_down() {
                    continue;
                }
                assert_eq!(i + i.inversion(), Interval::OCTAVE, "{i}");
            }
        }
    }

    #[test]
    fn semitones_have_usual_names() {
        let names: Vec<String> =
            (-2..=13).map(|n| Interval::from_semitones(n).to_string()).collect();
        assert_eq!(names.join(" "), "-M2 -m2 P1 m2 M2 m3 M3 P4 A4 P5 m6 M6 m7 M7 P8 m9");
    }

    #[test]
    fn rubbish_is_refused() {
        for text in ["", "3", "P3", "M5", "m4", "x2", "M0", "M999", "Ad4", "P-5", "d"] {
            assert!(text.parse::<Interval>().is_err(), "{text}");
        }
    }
}

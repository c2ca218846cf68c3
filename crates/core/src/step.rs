//! The seven letter names.

use std::fmt;

/// One of the seven letter names, C to B.
///
/// # Examples
///
/// ```
/// use modewright_core::Step;
///
/// assert_eq!(Step::C.up(2), Step::E);
/// // Counting goes round: a seventh above B is A.
/// assert_eq!(Step::B.up(6), Step::A);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// C, index 0.
    C,
    /// D, index 1.
    D,
    /// E, index 2.
    E,
    /// F, index 3.
    F,
    /// G, index 4.
    G,
    /// A, index 5.
    A,
    /// B, index 6.
    B,
}

impl Step {
    /// All letters in the order of the octave, C first.
    pub const ALL: [Self; 7] = [Self::C, Self::D, Self::E, Self::F, Self::G, Self::A, Self::B];

    /// Letters in the order in which sharps enter a signature: F C G D A E B.
    ///
    /// Flats enter in the opposite order. Source: Hutchinson, *Music Theory for the
    /// 21st-Century Classroom*, §2.3.
    pub const SHARP_ORDER: [Self; 7] =
        [Self::F, Self::C, Self::G, Self::D, Self::A, Self::E, Self::B];

    /// Place in the octave: C is 0, B is 6.
    #[must_use]
    pub const fn index(self) -> u8 {
        self as u8
    }

    /// The letter at a place in the octave, counted round (7 is C again, −1 is B).
    #[must_use]
    pub const fn from_index(index: i32) -> Self {
        Self::ALL[index.rem_euclid(7) as usize]
    }

    /// The letter `steps` letters higher, counted round.
    #[must_use]
    pub const fn up(self, steps: i32) -> Self {
        Self::from_index(self as i32 + steps)
    }

    /// Semitones above C of the natural note.
    #[must_use]
    pub const fn semitones(self) -> u8 {
        // Four bits each: a table would be laid out anew wherever this is asked.
        ((0xB97_5420_u32 >> (4 * self as u32)) & 0xF) as u8
    }

    /// Place of the natural note on the line of fifths, C at 0: F is −1, B is 5.
    #[must_use]
    pub const fn fifths(self) -> i8 {
        [0, 2, 4, -1, 1, 3, 5][self as usize]
    }

    /// The capital letter.
    #[must_use]
    pub const fn letter(self) -> char {
        ['C', 'D', 'E', 'F', 'G', 'A', 'B'][self as usize]
    }

    /// The step of a letter in either case; `None` for anything but A to G.
    #[must_use]
    pub const fn from_letter(letter: char) -> Option<Self> {
        Some(match letter.to_ascii_uppercase() {
            'C' => Self::C,
            'D' => Self::D,
            'E' => Self::E,
            'F' => Self::F,
            'G' => Self::G,
            'A' => Self::A,
            'B' => Self::B,
            _ => return None,
        })
    }
}

impl fmt::Display for Step {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.letter())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn indices_letters_and_rounds_agree() {
        for step in Step::ALL {
            assert_eq!(Step::from_index(i32::from(step.index())), step);
            assert_eq!(Step::from_letter(step.letter()), Some(step));
            assert_eq!(Step::from_letter(step.letter().to_ascii_lowercase()), Some(step));
            for k in -21..=21 {
                assert_eq!(step.up(k).up(-k), step);
                assert_eq!(step.up(k), step.up(k + 7));
            }
        }
        assert_eq!(Step::from_letter('H'), None);
    }

    #[test]
    fn fifths_and_semitones_agree_modulo_twelve() {
        for step in Step::ALL {
            let by_fifths = (i32::from(step.fifths()) * 7).rem_euclid(12);
            assert_eq!(by_fifths, i32::from(step.semitones()));
        }
    }
}

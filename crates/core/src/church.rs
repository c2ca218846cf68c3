//! The twelve church modes: a final, a reciting tone and a range.

use crate::{Mode, Step};

/// Whether a melody lies above its final or around it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ChurchKind {
    /// From the final up an octave.
    Authentic,
    /// From a fourth below the final to a fifth above it.
    Plagal,
}

/// One of the twelve church modes, on its untransposed final.
///
/// Church modes share their names with the seven modes and add a range: Dorian and
/// Hypodorian have the same notes and the same final.
///
/// # Examples
///
/// ```
/// use modewright_core::{ChurchMode, Mode, Step};
///
/// let second = ChurchMode::ALL[1];
/// assert_eq!((second.name, second.mode, second.last), ("Hypodorian", Mode::Dorian, Step::D));
/// // Hypomixolydian has the octave of Dorian, and another final.
/// assert_eq!(ChurchMode::ALL[7].lowest, ChurchMode::ALL[0].lowest);
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct ChurchMode {
    /// 1 to 12.
    pub number: u8,
    /// Its name.
    pub name: &'static str,
    /// Above the final or around it.
    pub kind: ChurchKind,
    /// The diatonic mode on its final.
    pub mode: Mode,
    /// Its final: the last note and home.
    pub last: Step,
    /// The note that it recites on.
    pub reciting: Step,
    /// The lowest note of its nominal octave.
    pub lowest: Step,
}

const fn church(
    number: u8,
    name: &'static str,
    mode: Mode,
    last: Step,
    reciting: Step,
) -> ChurchMode {
    let (kind, lowest) = if number % 2 == 1 {
        (ChurchKind::Authentic, last)
    } else {
        (ChurchKind::Plagal, last.up(-3))
    };
    ChurchMode { number, name, kind, mode, last, reciting, lowest }
}

impl ChurchMode {
    /// All twelve: the traditional eight, and the four that Glarean added in 1547.
    ///
    /// Finals, kinds and reciting tones: MacDowell, *Critical and Historical Essays* (1912),
    /// chapter on the church modes; ranges of the eight: Tonalsoft Encyclopedia, "mode".
    pub const ALL: [Self; 12] = [
        church(1, "Dorian", Mode::Dorian, Step::D, Step::A),
        church(2, "Hypodorian", Mode::Dorian, Step::D, Step::F),
        church(3, "Phrygian", Mode::Phrygian, Step::E, Step::C),
        church(4, "Hypophrygian", Mode::Phrygian, Step::E, Step::A),
        church(5, "Lydian", Mode::Lydian, Step::F, Step::C),
        church(6, "Hypolydian", Mode::Lydian, Step::F, Step::A),
        church(7, "Mixolydian", Mode::Mixolydian, Step::G, Step::D),
        church(8, "Hypomixolydian", Mode::Mixolydian, Step::G, Step::C),
        church(9, "Aeolian", Mode::Aeolian, Step::A, Step::E),
        church(10, "Hypoaeolian", Mode::Aeolian, Step::A, Step::C),
        church(11, "Ionian", Mode::Ionian, Step::C, Step::G),
        church(12, "Hypoionian", Mode::Ionian, Step::C, Step::E),
    ];
}

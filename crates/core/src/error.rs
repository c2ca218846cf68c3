//! What can go wrong in theory: data, a stable code and a short text.

use crate::{Mode, Spelling};
use std::fmt;

/// An impossible request to the theory part.
///
/// The variants hold the values; learners' words for them live in the lesson crate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TheoryError {
    /// More than seven sharps or flats on one letter.
    AlterTooLarge {
        /// The alteration that was asked for.
        semitones: i32,
    },
    /// A key that would need more than seven sharps or flats.
    SignatureTooLarge {
        /// Home note that was asked for.
        home: Spelling,
        /// Mode that was asked for.
        mode: Mode,
        /// Sharps (positive) or flats (negative) that it would need.
        fifths: i32,
    },
    /// A signature outside seven flats to seven sharps.
    FifthsOutOfRange {
        /// The number that was asked for.
        fifths: i32,
    },
    /// An octave outside what a pitch may have.
    OctaveOutOfRange {
        /// The octave that was asked for.
        octave: i32,
    },
    /// A length with a zero or too large part.
    LengthOutOfRange,
    /// A metre that no bar can have.
    BadMetre {
        /// Beats that were asked for.
        beats: u32,
        /// Note value that was asked for (4 is a crotchet).
        value: u32,
    },
    /// Text that is not what it should be (`Bb4`, `D dorian`).
    NotA {
        /// What was wanted: "note name", "pitch", "mode", "key", "interval".
        wanted: &'static str,
        /// What was found.
        found: String,
    },
}

impl TheoryError {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::AlterTooLarge { .. } => "alter-too-large",
            Self::SignatureTooLarge { .. } => "key-beyond-seven",
            Self::FifthsOutOfRange { .. } => "signature-beyond-seven",
            Self::OctaveOutOfRange { .. } => "octave-out-of-range",
            Self::LengthOutOfRange => "length-out-of-range",
            Self::BadMetre { .. } => "bad-metre",
            Self::NotA { .. } => "not-understood",
        }
    }
}

impl fmt::Display for TheoryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::AlterTooLarge { semitones } => {
                write!(f, "an alteration of {semitones} semitones is beyond seven")
            }
            Self::SignatureTooLarge { home, mode, fifths } => {
                let what = if *fifths > 0 { "sharps" } else { "flats" };
                write!(f, "{home} {mode} would need {} {what}", fifths.unsigned_abs())
            }
            Self::FifthsOutOfRange { fifths } => {
                write!(f, "a signature of {fifths} is outside -7 to 7")
            }
            Self::OctaveOutOfRange { octave } => write!(f, "octave {octave} is out of range"),
            Self::LengthOutOfRange => f.write_str("length out of range"),
            Self::BadMetre { beats, value } => write!(f, "{beats}/{value} is not a metre"),
            Self::NotA { wanted, found } => {
                let article =
                    if wanted.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
                write!(f, "`{found}` is not {article} {wanted}")
            }
        }
    }
}

impl std::error::Error for TheoryError {}

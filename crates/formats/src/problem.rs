//! What was odd about a text: data, a stable code and a short description.

use modewright_core::tune::Span;
use modewright_core::{Length, Step};
use std::fmt;

/// How much a problem matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// A choice of the reader that the user should know of; the text is in order.
    Note,
    /// Odd, but read as it was surely meant.
    Warning,
    /// Something could not be read; it was left out and reading went on.
    Error,
}

/// A problem and its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// What it is.
    pub kind: ProblemKind,
    /// Line in the file, from 1.
    pub line: u32,
    /// Column in the line, from 1, in characters.
    pub column: u32,
    /// The bytes it is about, from the start of the tune's text.
    pub span: Span,
}

/// Kinds of problems, each with what was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ProblemKind {
    /// There is no note in the text.
    NoNotes,

    // Files.
    /// The bytes are no UTF-8 and were read as Latin-1.
    Latin1,
    /// The bytes are no text.
    NotText,
    /// The file is of another type.
    OtherFileType {
        /// What it seems to be.
        seems: &'static str,
    },
    /// The text of one tune is longer than the limit; the rest of it was left out.
    TuneTooLong {
        /// The limit in bytes.
        limit: usize,
    },

    // Plain letters.
    /// A word that is no note name.
    NotANote {
        /// The word.
        found: String,
    },
    /// The letter H, which some countries use for B.
    LetterH {
        /// The letter as written.
        found: String,
    },
    /// The text marks no octaves; each note was put nearest to the one before.
    OctavesInferred,
    /// The text gives no lengths; each note was given the same one.
    LengthsUnknown {
        /// The length that each note was given.
        taken: Length,
    },
    /// A dash was read as a rest, because dashes stand only between some notes.
    DashAsRest,
    /// A key is stated whose sharps or flats the letters do not have; letters were read as written.
    KeyNotApplied {
        /// The letters that the key alters and the text leaves plain, in the order of the octave.
        plain: Vec<Step>,
    },
}

impl ProblemKind {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoNotes => "no-notes",
            Self::Latin1 => "latin-1",
            Self::NotText => "not-text",
            Self::OtherFileType { .. } => "other-file-type",
            Self::TuneTooLong { .. } => "tune-too-long",
            Self::NotANote { .. } => "not-a-note",
            Self::LetterH { .. } => "letter-h",
            Self::OctavesInferred => "octaves-inferred",
            Self::LengthsUnknown { .. } => "lengths-unknown",
            Self::DashAsRest => "dash-as-rest",
            Self::KeyNotApplied { .. } => "key-not-applied",
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::NoNotes
            | Self::NotText
            | Self::OtherFileType { .. }
            | Self::TuneTooLong { .. }
            | Self::NotANote { .. }
            | Self::LetterH { .. } => Severity::Error,
            Self::Latin1
            | Self::OctavesInferred
            | Self::LengthsUnknown { .. }
            | Self::DashAsRest
            | Self::KeyNotApplied { .. } => Severity::Note,
        }
    }
}

impl fmt::Display for ProblemKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoNotes => f.write_str("no notes"),
            Self::Latin1 => f.write_str("no UTF-8: read as Latin-1"),
            Self::NotText => f.write_str("no text: it has zero bytes"),
            Self::OtherFileType { seems } => write!(f, "this seems to be {seems}"),
            Self::TuneTooLong { limit } => {
                write!(f, "the tune is longer than {} MiB; the rest is left out", limit >> 20)
            }
            Self::NotANote { found } => write!(f, "`{found}` is not a note"),
            Self::LetterH { found } => write!(f, "`{found}` is not a letter name"),
            Self::OctavesInferred => {
                f.write_str("no octaves are marked: each note is the nearest to the one before")
            }
            Self::LengthsUnknown { taken } => {
                write!(f, "no lengths are given: each note is taken as {taken} of a semibreve")
            }
            Self::DashAsRest => f.write_str("dashes stand only between some notes: read as rests"),
            Self::KeyNotApplied { plain } => {
                f.write_str("letters are read as written, though the key alters")?;
                for (i, step) in plain.iter().enumerate() {
                    write!(f, "{} {step}", if i > 0 { "," } else { "" })?;
                }
                Ok(())
            }
        }
    }
}

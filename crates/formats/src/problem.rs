//! What was odd about a text: data, a stable code and a short description.

use modewright_core::tune::Span;
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
}

impl ProblemKind {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoNotes => "no-notes",
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::NoNotes => Severity::Error,
        }
    }
}

impl fmt::Display for ProblemKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoNotes => f.write_str("no notes"),
        }
    }
}

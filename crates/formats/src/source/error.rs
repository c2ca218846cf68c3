//! Why a stream gives no more tunes.

use crate::ProblemKind;
use std::{error, fmt, io};

/// A stream that cannot be read, or that is no tune text.
#[derive(Debug)]
pub enum SourceError {
    /// Reading itself failed.
    Io(io::Error),
    /// It is no tune text: [`ProblemKind::NotText`] or [`ProblemKind::OtherFileType`].
    Refused {
        /// What it is instead.
        kind: ProblemKind,
        /// The line where this showed, from 1.
        line: u32,
    },
}

impl SourceError {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Io(_) => "cannot-read",
            Self::Refused { kind, .. } => kind.code(),
        }
    }
}

impl fmt::Display for SourceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Io(e) => write!(f, "cannot read: {e}"),
            Self::Refused { kind, line } => write!(f, "line {line}: {kind}"),
        }
    }
}

impl error::Error for SourceError {
    fn source(&self) -> Option<&(dyn error::Error + 'static)> {
        match self {
            Self::Io(e) => Some(e),
            Self::Refused { .. } => None,
        }
    }
}

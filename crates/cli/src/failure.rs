//! Why the command could not answer at all.

use modewright_lesson::{ask::Refusal, words::Advice};
use std::{fmt, io, path::PathBuf};

/// A failure that ends the command with status 2.
#[derive(Debug)]
pub(crate) enum Failure {
    /// An argument that cannot be.
    Argument {
        /// The option's name; nothing where the argument has none that a person would know.
        name: &'static str,
        /// What is wrong with it, and a way out.
        advice: Advice,
    },
    /// An option that says what cannot be.
    Refused(Refusal),
    /// A file or folder that cannot be opened.
    File {
        /// Its name.
        path: PathBuf,
        /// Why not.
        error: io::Error,
    },
    /// A file of instruments that cannot be opened.
    Instruments {
        /// Its name.
        path: PathBuf,
        /// Why not.
        error: io::Error,
    },
    /// A file that is not what it should be.
    Content {
        /// Its name.
        path: PathBuf,
        /// What is wrong, and a way out.
        advice: Advice,
    },
    /// Nothing to read in the folders that were named.
    NoTunes {
        /// The folder.
        path: PathBuf,
    },
    /// A file that was to be written, and why it was not.
    NotWritten {
        /// Its name.
        path: PathBuf,
        /// Why not, and a way out.
        why: NotWritten,
    },
    /// A file has fewer tunes than the one that is asked for.
    NoSuchTune {
        /// The name of the source.
        name: String,
        /// The tune that is asked for, from 1.
        place: usize,
        /// How many there are.
        count: usize,
    },
    /// A file cannot be written.
    Write {
        /// Its name.
        path: PathBuf,
        /// Why not.
        error: io::Error,
    },
    /// The answer could not be printed.
    Output(io::Error),
}

/// Why a file was not written.
#[derive(Debug)]
pub(crate) enum NotWritten {
    /// Its name tells no format.
    NoFormat,
    /// It has no lines of words for rows.
    NoRows,
    /// It holds one tune, and there are so many.
    ManyTunes(usize),
}

impl NotWritten {
    fn words(&self) -> (String, &'static str) {
        match self {
            Self::NoFormat => (
                "its name tells no format".to_owned(),
                "names end in .abc, .musicxml, .mxl or .mid",
            ),
            Self::NoRows => (
                "this format has no lines of words for --rows under its notes".to_owned(),
                "write .musicxml, .mxl or .abc, or leave --rows out",
            ),
            Self::ManyTunes(count) => (
                format!("this format holds one tune, and there are {count}"),
                "choose one with --tune, or write .abc, which holds them all",
            ),
        }
    }
}

impl From<Refusal> for Failure {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Self {
        Self::Output(error)
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (message, hint) = match self {
            Self::Argument { name: "", advice } => (advice.message.clone(), advice.hint.clone()),
            Self::Argument { name, advice } => {
                (format!("{name}: {}", advice.message), advice.hint.clone())
            }
            Self::Refused(Refusal { option, advice, .. }) => {
                (format!("--{option}: {}", advice.message), advice.hint.clone())
            }
            Self::File { path, error } => {
                let hint = if error.kind() == io::ErrorKind::NotFound {
                    "check the name; - reads standard input"
                } else {
                    "check that it may be read"
                };
                (format!("{}: {}", path.display(), plain(error)), hint.to_owned())
            }
            Self::Instruments { path, error } => (
                format!("{}: {}", path.display(), plain(error)),
                "check the name of the file".to_owned(),
            ),
            Self::Content { path, advice } => {
                (format!("{}: {}", path.display(), advice.message), advice.hint.clone())
            }
            Self::NoTunes { path } => (
                format!("{}: no tune files in this folder", path.display()),
                "tune files end in .abc, .txt, .musicxml, .xml, .mxl, .mid or .midi; \
                 any other file can be named itself"
                    .to_owned(),
            ),
            Self::NotWritten { path, why } => {
                let (message, hint) = why.words();
                (format!("{}: {message}", path.display()), hint.to_owned())
            }
            Self::NoSuchTune { name, place, count } => {
                let advice = modewright_lesson::words::no_such_tune(name, *place, *count);
                (advice.message, advice.hint)
            }
            Self::Write { path, error } => (
                format!("{} cannot be written: {}", path.display(), plain(error)),
                "name a file in a folder that is there; what stood in it is untouched".to_owned(),
            ),
            Self::Output(error) => (format!("cannot print the answer: {error}"), String::new()),
        };
        write!(f, "error: {message}")?;
        if !hint.is_empty() {
            write!(f, "\nhint: {hint}")?;
        }
        Ok(())
    }
}

/// An error of the system in small letters and without its number.
fn plain(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        io::ErrorKind::PermissionDenied => "permission denied".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder".to_owned(),
        _ => error.to_string(),
    }
}

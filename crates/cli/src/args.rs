//! The arguments, and the help that teaches them.

use crate::told_args::{CountArgs, LessonArgs, TextArgs};
use clap::{Args as ClapArgs, Parser, Subcommand};
use std::path::PathBuf;

const ABOUT: &str = "Which mode is this tune in, how low and how high does it go?";

const EXAMPLES: &str = "\
Examples:
  modewright find                          an invented demo tune, to see what an answer is
  modewright find tune.abc                 home note, mode and range of a tune, with the reasons
  echo \"D E F# G A B c# d\" | modewright find -     letters, as people type them in a message
  modewright find books/ --csv > books.csv        a folder of tune books as a table
  modewright scale \"E dorian\"              its notes, and the modes related to it

A mode is a scale begun somewhere else: E Dorian is the notes of D major with E as home.";

/// The whole command line.
#[derive(Debug, Parser)]
#[command(name = "modewright", version, about = ABOUT, after_help = EXAMPLES)]
pub(crate) struct Args {
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Find home note, mode, lowest and highest note of tunes
    Find(FindArgs),
    /// Show a scale: its notes, its signature, and the modes related to it
    Scale(ScaleArgs),
    /// Count tunes: the word that is said under every note
    Count(CountArgs),
    /// Tell a tune bar by bar, as a text that you can edit
    Lesson(LessonArgs),
}

const FIND_HELP: &str = "\
One tune gets a report; many get a table, one line a tune.
Text is ABC (any file with fields like K: and X:, many tunes in one file) or plain letters:
capital letters name notes, # and b (or ♯ and ♭) alter them, an octave is marked by ' or ,
or a number, and bars by |.

The answer says how sure it is. \"open\" means that home is clear, but the note that would
decide the mode never sounds; \"doubtful\" means that two answers are near each other.

Exit status: 0 when all was read, 1 when something in a tune could not be read (the rest is
answered all the same), 2 for wrong arguments or a missing file.";

/// `modewright find`.
#[derive(Debug, ClapArgs)]
#[command(after_help = FIND_HELP)]
pub(crate) struct FindArgs {
    /// Files and folders of tunes; - reads standard input; without any, a demo tune answers
    pub files: Vec<PathBuf>,
    /// Print one JSON object a tune
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Print a table of comma-separated values
    #[arg(long)]
    pub csv: bool,
    /// Read this voice where a tune has several (the first one otherwise)
    #[arg(long, value_name = "NAME")]
    pub voice: Option<String>,
    #[command(flatten)]
    pub text: TextArgs,
    /// You know the home note, like D or F#: the mode is judged given it
    #[arg(long, value_name = "NOTE")]
    pub home: Option<String>,
    /// You know the mode, like dorian: home is judged given it
    #[arg(long, value_name = "MODE")]
    pub mode: Option<String>,
}

/// `modewright scale`.
#[derive(Debug, ClapArgs)]
pub(crate) struct ScaleArgs {
    /// A home note and a mode, like "E dorian", "Bb major" or "F#m"
    #[arg(value_name = "KEY", required = true, num_args = 1..)]
    pub key: Vec<String>,
    /// Print a JSON object
    #[arg(long)]
    pub json: bool,
}

//! The arguments, and the help that teaches them.

use clap::{Args as ClapArgs, Parser, Subcommand};
use std::path::PathBuf;

const ABOUT: &str = "Which mode is this tune in, how low and how high does it go?";

const EXAMPLES: &str = "\
Examples:
  modewright find                          an invented demo tune, to see what an answer is
  modewright find tune.abc                 home note, mode and range of a tune, with the reasons
  echo \"D E F# G A B c# d\" | modewright find -     letters, as people type them in a message
  modewright find books/ --csv > books.csv        a folder of tune books as a table
  modewright convert tune.mxl -o tune.abc  a tune in another format
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
    /// Write a tune in another format: ABC, MusicXML, MIDI
    Convert(ConvertArgs),
    /// Show a scale: its notes, its signature, and the modes related to it
    Scale(ScaleArgs),
}

const FIND_HELP: &str = "\
One tune gets a report; many get a table, one line a tune.
Text is ABC (any file with fields like K: and X:, many tunes in one file) or plain letters.
Scores (MusicXML, plain or compressed) and MIDI files are read too: one melody of each. What a
file is shows in what it holds, not in its name.

In plain letters, capitals name notes, # and b (or ♯ and ♭) alter them, an octave is marked by
' or , or a number, and bars by |.

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
    /// Read this part of a score, by its name or number (the first with notes otherwise)
    #[arg(long, value_name = "NAME")]
    pub part: Option<String>,
    /// Read this track of a MIDI file, by its name or number (the first melody otherwise)
    #[arg(long, value_name = "NAME", conflicts_with = "part")]
    pub track: Option<String>,
    /// Metre of letters, which cannot tell it, like 6/8
    #[arg(long, value_name = "N/N")]
    pub metre: Option<String>,
    /// Length of the pickup of letters, as a fraction of a whole note, like 1/8
    #[arg(long, value_name = "N/N")]
    pub pickup: Option<String>,
    /// You know the home note, like D or F#: the mode is judged given it
    #[arg(long, value_name = "NOTE")]
    pub home: Option<String>,
    /// You know the mode, like dorian: home is judged given it
    #[arg(long, value_name = "MODE")]
    pub mode: Option<String>,
}

const CONVERT_HELP: &str = "\
The format of the new file is told by its name: .abc, .musicxml (or .xml), .mxl (compressed
MusicXML) or .mid. What the old file holds is told by its content.

A book of many tunes becomes a book of ABC; for the others, choose a tune with --tune.
MIDI holds what sounds: repeats are played out, grace notes are left out, and the names of
notes are lost.

Exit status: 0 when all was read, 1 when something in a tune could not be read (the rest is
written all the same), 2 for wrong arguments or a file that cannot be read or written.";

/// `modewright convert`.
#[derive(Debug, ClapArgs)]
#[command(after_help = CONVERT_HELP)]
pub(crate) struct ConvertArgs {
    /// The file to read; - reads standard input
    #[arg(value_name = "FILE")]
    pub input: PathBuf,
    /// The file to write
    #[arg(short, long, value_name = "FILE")]
    pub output: PathBuf,
    /// Which tune of a book: its place, counted from 1
    #[arg(long, value_name = "N")]
    pub tune: Option<usize>,
    /// Write over a file that is there already
    #[arg(long)]
    pub force: bool,
    /// Read this voice where a tune has several (the first one otherwise)
    #[arg(long, value_name = "NAME")]
    pub voice: Option<String>,
    /// Read this part of a score, by its name or number (the first with notes otherwise)
    #[arg(long, value_name = "NAME")]
    pub part: Option<String>,
    /// Read this track of a MIDI file, by its name or number (the first melody otherwise)
    #[arg(long, value_name = "NAME", conflicts_with = "part")]
    pub track: Option<String>,
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

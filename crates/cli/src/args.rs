//! The arguments, and the help that teaches them.

use crate::listed::Listed;
use crate::sheet_args::RowName;
use crate::told_args::{CountArgs, CountWords, LessonArgs, Names, SoundArgs, TextArgs};
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
  modewright fit tune.abc --on tin-whistle-d      in which key it lies best on a whistle
  modewright transpose tune.abc --to D     the tune in D, as ABC
  modewright scale \"E dorian\"              its notes, and the modes related to it
  modewright count tune.abc                what is said under every note
  modewright lesson tune.abc -o walk.md    the tune told bar by bar, for you to edit
  modewright sound tune.abc -o tune.wav    the tune to listen to, after a bar of count-in
  modewright instruments                   the instruments it knows
  modewright fingering tune.abc --on anglo-20-c-g   which button plays each note

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
    /// Move tunes to another key or octave, or to where an instrument plays them, as ABC
    Transpose(TransposeArgs),
    /// Rank the keys and octaves in which tunes lie on an instrument
    Fit(FitArgs),
    /// Show a scale: its notes, its signature, and the modes related to it
    Scale(ScaleArgs),
    /// Count tunes: the word that is said under every note
    Count(CountArgs),
    /// Put a tune on paper with rows under its notes, and tell it bar by bar
    Lesson(LessonArgs),
    /// Play a tune, or scales to compare, into a sound file
    Sound(SoundArgs),
    /// List the instruments, or show one with all its notes
    Instruments(InstrumentsArgs),
    /// Say which button, hole, string or lever plays each note of a tune
    Fingering(FingeringArgs),
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
    #[command(flatten)]
    pub text: TextArgs,
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
notes are lost. A file that is there already is replaced in one piece, or not at all.

With --rows, scores show the lesson in any program that prints music: count, degree, name,
fingering stand under the notes as verses after the tune's own words, which are always kept. ABC
has them too, but for what is counted in a rest.

  modewright convert tune.abc --rows count,note -o tune.musicxml
  modewright convert tune.abc --rows degree,fingering --on tin-whistle-d -o tune.mxl

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
    /// Rows of the lesson as lines of words under the notes, from the top down, with commas
    /// between
    #[arg(long, value_parser = Listed::<RowName>::new(), value_delimiter = ',')]
    pub rows: Vec<RowName>,
    /// The learner's instrument, for its fingering; its short name, or a file of your own
    #[arg(long, value_name = "INSTRUMENT", requires = "rows")]
    pub on: Option<String>,
    /// Names of notes in the rows
    #[arg(long, value_enum, default_value = "letters")]
    pub names: Names,
    #[command(flatten)]
    pub count: CountWords,
    /// Read this voice where a tune has several (the first one otherwise)
    #[arg(long, value_name = "NAME")]
    pub voice: Option<String>,
    #[command(flatten)]
    pub text: TextArgs,
}

const TRANSPOSE_HELP: &str = "\
The tunes are printed as ABC, the mode kept. ABC keeps its comments, layout, words and ornaments
byte for byte: only keys, notes and chord signs change. Letters are written anew as ABC.

  modewright transpose tune.abc --to E             to E, in the tune's own mode, the shorter way
  modewright transpose tune.abc --by -5            down five semitones; --by 12 is an octave up
  modewright transpose tune.abc --by M3            up a major third; -P4 is down a fourth
  modewright transpose tune.abc --for tin-whistle-d         to where it lies best on the whistle
  modewright transpose tune.abc --to G --for fiddle --fold  to G, notes out of reach folded

Folded notes are marked in the text. What was done is told on standard error.

Exit status: 0 when every tune was moved and lies on the instrument, 1 when one could not be moved
(it is printed as it was) or has notes that the instrument does not have, 2 for wrong arguments.";

/// `modewright transpose`.
#[derive(Debug, ClapArgs)]
#[command(after_help = TRANSPOSE_HELP)]
#[command(group = clap::ArgGroup::new("aim").args(["to", "by", "instrument"]).required(true).multiple(true))]
pub(crate) struct TransposeArgs {
    /// A file of tunes; - reads standard input
    pub file: PathBuf,
    /// The home note to move to, like E or "E dorian"; a mode must be the tune's own
    #[arg(long, value_name = "KEY", conflicts_with = "by")]
    pub to: Option<String>,
    /// How far to move: semitones, or an interval like M2 or -P4
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub by: Option<String>,
    /// The instrument that is to play it, or FILE.json:ID; without --to and --by, to where it
    /// lies best
    #[arg(long = "for", id = "instrument", value_name = "NAME")]
    pub instrument: Option<String>,
    /// Take notes that the instrument does not have into another octave, each marked
    #[arg(long, requires = "instrument")]
    pub fold: bool,
    /// Judge this voice where a tune has several (the first one otherwise); all of them are moved
    #[arg(long, value_name = "NAME")]
    pub voice: Option<String>,
    #[command(flatten)]
    pub text: TextArgs,
}

const FIT_HELP: &str = "\
The best height is the one with nothing missing, few awkward notes, in the comfortable span, near
the original, in a key that lies well, with few sharps and flats. What cannot be played is told
with its bars; where nothing fits, which notes to fold, and who plays the tune where it stands.

  modewright fit tune.abc --on tin-whistle-d
  modewright fit tune.abc --on fiddle,anglo-30-c-g     which of these play it where it stands
  modewright fit tune.abc --own mine.json              on the instruments of a file of your own

Pitches are as written for the player; the report says what they sound as.

Exit status: 0 when every tune lies on an instrument at some height, 1 when one does not or could
not be read, 2 for wrong arguments.";

/// `modewright fit`.
#[derive(Debug, ClapArgs)]
#[command(after_help = FIT_HELP)]
#[command(group = clap::ArgGroup::new("instruments").args(["on", "own"]).required(true).multiple(true))]
pub(crate) struct FitArgs {
    /// Files and folders of tunes; - reads standard input; without any, a demo tune answers
    pub files: Vec<PathBuf>,
    /// Instruments, by id or name; several with commas between them
    #[arg(long, value_name = "NAME[,NAME…]", value_delimiter = ',')]
    pub on: Vec<String>,
    /// A file with instruments of your own; without --on, all of them
    #[arg(long, value_name = "FILE.json")]
    pub own: Option<PathBuf>,
    /// Read this voice where a tune has several (the first one otherwise)
    #[arg(long, value_name = "NAME")]
    pub voice: Option<String>,
    #[command(flatten)]
    pub text: TextArgs,
    /// Print one JSON object a tune and instrument
    #[arg(long)]
    pub json: bool,
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

const INSTRUMENTS_HELP: &str = "\
Examples:
  modewright instruments                   all of them, with their ranges
  modewright instruments tin-whistle-d     one with its notes and how each is played
  modewright instruments mine.json         your own, from a file

A file of your own has the shape that tests/schema/instrument.json describes; the built-in
ones under crates/formats/instruments are examples. A voice is three lines:
  { \"format\": 1, \"id\": \"my-voice\", \"name\": \"my voice\", \"range\": [\"A3\", \"D5\"] }

Pitches are as written for the player; what sounds differently says so.";

/// `modewright instruments`.
#[derive(Debug, ClapArgs)]
#[command(after_help = INSTRUMENTS_HELP)]
pub(crate) struct InstrumentsArgs {
    /// An instrument, or a file of your own; without any, all are listed
    #[arg(value_name = "NAME")]
    pub name: Option<String>,
    /// Print a JSON object
    #[arg(long)]
    pub json: bool,
}

const FINGERING_HELP: &str = "\
Examples:
  modewright fingering --on fiddle                        the demo tune on the fiddle
  modewright fingering tune.abc --on melodeon-d-g         along the rows
  modewright fingering tune.abc --on melodeon-d-g --style across-the-rows
  modewright fingering tune.abc --on anglo-20-c-g --harmony
  modewright fingering tune.abc --on anglo-20-c-g --to D  moved to D before
  modewright fingering tune.abc --on anglo-20-c-g --picture buttons.svg

Where a note has several ways, the path through the tune with the least trouble is found:
turns of the bellows (free where a phrase ends), changes of row and string, fingers that hop,
hands that move. The answer says what the path costs and of what. Ways that no public source
confirms carry a * and are taken only for a note that has no other; doubtful ones never, unless
--unconfirmed is given.

Exit status: 0 when every note can be played, 1 when one cannot or a text could not be read,
2 for wrong arguments or a missing file.";

/// `modewright fingering`.
#[derive(Debug, ClapArgs)]
#[command(after_help = FINGERING_HELP)]
pub(crate) struct FingeringArgs {
    /// Files and folders of tunes; - reads standard input; without any, a demo tune answers
    pub files: Vec<PathBuf>,
    /// The instrument, or a file of your own
    #[arg(long, value_name = "NAME")]
    pub on: String,
    /// Move the tune first: to this home note, like E or "E dorian"; a mode must be its own
    #[arg(long, value_name = "KEY", conflicts_with = "by")]
    pub to: Option<String>,
    /// Move the tune first: by semitones, or by an interval like M2 or -P4
    #[arg(long, value_name = "N", allow_hyphen_values = true)]
    pub by: Option<String>,
    /// The manner of playing, where the instrument offers several
    #[arg(long, value_name = "STYLE")]
    pub style: Option<String>,
    /// Take ways that no public source confirms as readily as others
    #[arg(long)]
    pub unconfirmed: bool,
    /// Add the chord notes that the free hand has to long finals
    #[arg(long)]
    pub harmony: bool,
    /// Draw the instrument too, with the tune's notes marked on it, into a file that ends in .svg
    #[arg(long, value_name = "FILE")]
    pub picture: Option<PathBuf>,
    /// Read this voice where a tune has several (the first one otherwise)
    #[arg(long, value_name = "NAME")]
    pub voice: Option<String>,
    #[command(flatten)]
    pub text: TextArgs,
    /// Print one JSON object a tune
    #[arg(long)]
    pub json: bool,
}

//! Arguments of what is told and heard of a tune: `count`, `lesson`, `sound`.

use crate::sheet_args::SheetArgs;
use clap::{Args as ClapArgs, ValueEnum};
use modewright_core::count::{Compound, CountOptions, Detail, Simple, System, Uneven};
use modewright_lesson::walk::Values;
use modewright_lesson::words::NoteNames;
use std::path::PathBuf;

/// What is said of a text that cannot tell it itself.
#[derive(Clone, Debug, Default, ClapArgs)]
pub(crate) struct TextArgs {
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
}

/// Names of note values.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum ValueNames {
    /// Crotchet, quaver
    British,
    /// Quarter note, eighth note
    American,
}

impl From<ValueNames> for Values {
    fn from(names: ValueNames) -> Self {
        match names {
            ValueNames::British => Self::British,
            ValueNames::American => Self::American,
        }
    }
}

/// Names of notes.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum Names {
    /// F♯, B♭, B
    Letters,
    /// Fis, B, H
    German,
    /// fa♯: do is always C
    Fixed,
    /// Movable: la is home in minor, re in Dorian
    Movable,
}

impl From<Names> for NoteNames {
    fn from(names: Names) -> Self {
        match names {
            Names::Letters => Self::Letters,
            Names::German => Self::German,
            Names::Fixed => Self::Fixed,
            Names::Movable => Self::Movable,
        }
    }
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum SimpleWords {
    /// 1 e & a
    Quarters,
    /// 1 & 2 &, and a dot for what is shorter
    Halves,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum CompoundWords {
    /// 1 2 3 4 5 6
    Parts,
    /// 1 la li 2 la li
    LaLi,
    /// The same, and one ta for all that is shorter
    LaLiTa,
    /// 1 & a 2 & a
    AndA,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum UnevenWords {
    /// 1 & 2 & 3 la li
    Beats,
    /// 1 2 1 2 1 2 3
    Parts,
}

/// The words of counting.
#[derive(Clone, Debug, ClapArgs)]
pub(crate) struct CountWords {
    /// Words for beats that divide into two
    #[arg(long, value_enum, default_value = "quarters")]
    pub simple: SimpleWords,
    /// Words for jigs, whose beats divide into three
    #[arg(long, value_enum, default_value = "parts")]
    pub compound: CompoundWords,
    /// Words for metres of uneven beats
    #[arg(long, value_enum, default_value = "beats")]
    pub uneven: UnevenWords,
}

impl CountWords {
    pub(crate) fn options(&self, detail: Detail) -> CountOptions {
        let system = System {
            simple: match self.simple {
                SimpleWords::Quarters => Simple::Quarters,
                SimpleWords::Halves => Simple::Halves,
            },
            compound: match self.compound {
                CompoundWords::Parts => Compound::Parts,
                CompoundWords::LaLi => Compound::LaLi,
                CompoundWords::LaLiTa => Compound::LaLiTa,
                CompoundWords::AndA => Compound::AndA,
            },
            uneven: match self.uneven {
                UnevenWords::Beats => Uneven::Beats,
                UnevenWords::Parts => Uneven::Parts,
            },
        };
        CountOptions { system, detail }
    }
}

const COUNT_HELP: &str = "\
Every note has the word that is said where it begins; what is counted silently (rests, beats
that are held, notes that are tied) stands in brackets. A jig is counted 1 to 6 unless another
way is chosen: a stage of practice, the beats stay two.

Bars that are too long or too short for the metre are named under \"to check\". A short first bar
is the pickup, and a last bar that makes it whole is as it should be.

Exit status: 0 when all was read, 1 when something in a tune could not be read, 2 for wrong
arguments or a missing file.";

/// `modewright count`.
#[derive(Debug, ClapArgs)]
#[command(after_help = COUNT_HELP)]
pub(crate) struct CountArgs {
    /// Files and folders of tunes; - reads standard input; without any, a demo tune answers
    pub files: Vec<PathBuf>,
    /// Print one JSON object a tune
    #[arg(long)]
    pub json: bool,
    /// Say every division of the shortest notes, not whole beats alone
    #[arg(long)]
    pub full: bool,
    #[command(flatten)]
    pub words: CountWords,
    /// Names of note values
    #[arg(long, value_enum, default_value = "british")]
    pub values: ValueNames,
    /// Read this voice where a tune has several (the first one otherwise)
    #[arg(long, value_name = "NAME")]
    pub voice: Option<String>,
    #[command(flatten)]
    pub text: TextArgs,
}

const LESSON_HELP: &str = "\
The ending of the name says what is written: .md is the walk-through alone, as text for you to
edit; .svg is the sheet as a picture; .pdf is the sheet on pages; .html is sheet and walk-through
on one page to print.

The walk-through says what to know before playing, every bar told once, an order to practise in.
Change what you like and hand it back with --words: paragraphs are kept as they stand, and the
number in bold says which bar each belongs to.

  modewright lesson tune.abc -o walk.md
  modewright lesson tune.abc --words walk.md -o lesson.html
  modewright lesson tune.abc --rows count,degree,fingering --on tin-whistle-d -o sheet.pdf

A row that has nothing to say (no words in the tune, no instrument named) is left out. A file that
is there already is replaced in one piece, or not at all.";

/// What a lesson is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Printed {
    /// The walk-through as text
    Md,
    /// The sheet as a picture
    Svg,
    /// The sheet on pages
    Pdf,
    /// Sheet and walk-through on one page
    Html,
}

/// `modewright lesson`.
#[derive(Debug, ClapArgs)]
#[command(after_help = LESSON_HELP)]
pub(crate) struct LessonArgs {
    /// A file with one tune; - reads standard input; without any, a demo tune is told
    pub file: Option<PathBuf>,
    /// Where it goes: a name that ends in .md, .svg, .pdf or .html; - or nothing prints it
    #[arg(short, long, value_name = "FILE")]
    pub output: Option<PathBuf>,
    /// What is printed where no name says it
    #[arg(long, value_enum, value_name = "KIND", default_value = "md")]
    pub print: Printed,
    #[command(flatten)]
    pub sheet: SheetArgs,
    /// Take the words from this walk-through, which you have edited
    #[arg(long, value_name = "FILE")]
    pub words: Option<PathBuf>,
    /// Which tune of a file with several, by its place from 1
    #[arg(long, value_name = "N", default_value_t = 1)]
    pub tune: usize,
    /// Names of note values
    #[arg(long, value_enum, default_value = "british")]
    pub values: ValueNames,
    /// Names of notes
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

/// What a tune is played with.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(crate) enum VoiceName {
    /// A string: begins at once and dies away
    Plucked,
    /// A free reed: swells in a moment and holds
    Reed,
}

impl From<VoiceName> for modewright_sound::Voice {
    fn from(name: VoiceName) -> Self {
        match name {
            VoiceName::Plucked => Self::Plucked,
            VoiceName::Reed => Self::Reed,
        }
    }
}

const SOUND_HELP: &str = "\
The tune is played with its repeats, after a bar of clicks that stops where the pickup begins. The
first note is soft, and no click is louder than the tune.

Scales are compared by ear, each up and down over a drone of its home: the same notes from another
home, or the same home with other notes.

  modewright sound tune.abc --tempo 60 -o slow.wav
  modewright sound --scale \"D major\" --scale \"E dorian\" -o same-notes.wav
  modewright sound --scale \"E minor\" --scale \"E dorian\" -o same-home.wav

A file that is there already is replaced in one piece, or not at all.";

/// `modewright sound`.
#[derive(Debug, ClapArgs)]
#[command(after_help = SOUND_HELP)]
pub(crate) struct SoundArgs {
    /// A file with one tune; - reads standard input; without any, a demo tune is played
    pub file: Option<PathBuf>,
    /// Where it goes: a name that ends in .wav; - sends it on to another program
    #[arg(short, long, value_name = "FILE", required = true)]
    pub output: PathBuf,
    /// Beats a minute; the page's own speed otherwise
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=1000))]
    pub tempo: Option<u32>,
    /// What it is played with
    #[arg(long, value_enum, default_value = "plucked")]
    pub voice: VoiceName,
    /// Bars of clicks before the tune
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(0..=2))]
    pub count_in: u32,
    /// Play what stands on the page once, without its repeats
    #[arg(long)]
    pub once: bool,
    /// The speed in hundredths of that
    #[arg(long, value_name = "N", default_value_t = 100, value_parser = clap::value_parser!(u32).range(40..=200))]
    pub percent: u32,
    /// Play these bars alone, once: 3-6, or 3
    #[arg(long, value_name = "BARS", value_parser = bars, conflicts_with = "scale")]
    pub bars: Option<(u32, u32)>,
    /// Let the clicks go on under the tune, a click a beat
    #[arg(long, conflicts_with = "scale")]
    pub click: bool,
    /// Let the home note sound low under the tune
    #[arg(long, conflicts_with = "scale")]
    pub drone: bool,
    /// Play a scale instead of a tune; several are compared, one after the other
    #[arg(long, value_name = "KEY", conflicts_with = "file")]
    pub scale: Vec<String>,
    /// Which tune of a file with several, by its place from 1
    #[arg(long, value_name = "N", default_value_t = 1)]
    pub tune: usize,
    /// Read this voice of the page where a tune has several (the first one otherwise)
    #[arg(long, value_name = "NAME")]
    pub line: Option<String>,
    #[command(flatten)]
    pub text: TextArgs,
}

/// Bars from one number to another.
fn bars(text: &str) -> Result<(u32, u32), String> {
    let number = |text: &str| text.trim().parse::<u32>().ok();
    let (first, last) = text.split_once(['-', '–']).unwrap_or((text, text));
    match (number(first), number(last)) {
        (Some(first), Some(last)) if first <= last => Ok((first, last)),
        _ => Err("two numbers of bars are wanted, the lower first, such as 3-6".to_owned()),
    }
}

//! The answer of `count`: one object a tune.

use super::{ProblemAnswer, SCHEMA};
use modewright_core::count::{
    BarFit, Compound, Count, CountIn, CountOptions, Detail, Pace, PaceSource, Simple, Uneven,
    count, tune_count_in,
};
use modewright_core::{Length, Tune};
use modewright_formats::Problem;
use serde::Serialize;

/// The count of one tune. Lengths and places are fractions of a semibreve, as text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CountAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// Where the tune comes from: a file name, or `-`.
    pub source: String,
    /// Its number in its book.
    pub number: Option<String>,
    /// Its title.
    pub title: Option<String>,
    /// Its metre at the start: `6/8`, `2+2+3/8`, `free`.
    pub metre: String,
    /// The words that are used.
    pub system: SystemAnswer,
    /// `beats` or `full`.
    pub detail: &'static str,
    /// How fast.
    pub pace: PaceAnswer,
    /// What is said before the first note; `null` in free metre.
    pub count_in: Option<CountInAnswer>,
    /// The bars, in the order of the page.
    pub bars: Vec<BarAnswer>,
    /// What was odd about the text.
    pub problems: Vec<ProblemAnswer>,
}

/// The words for each kind of metre.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SystemAnswer {
    /// `quarters` or `halves`.
    pub simple: &'static str,
    /// `parts`, `la-li`, `la-li-ta` or `and-a`.
    pub compound: &'static str,
    /// `beats` or `parts`.
    pub uneven: &'static str,
}

/// A speed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PaceAnswer {
    /// The length that is counted.
    pub beat: String,
    /// How many of it a minute has.
    pub per_minute: u32,
    /// What it was taken from: `number`, `word`, or `metre` where the page says nothing.
    pub from: &'static str,
    /// How long a full bar lasts, in millionths of a second; `null` in free metre.
    pub bar_microseconds: Option<u64>,
}

/// What is said before the first note.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CountInAnswer {
    /// The words.
    pub text: String,
    /// The word that the first note falls on.
    pub first_note: String,
    /// From the first word to the first note.
    pub length: String,
    /// Where clicks fall, from the first word.
    pub clicks: Vec<String>,
}

/// The count of one bar.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BarAnswer {
    /// 1 is the first complete bar, 0 the pickup.
    pub number: u32,
    /// Whether it is as long as its metre says.
    pub complete: bool,
    /// `free`, `full`, `pickup`, `completes`, `part`, `short` or `long`.
    pub fit: &'static str,
    /// What a short bar lacks or a long one has too much; `null` for all others.
    pub by: Option<String>,
    /// The parts of each beat.
    pub grouping: Vec<u32>,
    /// The count as it is said, what is silent in brackets.
    pub text: String,
    /// Each count.
    pub events: Vec<CountEventAnswer>,
}

/// One count.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CountEventAnswer {
    /// The note or rest that begins or goes on here, counted from 0 through the tune.
    pub index: usize,
    /// Where it falls, from the beginning of a full bar.
    pub at: String,
    /// What is said.
    pub syllable: String,
    /// Whether a note is struck.
    pub struck: bool,
    /// The length of the note or rest that begins here; `null` where one goes on.
    pub value: Option<String>,
}

impl CountAnswer {
    /// The count of a tune.
    #[must_use]
    pub fn new(source: &str, tune: &Tune, options: CountOptions, problems: &[Problem]) -> Self {
        let (pace, from) = Pace::of(tune);
        let system = options.system;
        Self {
            schema: SCHEMA,
            source: source.to_owned(),
            number: tune.header.number.clone(),
            title: tune.header.titles.first().cloned(),
            metre: tune.metre.to_string(),
            system: SystemAnswer {
                simple: match system.simple {
                    Simple::Quarters => "quarters",
                    Simple::Halves => "halves",
                },
                compound: match system.compound {
                    Compound::Parts => "parts",
                    Compound::LaLi => "la-li",
                    Compound::LaLiTa => "la-li-ta",
                    Compound::AndA => "and-a",
                },
                uneven: match system.uneven {
                    Uneven::Beats => "beats",
                    Uneven::Parts => "parts",
                },
            },
            detail: match options.detail {
                Detail::Beats => "beats",
                Detail::Full => "full",
            },
            pace: PaceAnswer {
                beat: pace.beat.to_string(),
                per_minute: pace.per_minute,
                from: match from {
                    PaceSource::Number => "number",
                    PaceSource::Word => "word",
                    PaceSource::Metre => "metre",
                },
                bar_microseconds: tune.metre.bar_length().map(|bar| pace.microseconds(bar)),
            },
            count_in: tune_count_in(tune, 1, system).map(|found| CountInAnswer::new(&found)),
            bars: count(tune, options)
                .iter()
                .map(|bar| BarAnswer {
                    number: bar.number,
                    complete: bar.place.fit == BarFit::Full,
                    fit: fit(bar.place.fit),
                    by: by(bar.place.fit).map(|length| length.to_string()),
                    grouping: bar.grouping.clone(),
                    text: bar.text(),
                    events: bar.events.iter().map(CountEventAnswer::new).collect(),
                })
                .collect(),
            problems: problems.iter().map(ProblemAnswer::new).collect(),
        }
    }
}

const fn fit(fit: BarFit) -> &'static str {
    match fit {
        BarFit::Free => "free",
        BarFit::Full => "full",
        BarFit::Pickup => "pickup",
        BarFit::Completes => "completes",
        BarFit::Part => "part",
        BarFit::Short { .. } => "short",
        BarFit::Long { .. } => "long",
    }
}

const fn by(fit: BarFit) -> Option<Length> {
    match fit {
        BarFit::Short { by } | BarFit::Long { by } => Some(by),
        _ => None,
    }
}

impl CountInAnswer {
    fn new(found: &CountIn) -> Self {
        Self {
            text: found.text(),
            first_note: found.first_note.to_string(),
            length: found.length.to_string(),
            clicks: found.clicks.iter().map(ToString::to_string).collect(),
        }
    }
}

impl CountEventAnswer {
    fn new(count: &Count) -> Self {
        Self {
            index: count.index,
            at: count.at.to_string(),
            syllable: count.syllable.to_string(),
            struck: count.struck,
            value: count.value.map(|value| value.to_string()),
        }
    }
}

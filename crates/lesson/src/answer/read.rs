//! The answer of `read`: a tune as it was understood.

use super::{PlaceAnswer, ProblemAnswer, SCHEMA, SpanAnswer, WrittenAnswer, find::written};
use modewright_core::{Range, Tune};
use modewright_formats::Reading;
use serde::Serialize;

/// A tune as it was read. Lengths and places are fractions of a semibreve, as text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ReadAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// Where the tune comes from: a file name, or `-`.
    pub source: String,
    /// Its number in its book.
    pub number: Option<String>,
    /// Its titles, the main one first.
    pub titles: Vec<String>,
    /// Composers, as written.
    pub composer: Vec<String>,
    /// Where the tune comes from: a place or people.
    pub origin: Vec<String>,
    /// Who played or sang it, or what it was copied from.
    pub copied_from: Vec<String>,
    /// Who wrote it down or typed it in.
    pub transcriber: Vec<String>,
    /// Kind of tune: reel, jig, waltz.
    pub rhythm: Option<String>,
    /// Its metre at the start: `6/8`, `2+2+3/8`, `free`.
    pub metre: String,
    /// The key on the page.
    pub written: Option<WrittenAnswer>,
    /// The voices that the text names, in order of appearance.
    pub voices: Vec<String>,
    /// The voice that was read; `null` where none is named.
    pub voice: Option<String>,
    /// Semitones from the written pitch to the sounding one.
    pub sounding_shift: i16,
    /// Its compass; `null` without notes.
    pub range: Option<RangeAnswer>,
    /// Notes and rests in the order of the page.
    pub events: Vec<EventAnswer>,
    /// What was odd about the text.
    pub problems: Vec<ProblemAnswer>,
}

/// The compass of a tune, as written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RangeAnswer {
    /// The lowest note, and where it stands first.
    pub lowest: PlaceAnswer,
    /// The highest note, and where it stands first.
    pub highest: PlaceAnswer,
    /// The interval between them.
    pub span: SpanAnswer,
    /// The middle half of the sounding time lies between these.
    pub tessitura: [String; 2],
}

/// A note or a rest.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct EventAnswer {
    /// The number of its bar.
    pub bar: u32,
    /// The written pitch; `null` for a rest.
    pub pitch: Option<String>,
    /// Where it begins in its bar.
    pub at: String,
    /// How long it lasts.
    pub length: String,
    /// Whether it is tied to the next.
    pub tied: bool,
}

impl ReadAnswer {
    /// Puts a tune into its shape.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_formats::{ReadOptions, read, source::split};
    /// use modewright_lesson::answer::ReadAnswer;
    ///
    /// let text = split("X:1\nM:3/4\nL:1/4\nK:G\nG2z|B3|\n").next().unwrap();
    /// let answer = ReadAnswer::new("-", &read(&text, &ReadOptions::default()));
    /// assert_eq!(answer.range.unwrap().span.name, "major third");
    /// assert_eq!((answer.events[0].length.as_str(), &answer.events[1].pitch), ("1/2", &None));
    /// ```
    #[must_use]
    pub fn new(source: &str, reading: &Reading) -> Self {
        let tune = &reading.tune;
        let header = &tune.header;
        Self {
            schema: SCHEMA,
            source: source.to_owned(),
            number: header.number.clone(),
            titles: header.titles.clone(),
            composer: header.composer.clone(),
            origin: header.origin.clone(),
            copied_from: header.source.clone(),
            transcriber: header.transcriber.clone(),
            rhythm: header.rhythm.clone(),
            metre: tune.metre.to_string(),
            written: written(tune),
            voices: reading.voices.clone(),
            voice: reading.voice.clone(),
            sounding_shift: tune.sounding_shift,
            range: Range::of(tune).map(|range| RangeAnswer::new(tune, &range)),
            events: tune
                .events
                .iter()
                .map(|event| EventAnswer {
                    bar: tune.bar_number(event),
                    pitch: event.sound.pitch().map(|pitch| pitch.to_string()),
                    at: event.at.to_string(),
                    length: event.length.to_string(),
                    tied: event.tied,
                })
                .collect(),
            problems: reading.problems.iter().map(ProblemAnswer::new).collect(),
        }
    }
}

impl RangeAnswer {
    /// Puts a range into its shape.
    #[must_use]
    pub fn new(tune: &Tune, range: &Range) -> Self {
        let (low, high) = range.tessitura;
        Self {
            lowest: PlaceAnswer::new(tune, range.lowest, range.lowest_at),
            highest: PlaceAnswer::new(tune, range.highest, range.highest_at),
            span: SpanAnswer::new(range.span()),
            tessitura: [low.to_string(), high.to_string()],
        }
    }
}

//! The answer of `fingering`: how to play each note of a tune.

use super::{ProblemAnswer, SCHEMA, SignedWayAnswer, WayAnswer};
use crate::words;
use modewright_core::fingering::{Difficulty, Fingered, Harmony, Options, Plan};
use modewright_core::instrument::{Instrument, Lever};
use modewright_core::{Interval, Key, Tune};
use modewright_formats::Problem;
use serde::Serialize;

/// A path through a tune.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FingeringAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// Where the tune comes from: a file name, or `-`.
    pub source: String,
    /// Its number in its book.
    pub number: Option<String>,
    /// Its title.
    pub title: Option<String>,
    /// The instrument's id.
    pub instrument: String,
    /// Semitones from the written pitch to the sounding one.
    pub written_to_sounding: i16,
    /// Semitones that the tune was moved by before it was fingered.
    pub moved: i16,
    /// The manner of playing.
    pub style: String,
    /// The manners that the instrument offers, the usual one first.
    pub styles: Vec<String>,
    /// Whether ways were allowed that no public source confirms.
    pub unconfirmed: bool,
    /// The notes in the order of the page; tied notes are one.
    pub notes: Vec<FingeredAnswer>,
    /// What the path costs; lower is easier, on this instrument and in this style.
    pub cost: u64,
    /// What the cost is made of.
    pub parts: Vec<PartAnswer>,
    /// Pitches that cannot be played.
    pub missing: Vec<MissingAnswer>,
    /// How the levers are set; `null` for an instrument without.
    pub levers: Option<LeversAnswer>,
    /// Chord notes that the free hand can add to long finals.
    pub harmony: Vec<HarmonyAnswer>,
    /// What the signs mean.
    pub legend: Vec<String>,
    /// The answer in sentences.
    pub words: FingeringWordsAnswer,
    /// What was odd about the text.
    pub problems: Vec<ProblemAnswer>,
}

/// The answer in sentences.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FingeringWordsAnswer {
    /// Whether the notes are there.
    pub playable: String,
    /// What the path costs, and of what; `null` where nothing is played.
    pub cost: Option<String>,
    /// The manners that the instrument offers, in the order of `styles`.
    pub styles: Vec<String>,
    /// How the levers are set.
    pub levers: Vec<String>,
    /// What can be added to long finals, one after the other.
    pub harmony: Vec<String>,
}

/// A note with its way.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FingeredAnswer {
    /// Its place, counted from 0 over notes and rests.
    pub index: usize,
    /// How many written notes it joins; more than 1 where they are tied.
    pub joins: usize,
    /// The number of its bar.
    pub bar: u32,
    /// The written pitch.
    pub pitch: String,
    /// The sounding pitch.
    pub sounding: Option<String>,
    /// Whether a phrase begins here.
    pub begins: bool,
    /// How to play it; `null`, like what follows, where the instrument does not have it.
    pub way: Option<WayAnswer>,
    /// The sign of the way.
    pub sign: Option<String>,
    /// `easy`, `fair` or `awkward`.
    pub ease: Option<&'static str>,
    /// How sure the way is.
    pub certainty: Option<&'static str>,
    /// The same for a learner.
    pub standing: Option<&'static str>,
}

/// A part of the cost.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PartAnswer {
    /// `turn`, `row`, `string`, `finger`, `travel`, `repeat`, `lever`, `fair` or `awkward`.
    pub kind: &'static str,
    /// How often it is met.
    pub times: u32,
    /// What that costs.
    pub cost: u64,
}

/// A pitch that cannot be played.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MissingAnswer {
    /// The written pitch.
    pub pitch: String,
    /// Its bars.
    pub bars: Vec<u32>,
    /// Whether doubtful ways are known.
    pub doubtful: bool,
}

/// The levers of a harp.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeversAnswer {
    /// The strings that begin with their lever up, by their open notes.
    pub up: Vec<String>,
    /// What is set during the tune.
    pub changes: Vec<LeverChangeAnswer>,
}

/// A lever that is set during the tune.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeverChangeAnswer {
    /// The string by its open note.
    pub string: String,
    /// `up` or `down`.
    pub lever: &'static str,
    /// The note before which it is set, counted from 0 over notes and rests.
    pub index: usize,
    /// The number of the bar.
    pub bar: u32,
}

/// Notes that can be added to a final.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct HarmonyAnswer {
    /// The final, counted from 0 over notes and rests.
    pub index: usize,
    /// What can be added.
    pub added: Vec<AddedAnswer>,
}

/// A note that can be added.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AddedAnswer {
    /// The written pitch.
    pub pitch: String,
    /// How to play it.
    #[serde(flatten)]
    pub way: SignedWayAnswer,
}

/// A tune with the path that was found on an instrument.
#[derive(Clone, Copy, Debug)]
pub struct FingeredTune<'a> {
    /// The tune, as written for the instrument.
    pub tune: &'a Tune,
    /// The instrument.
    pub instrument: &'a Instrument,
    /// What was asked for.
    pub options: Options,
    /// The path.
    pub plan: &'a Plan<'a>,
    /// Notes that can be added to finals.
    pub harmony: &'a [Harmony<'a>],
    /// The home that the harmony is for, where one was found.
    pub home: Option<Key>,
    /// The interval that the tune was moved by before.
    pub moved: Interval,
}

impl FingeredTune<'_> {
    /// The id of the manner of playing.
    #[must_use]
    pub fn style(&self) -> &str {
        self.instrument.styles.get(self.options.style).map_or("plain", |style| style.id.as_str())
    }

    /// The number of the bar that a note stands in.
    #[must_use]
    pub fn bar(&self, note: &Fingered<'_>) -> u32 {
        let event = self.tune.events.get(note.sounding.event);
        event.map_or(0, |event| self.tune.bar_number(event))
    }

    fn words(&self) -> FingeringWordsAnswer {
        let (it, plan) = (self.instrument, self.plan);
        let harmony = |harmony: &Harmony<'_>| {
            let note = plan.notes.get(harmony.note)?;
            Some(words::harmony_in_bar(it, note.sounding.pitch, self.bar(note), harmony))
        };
        FingeringWordsAnswer {
            playable: words::playable(it, plan),
            cost: (!plan.notes.is_empty()).then(|| words::cost(it, self.style(), plan)),
            styles: it.styles.iter().map(|style| words::style(&style.id)).collect(),
            levers: plan.levers.as_ref().map(words::levers).unwrap_or_default(),
            harmony: self.harmony.iter().filter_map(harmony).collect(),
        }
    }
}

impl FingeringAnswer {
    /// Puts a path into its shape.
    #[must_use]
    pub fn new(source: &str, of: &FingeredTune<'_>, problems: &[Problem]) -> Self {
        let FingeredTune { tune, instrument: it, plan, .. } = of;
        let note = |note: &Fingered<'_>| {
            let way = note.way.map(|way| SignedWayAnswer::new(it, way));
            FingeredAnswer {
                index: note.sounding.event,
                joins: note.sounding.count,
                bar: of.bar(note),
                pitch: note.sounding.pitch.to_string(),
                sounding: it.sounding(note.sounding.pitch).ok().map(|pitch| pitch.to_string()),
                begins: note.begins,
                ease: way.as_ref().map(|way| way.ease),
                certainty: way.as_ref().map(|way| way.certainty),
                standing: way.as_ref().map(|way| way.standing),
                sign: way.as_ref().map(|way| way.sign.clone()),
                way: way.map(|way| way.way),
            }
        };
        let index = |place: usize| plan.notes.get(place).map_or(0, |note| note.sounding.event);
        Self {
            schema: SCHEMA,
            source: source.to_owned(),
            number: tune.header.number.clone(),
            title: tune.header.titles.first().cloned(),
            instrument: it.id.clone(),
            written_to_sounding: it.written_to_sounding,
            moved: of.moved.semitones(),
            style: of.style().to_owned(),
            styles: it.styles.iter().map(|style| style.id.clone()).collect(),
            unconfirmed: of.options.unconfirmed,
            notes: plan.notes.iter().map(note).collect(),
            cost: plan.cost,
            parts: plan
                .parts
                .iter()
                .map(|part| PartAnswer {
                    kind: kind(part.kind),
                    times: part.times,
                    cost: part.cost,
                })
                .collect(),
            missing: plan
                .missing
                .iter()
                .map(|missing| MissingAnswer {
                    pitch: missing.pitch.to_string(),
                    bars: missing.bars.clone(),
                    doubtful: missing.doubtful,
                })
                .collect(),
            levers: plan.levers.as_ref().map(|levers| LeversAnswer {
                up: levers.up.iter().map(ToString::to_string).collect(),
                changes: levers
                    .changes
                    .iter()
                    .map(|change| LeverChangeAnswer {
                        string: change.string.to_string(),
                        lever: match change.lever {
                            Lever::Up => "up",
                            Lever::Down => "down",
                        },
                        index: change.event,
                        bar: change.bar,
                    })
                    .collect(),
            }),
            harmony: of
                .harmony
                .iter()
                .map(|harmony| HarmonyAnswer {
                    index: index(harmony.note),
                    added: harmony
                        .added
                        .iter()
                        .map(|(pitch, way)| AddedAnswer {
                            pitch: pitch.to_string(),
                            way: SignedWayAnswer::new(it, way),
                        })
                        .collect(),
                })
                .collect(),
            legend: words::legend(it),
            words: of.words(),
            problems: problems.iter().map(ProblemAnswer::new).collect(),
        }
    }
}

const fn kind(kind: Difficulty) -> &'static str {
    match kind {
        Difficulty::Turn => "turn",
        Difficulty::Row => "row",
        Difficulty::String => "string",
        Difficulty::Finger => "finger",
        Difficulty::Travel => "travel",
        Difficulty::Repeat => "repeat",
        Difficulty::Lever => "lever",
        Difficulty::Fair => "fair",
        Difficulty::Awkward => "awkward",
    }
}

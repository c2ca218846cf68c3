//! The answer of `transpose`: a text with its tunes moved, and what was done to each.

use super::{KeyAnswer, ProblemAnswer, SCHEMA};
use crate::moving::{Moved, Unmoved, Wish, move_text};
use crate::words;
use modewright_core::Key;
use modewright_formats::ReadOptions;
use modewright_formats::source::{TuneText, replace};
use serde::Serialize;

/// A text of one tune or many, moved.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct TransposeAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// The new text: ABC, with everything but keys, notes and chord signs as it was. A tune that
    /// could not be moved stands in it unchanged.
    pub text: String,
    /// What was done to each tune, in the order of the text.
    pub tunes: Vec<MovedAnswer>,
}

/// What was done to a tune.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MovedAnswer {
    /// Its first line in the text, from 1.
    pub line: u32,
    /// Its title.
    pub title: Option<String>,
    /// Whether it was moved, and all of it lies on the instrument where one is named.
    pub well: bool,
    /// The key that it is said to be in, before; `null` without one.
    pub from: Option<KeyAnswer>,
    /// The same after.
    pub to: Option<KeyAnswer>,
    /// The move in semitones; `null` where it was not moved.
    pub semitones: Option<i16>,
    /// The same as an interval: `M2`, `-P4`.
    pub interval: Option<String>,
    /// Notes that were taken into another octave.
    pub folded: Vec<FoldedAnswer>,
    /// Which of several melodies was read, where there was a choice.
    pub choices: Vec<ProblemAnswer>,
    /// What was done, a sentence each.
    pub words: Vec<String>,
    /// What is not as it was wished for; `null` where all is well.
    pub problem: Option<MoveProblemAnswer>,
}

/// A note that was taken into another octave.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FoldedAnswer {
    /// How many octaves, up or down.
    pub octaves: i8,
    /// The number of its bar.
    pub bar: u32,
}

/// Why a tune was not moved, or what the instrument does not have.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MoveProblemAnswer {
    /// A stable code.
    pub code: &'static str,
    /// `warning` or `error`.
    pub severity: &'static str,
    /// What was found.
    pub message: String,
    /// A way out.
    pub hint: String,
}

impl TransposeAnswer {
    /// Moves every tune of a text.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_formats::ReadOptions;
    /// use modewright_lesson::answer::TransposeAnswer;
    /// use modewright_lesson::moving::{Aim, Wish};
    ///
    /// let wish = Wish { aim: Aim::Semitones(2), instrument: None, fold: false };
    /// let moved = |text| TransposeAnswer::new(text, &ReadOptions::default(), &wish);
    /// let answer = moved("X:1\nL:1/4\nK:C\nCDEC|\n");
    /// assert_eq!(answer.text, "X:1\nL:1/4\nK:D\nDEFD|\n");
    /// assert_eq!(answer.tunes[0].interval.as_deref(), Some("M2"));
    /// // A text without notes is told as one that was not moved.
    /// assert_eq!(moved("").tunes[0].problem.as_ref().unwrap().code, "no-notes");
    /// ```
    #[must_use]
    pub fn new(text: &str, options: &ReadOptions, wish: &Wish<'_>) -> Self {
        let mut tunes = Vec::new();
        let text = replace(text, |tune| {
            let moved = move_text(tune, options, wish);
            tunes.push(MovedAnswer::new(tune, &moved, wish));
            moved.ok().map(|moved| moved.text)
        });
        if tunes.is_empty() {
            let nothing = Err(Unmoved::NoNotes);
            tunes.push(MovedAnswer::new(&TuneText::abc(""), &nothing, wish));
        }
        Self { schema: SCHEMA, text, tunes }
    }
}

impl MovedAnswer {
    fn new(tune: &TuneText, moved: &Result<Moved, Unmoved>, wish: &Wish<'_>) -> Self {
        let nothing = Self {
            line: tune.first_line,
            title: None,
            well: false,
            from: None,
            to: None,
            semitones: None,
            interval: None,
            folded: Vec::new(),
            choices: Vec::new(),
            words: Vec::new(),
            problem: None,
        };
        let problem = |severity, code, advice: words::Advice| {
            let words::Advice { message, hint } = advice;
            Some(MoveProblemAnswer { code, severity, message, hint })
        };
        let moved = match moved {
            Ok(moved) => moved,
            Err(why) => {
                return Self {
                    problem: problem("error", why.code(), words::unmoved(why)),
                    ..nothing
                };
            }
        };
        let there = moved.there.as_ref().zip(wish.instrument);
        let there = there.filter(|(there, _)| !there.is_whole());
        let lacking = there.and_then(|(there, instrument)| {
            let advice = words::not_all_there(moved, there, instrument, wish.fold);
            problem("warning", "not-all-on-instrument", advice)
        });
        let key = |key: Key| KeyAnswer { home: key.home.to_string(), mode: key.mode.name() };
        Self {
            title: moved.reading.tune.header.titles.first().cloned(),
            well: lacking.is_none(),
            from: moved.keys.map(|(from, _)| key(from)),
            to: moved.keys.map(|(_, to)| key(to)),
            semitones: Some(moved.by.semitones()),
            interval: Some(moved.by.to_string()),
            folded: moved
                .folded
                .iter()
                .map(|&(octaves, bar)| FoldedAnswer { octaves, bar })
                .collect(),
            choices: moved
                .reading
                .problems
                .iter()
                .filter(|problem| problem.kind.is_choice())
                .map(ProblemAnswer::new)
                .collect(),
            words: words::moved(moved),
            problem: lacking,
            ..nothing
        }
    }
}

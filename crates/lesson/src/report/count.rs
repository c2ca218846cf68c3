//! The count of a tune as text.

use super::{Report, Section, title, told};
use crate::answer::ProblemAnswer;
use crate::walk::{Values, Wording};
use crate::words;
use modewright_core::count::{
    BarCount, BarFit, CountOptions, Pace, PaceSource, count as counted, tune_count_in,
};
use modewright_core::{Length, Tune};
use modewright_formats::Problem;

/// The count of every bar over its notes, with what a learner says before the first of them.
#[must_use]
pub fn count(tune: &Tune, options: CountOptions, values: Values, problems: &[Problem]) -> Report {
    let english = Wording::english();
    let value = |length: Length| {
        values.name(&english, length, false).unwrap_or_else(|| format!("{length} of a whole note"))
    };
    let mut report = Report { title: title(tune), ..Report::default() };
    let found = tune_count_in(tune, 1, options.system);
    report.verdict = match &found {
        Some(found) => {
            format!("Say {}; the first note falls on {}.", found.text(), found.first_note)
        }
        None if tune.metre.is_free() => "No metre is written, so there is nothing to count.".into(),
        None => "The tune begins in the middle of nowhere: no count leads to it.".into(),
    };
    let mut add = |heading, lines: Vec<String>| {
        if !lines.is_empty() {
            report.sections.push(Section { heading, lines });
        }
    };
    let (pace, from) = Pace::of(tune);
    if let Some(bar) = tune.metre.bar_length() {
        let tenths = (pace.microseconds(bar) + 50_000) / 100_000;
        let known = match from {
            PaceSource::Number => "",
            PaceSource::Word => ", by the word on the page",
            PaceSource::Metre => ", a learner's pace: the page says none",
        };
        let speed = if pace.beat == bar {
            format!("{} bars a minute", pace.per_minute)
        } else {
            format!("{} = {}", value(pace.beat), pace.per_minute)
        };
        let speed = format!("{speed}{known}; a bar lasts {}.{} seconds", tenths / 10, tenths % 10);
        add("metre", vec![tune.metre.to_string()]);
        add("pace", vec![speed]);
    }
    let bars = counted(tune, options);
    add("bars", rows(tune, &bars));
    let odd = bars.iter().filter_map(|bar| match bar.place.fit {
        BarFit::Short { by } => Some(format!("bar {} is too short by a {}", bar.number, value(by))),
        BarFit::Long { by } => Some(format!("bar {} is too long by a {}", bar.number, value(by))),
        _ => None,
    });
    add("to check", super::shortened(odd.collect()));
    let problems: Vec<ProblemAnswer> = problems.iter().map(ProblemAnswer::new).collect();
    add("the text", told(&problems));
    report
}

/// A line a bar: its number, its count, its notes.
fn rows(tune: &Tune, bars: &[BarCount]) -> Vec<String> {
    // A note in brackets is held from before.
    let mut held = None;
    let mut rows: Vec<[String; 3]> = Vec::with_capacity(bars.len());
    for bar in bars {
        let mut notes: Vec<String> = Vec::new();
        for event in tune.events_of(bar.bar) {
            let pitch = event.sound.pitch();
            notes.push(match pitch {
                Some(pitch) if held == Some(pitch) => {
                    format!("({})", words::note(pitch.spelling()))
                }
                Some(pitch) => words::note(pitch.spelling()),
                None => "-".into(),
            });
            held = pitch.filter(|_| event.tied);
        }
        let number = if bar.place.fit == BarFit::Pickup {
            "pickup".to_owned()
        } else {
            bar.number.to_string()
        };
        rows.push([number, bar.text(), notes.join(" ")]);
    }
    let width = |column: usize| {
        rows.iter().map(|row| row[column].chars().count()).max().unwrap_or(0).min(WIDEST)
    };
    let (first, second) = (width(0), width(1));
    rows.iter()
        .map(|[number, count, notes]| format!("{number:>first$}  {count:<second$}  {notes}"))
        .collect()
}

/// Columns are padded up to this width; what is wider pushes the next one out.
const WIDEST: usize = 40;

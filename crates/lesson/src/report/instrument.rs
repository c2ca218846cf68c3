//! Reports on instruments, and on how a tune is played.

use super::{Report, Section, sentence, shortened, title};
use crate::answer::{FingeredTune, ProblemAnswer};
use crate::words;
use modewright_core::Interval;
use modewright_core::instrument::{Ease, Instrument, Playable};
use modewright_formats::Problem;

/// The list of instruments, with the names that options take.
#[must_use]
pub fn instruments(list: &[&Instrument]) -> Report {
    let width = list.iter().map(|it| it.id.chars().count()).max().unwrap_or_default();
    let line = |it: &&Instrument| format!("{:<width$}  {}, {}", it.id, it.name, words::compass(it));
    let lines: Vec<String> = list.iter().map(line).collect();
    Report {
        title: "Instruments".to_owned(),
        verdict: "Ranges are as written for the player.".to_owned(),
        sections: vec![Section { heading: "by name", lines }],
    }
}

/// One instrument in detail, with the table of its notes.
#[must_use]
pub fn instrument(it: &Instrument) -> Report {
    let mut report = Report {
        title: format!("{} ({})", it.name, it.id),
        verdict: sentence(format!("written {}; it {}", words::compass(it), words::sounds(it))),
        ..Report::default()
    };
    let mut add = |heading, lines: Vec<String>| {
        if !lines.is_empty() {
            report.sections.push(Section { heading, lines });
        }
    };
    if let Some((low, high)) = it.comfortable {
        let line = format!("{} to {}", words::pitch_name(low), words::pitch_name(high));
        add("comfortable", vec![line]);
    }
    if !it.liked.is_empty() {
        add("lies well in", vec![words::liked(&it.liked)]);
    }
    if it.styles.len() > 1 {
        let styles: Vec<String> = it.styles.iter().map(|style| words::style(&style.id)).collect();
        add("is played", vec![words::list(&styles)]);
    }
    add("notes", it.notes().iter().map(|note| row(it, note)).collect());
    add("signs", words::legend(it));
    add("known from", vec![format!("{} ({})", it.source, words::standing(it.certainty))]);
    add("uncertain", it.remarks.clone());
    report
}

/// A row of the note table: what is read, what is heard, how it is played.
fn row(it: &Instrument, note: &Playable) -> String {
    let mut line = format!("{:<4}", words::pitch_name(note.written));
    if it.written_to_sounding != 0
        && let Ok(sounding) = it.sounding(note.written)
    {
        line.push_str(&format!(" sounds {:<4}", words::pitch_name(sounding)));
    }
    let ways: Vec<String> = note
        .ways
        .iter()
        .map(|way| {
            let ease = match way.ease {
                Ease::Easy => String::new(),
                hard => format!(" ({})", words::ease(hard)),
            };
            format!("{}{ease}", words::sign(it, way))
        })
        .filter(|sign| !sign.is_empty())
        .collect();
    if !ways.is_empty() {
        line.push_str("  ");
        line.push_str(&ways.join(", or "));
    }
    line.trim_end().to_owned()
}

/// How a tune is played, bar by bar.
#[must_use]
pub fn fingering(of: &FingeredTune<'_>, problems: &[Problem]) -> Report {
    let FingeredTune { tune, instrument: it, plan, .. } = of;
    let mut report = Report {
        title: title(tune),
        verdict: sentence(words::playable(it, plan)),
        ..Report::default()
    };
    let mut add = |heading, lines: Vec<String>| {
        if !lines.is_empty() {
            report.sections.push(Section { heading, lines });
        }
    };
    if of.moved != Interval::UNISON {
        add("moved", vec![sentence(words::way_up(of.moved))]);
    }
    add("cannot", plan.missing.iter().map(words::missing).collect());
    if !plan.notes.is_empty() {
        add("pitches", vec![format!("As written for the instrument; it {}.", words::sounds(it))]);
        add("cost", vec![words::cost(it, of.style(), plan)]);
    }
    let others: Vec<&str> = it
        .styles
        .iter()
        .map(|style| style.id.as_str())
        .filter(|&id| id != of.style() && it.styles.len() > 1)
        .collect();
    if !others.is_empty() {
        add("other styles", vec![format!("--style {}", others.join(", --style "))]);
    }
    add("levers", plan.levers.as_ref().map(words::levers).unwrap_or_default());
    add("bars", bars(of));
    if let Some(home) = of.home {
        add("harmony", vec![words::harmonies(home, of.harmony.is_empty())]);
    }
    add("signs", words::legend(it));
    let told = problems.iter().map(ProblemAnswer::new).map(|p| {
        let hint = if p.hint.is_empty() { String::new() } else { format!("; {}", p.hint) };
        format!("line {}, column {}: {}{hint}", p.line, p.column, p.message)
    });
    add("the text", shortened(told.collect()));
    report
}

/// A line for each bar with notes: each note with its sign.
fn bars(of: &FingeredTune<'_>) -> Vec<String> {
    let mut lines: Vec<(u32, Vec<String>)> = Vec::new();
    // Bars that are split, or not there, keep their notes together by number.
    for (place, note) in of.plan.notes.iter().enumerate() {
        let bar = of.bar(note);
        let name = words::pitch_name(note.sounding.pitch);
        let mut told = match note.way {
            Some(way) => format!("{name} {}", words::sign(of.instrument, way)),
            None => format!("{name} –"),
        };
        told.truncate(told.trim_end().len());
        // A note and its sign stay in one line.
        told = told.replace(' ', "\u{a0}");
        if let Ok(at) = of.harmony.binary_search_by_key(&place, |harmony| harmony.note) {
            told.push(' ');
            told.push_str(&words::harmony(of.instrument, &of.harmony[at]));
        }
        match lines.last_mut() {
            Some((last, notes)) if *last == bar => notes.push(told),
            _ => lines.push((bar, vec![told])),
        }
    }
    lines.into_iter().map(|(bar, notes)| format!("{bar:>2}  {}", notes.join(" · "))).collect()
}

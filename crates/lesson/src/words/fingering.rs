//! A fingering in words.

use super::{
    instrument::style as style_name,
    list::{bars, capital, list},
    way::pitch_name,
};
use modewright_core::fingering::{Difficulty, Harmony, Levers, Missing, Part, Plan};
use modewright_core::instrument::{Air, Instrument, Lever};
use modewright_core::{Key, Pitch};

/// A difficulty, so many times: "3 turns of the bellows".
#[must_use]
pub fn difficulty(instrument: &Instrument, part: &Part) -> String {
    let (one, many) = match part.kind {
        Difficulty::Turn if instrument.air == Some(Air::Breath) => {
            ("turn of the breath", "turns of the breath")
        }
        Difficulty::Turn => ("turn of the bellows", "turns of the bellows"),
        Difficulty::Row => ("change of row", "changes of row"),
        Difficulty::String => ("string crossed", "strings crossed"),
        Difficulty::Finger => ("hop of a finger", "hops of a finger"),
        Difficulty::Travel => ("step of the hand", "steps of the hand"),
        Difficulty::Repeat => ("repeated note that moves", "repeated notes that move"),
        Difficulty::Lever => ("lever set on the way", "levers set on the way"),
        Difficulty::Fair => ("less easy note", "less easy notes"),
        Difficulty::Awkward => ("awkward note", "awkward notes"),
    };
    let name = if part.times == 1 { one } else { many };
    format!("{} {name}", part.times)
}

/// Whether the notes are there: "fiddle, first position: all 86 notes are there".
#[must_use]
pub fn playable(instrument: &Instrument, plan: &Plan<'_>) -> String {
    let all = plan.notes.len();
    let there = plan.notes.iter().filter(|note| note.way.is_some()).count();
    let name = &instrument.name;
    match (all, there) {
        (0, _) => format!("{name}: there are no notes to play"),
        (1, 1) => format!("{name}: the one note is there"),
        _ if all == there => format!("{name}: all {all} notes are there"),
        (_, 0) => format!("{name}: none of the {all} notes is there"),
        (_, 1) => format!("{name}: 1 of {all} notes is there"),
        _ => format!("{name}: {there} of {all} notes are there"),
    }
}

/// What the path costs and of what: "Along the row it costs 14: ...".
#[must_use]
pub fn cost(instrument: &Instrument, style: &str, plan: &Plan<'_>) -> String {
    let manner = if style == "plain" {
        "The path".to_owned()
    } else {
        format!("{}, the path", capital(&style_name(style)))
    };
    if plan.cost == 0 {
        return format!("{manner} costs nothing.");
    }
    let parts: Vec<String> = plan
        .parts
        .iter()
        .map(|part| format!("{} ({})", difficulty(instrument, part), part.cost))
        .collect();
    format!("{manner} costs {}: {}.", plan.cost, list(&parts))
}

/// A pitch that cannot be played, with its bars.
#[must_use]
pub fn missing(missing: &Missing) -> String {
    let name = pitch_name(missing.pitch);
    let places = bars(&missing.bars);
    if missing.doubtful {
        format!("{name} has doubtful fingerings alone; it stands in {places}.")
    } else {
        format!("{name} is not on it; it stands in {places}.")
    }
}

/// How the levers of a harp are set.
#[must_use]
pub fn levers(levers: &Levers) -> Vec<String> {
    let mut lines = Vec::new();
    let up: Vec<String> = levers.up.iter().map(|&string| pitch_name(string)).collect();
    lines.push(if up.is_empty() {
        "Begin with all levers down.".to_owned()
    } else {
        format!("Begin with these levers up: {}.", list(&up))
    });
    for change in &levers.changes {
        let to = match change.lever {
            Lever::Up => "up",
            Lever::Down => "down",
        };
        let string = pitch_name(change.string);
        lines.push(format!("In {} set {string} {to}.", bars(&[change.bar])));
    }
    lines
}

/// Notes that can be added to a final, in brackets: "(+ C3 L1 C push)".
#[must_use]
pub fn harmony(instrument: &Instrument, harmony: &Harmony<'_>) -> String {
    let notes: Vec<String> = harmony
        .added
        .iter()
        .map(|(pitch, way)| format!("{} {}", pitch_name(*pitch), super::sign(instrument, way)))
        .collect();
    format!("(+ {})", notes.join(", + "))
}

/// The same as a sentence: "With the D4 in bar 8 the free hand can add G3 (L3 G push)."
#[must_use]
pub fn harmony_in_bar(
    instrument: &Instrument,
    last: Pitch,
    bar: u32,
    harmony: &Harmony<'_>,
) -> String {
    let notes: Vec<String> = harmony
        .added
        .iter()
        .map(|(pitch, way)| format!("{} ({})", pitch_name(*pitch), super::sign(instrument, way)))
        .collect();
    let place = bars(&[bar]);
    format!("With the {} in {place} the free hand can add {}.", pitch_name(last), list(&notes))
}

/// What the brackets hold, or why there are none.
#[must_use]
pub fn harmonies(home: Key, none: bool) -> String {
    let chord = format!("the chord of {}", super::key_name(home));
    if none {
        return format!(
            "Nothing to add: no long final leaves a hand free that has other notes of {chord}."
        );
    }
    format!(
        "In brackets: notes of {chord} that the free hand can add, with the air going the same way."
    )
}

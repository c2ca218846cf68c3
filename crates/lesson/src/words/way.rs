//! Signs for ways to play, plain enough for a stranger, and the legend that goes with them.

use super::list::{capital, choice, list};
use modewright_core::Pitch;
use modewright_core::instrument::{
    Air, Certainty, Direction, Ease, Hand, Hole, Instrument, Lever, Register, RowName, Way,
};

/// A pitch as print has it: "F♯4".
#[must_use]
pub fn pitch_name(pitch: Pitch) -> String {
    format!("{}{}", super::note(pitch.spelling()), pitch.octave())
}

/// What stands behind a sign that no public source confirms.
pub const UNCONFIRMED: &str = "*";

/// The sign for a way; empty for a voice or a key, of which each note has one.
///
/// # Examples
///
/// ```
/// use modewright_formats::instrument::builtin;
/// use modewright_lesson::words::sign;
///
/// let signs = |id: &str, midi| -> Vec<String> {
///     let instrument = builtin::find(id).unwrap();
///     let ways = &instrument.note(midi).unwrap().ways;
///     ways.iter().map(|way| sign(instrument, way)).collect()
/// };
/// assert_eq!(signs("tin-whistle-d", 67), ["●●● ○○○"]);
/// assert_eq!(signs("anglo-20-c-g", 67), ["L5 C push", "L3 G push"]);
/// assert_eq!(signs("fiddle", 65), ["D low 2"]);
/// // What no source confirms has a mark.
/// assert_eq!(signs("tin-whistle-d", 72), ["○●● ○○○*"]);
/// ```
#[must_use]
pub fn sign(instrument: &Instrument, way: &Way) -> String {
    let mut parts: Vec<String> = Vec::new();
    if let Some(button) = way.button {
        let hand = match way.hand {
            Some(Hand::Left) => "L",
            Some(Hand::Right) => "R",
            None => "",
        };
        parts.push(format!("{hand}{button}"));
        if let Some(row) = way.row.and_then(|row| instrument.rows.get(usize::from(row)))
            && instrument.rows.len() > 1
        {
            parts.push(row_name(&row.name));
        }
    }
    if let Some(direction) = way.direction {
        parts.push(air(instrument, direction).to_owned());
    }
    if way.bend > 0 {
        parts.push(format!("bent {}", way.bend));
    }
    if let Some(string) = way.string {
        parts.push(string_name(instrument, string));
        parts.extend(stop(instrument, way));
    }
    if !way.holes.is_empty() {
        parts.push(holes(instrument, way));
    }
    if let Some(closed) = way.closed {
        parts.push(format!("{closed} closed"));
    }
    let mut sign = parts.join(" ");
    if sign.is_empty() && !instrument.holes.is_empty() {
        "no sure fingering".clone_into(&mut sign);
    }
    if !way.certainty.is_published() && !sign.is_empty() {
        sign.push_str(UNCONFIRMED);
    }
    sign
}

fn row_name(name: &RowName) -> String {
    match name {
        RowName::Key(key) => super::note(*key),
        RowName::Place(place) => place.clone(),
    }
}

const fn air(instrument: &Instrument, direction: Direction) -> &'static str {
    match (direction, instrument.air) {
        (Direction::Draw, _) => "draw",
        (Direction::Push, Some(Air::Breath)) => "blow",
        (Direction::Push, _) => "push",
    }
}

/// A string by its open note; with its octave where two share a letter.
fn string_name(instrument: &Instrument, string: u8) -> String {
    let at = usize::from(string);
    if let Some(name) = instrument.string_names.get(at) {
        return name.clone();
    }
    let Some(open) = instrument.strings.get(at) else { return format!("string {}", at + 1) };
    let alike = instrument.strings.iter().filter(|other| other.spelling() == open.spelling());
    if alike.count() > 1 { pitch_name(*open) } else { super::note(open.spelling()) }
}

/// What is done to a string: a fret, a finger with its place, a lever.
fn stop(instrument: &Instrument, way: &Way) -> Option<String> {
    if way.lever == Some(Lever::Up) {
        return Some("lever up".to_owned());
    }
    let fret = way.fret?;
    if fret.number == 0 && !fret.half {
        return Some("open".to_owned());
    }
    let Some(finger) = way.finger.filter(|_| !instrument.fretted) else {
        return Some(format!("fret {fret}"));
    };
    // A finger with two places has a low one and a high one.
    let ways = instrument.notes().iter().flat_map(|note| &note.ways);
    let places = ways.filter(|w| w.string == way.string && w.finger == way.finger);
    let (mut lower, mut higher) = (false, false);
    for place in places.filter_map(|way| way.fret) {
        lower |= place < fret;
        higher |= place > fret;
    }
    Some(match (lower, higher) {
        (true, false) => format!("high {finger}"),
        (false, true) => format!("low {finger}"),
        _ => finger.to_string(),
    })
}

fn holes(instrument: &Instrument, way: &Way) -> String {
    let mut text = String::new();
    let mut holes = way.holes.iter();
    for group in &instrument.holes {
        if !text.is_empty() {
            text.push(' ');
        }
        for hole in holes.by_ref().take(usize::from(group.count)) {
            text.push(match hole {
                Hole::Closed => '●',
                Hole::Half => '◐',
                Hole::Open => '○',
            });
        }
    }
    match way.register {
        Some(Register::High) => text.push('+'),
        Some(Register::Third) => text.push_str("++"),
        Some(Register::Low) | None => {}
    }
    text
}

/// What the signs of an instrument mean, a sentence each.
#[must_use]
pub fn legend(instrument: &Instrument) -> Vec<String> {
    let ways: Vec<&Way> = instrument.notes().iter().flat_map(|note| &note.ways).collect();
    legend_of(instrument, &ways)
}

/// What the signs of some ways to play an instrument mean, and of no others.
///
/// # Examples
///
/// ```
/// use modewright_formats::instrument::builtin;
/// use modewright_lesson::words::legend_of;
///
/// let whistle = builtin::find("tin-whistle-d").unwrap();
/// let low = &whistle.note(67).unwrap().ways;
/// let told = legend_of(whistle, &low.iter().collect::<Vec<_>>());
/// assert_eq!(told, ["● is a closed hole, ○ an open one, from top to bottom: upper hand and lower hand."]);
/// // Of nothing nothing is told.
/// assert!(legend_of(whistle, &[]).is_empty());
/// ```
#[must_use]
pub fn legend_of(instrument: &Instrument, ways: &[&Way]) -> Vec<String> {
    let ways = || ways.iter().copied();
    let mut legend = Vec::new();
    if ways().any(|way| way.button.is_some()) {
        legend.extend(button_legend(instrument, &ways().collect::<Vec<_>>()));
    }
    if ways().any(|way| !way.holes.is_empty()) {
        let groups: Vec<String> = instrument.holes.iter().map(|group| group.name.clone()).collect();
        let is_half = |way: &Way| way.holes.contains(&Hole::Half);
        let half = if ways().any(is_half) { " ◐ a half closed one," } else { "" };
        legend.push(format!(
            "● is a closed hole,{half} ○ an open one, from top to bottom: {}.",
            list(&groups)
        ));
    }
    let third = ways().any(|way| way.register == Some(Register::Third));
    if third || ways().any(|way| way.register == Some(Register::High)) {
        let more = if third { ", ++ the register above that" } else { "" };
        legend.push(format!("+ is the upper register{more}."));
    }
    if ways().any(|way| way.closed.is_some()) {
        let holes: u32 = instrument.holes.iter().map(|group| u32::from(group.count)).sum();
        legend.push(format!("The number says how many of the {holes} holes are closed."));
    }
    if ways().any(|way| way.lever.is_some()) {
        legend.push("A string has its open note as its name; a lever that is up makes it a semitone higher.".to_owned());
    } else if ways().any(|way| way.fret.is_some()) {
        let string = if instrument.string_names.is_empty() {
            "The string has its open note as its name"
        } else {
            "First the string"
        };
        legend.push(if instrument.fretted {
            format!("{string}; then the fret, counted from the nut.")
        } else {
            format!(
                "{string}; then the finger, 1 is the index finger; low and high are its two places."
            )
        });
    }
    if ways().any(|way| !way.certainty.is_published()) {
        legend.push(format!("{UNCONFIRMED} is a usual way that no public source confirms."));
    }
    legend
}

fn button_legend(instrument: &Instrument, ways: &[&Way]) -> Vec<String> {
    let ways = || ways.iter();
    if instrument.air == Some(Air::Breath) {
        let mut legend =
            vec!["The number is the hole, counted from the lowest; then blow or draw.".to_owned()];
        if ways().any(|way| way.bend > 0) {
            legend.push("bent 1 is a reed bent down by a semitone, bent 2 by two.".to_owned());
        }
        return legend;
    }
    let has = |hand| ways().any(|way| way.hand == Some(hand));
    let hands = match (has(Hand::Left), has(Hand::Right)) {
        (true, true) => "L and R are the left and the right hand; ",
        (true, false) => "L is the left hand; ",
        (false, true) => "R is the right hand; ",
        (false, false) => "",
    };
    let mut text = format!("{hands}the number is the button, counted from the lowest of its row");
    if has(Hand::Left) && has(Hand::Right) {
        text.push_str(" and hand");
    }
    if instrument.rows.len() > 1 {
        let rows: Vec<String> = instrument.rows.iter().map(|row| row_name(&row.name)).collect();
        text.push_str(&format!("; then the row, {}", choice(&rows)));
    }
    if ways().any(|way| way.direction.is_some()) {
        text.push_str("; then push (bellows closing) or draw (opening)");
    }
    text.push('.');
    vec![capital(&text)]
}

/// How sure a fact is, as a learner is told.
#[must_use]
pub const fn standing(certainty: Certainty) -> &'static str {
    if certainty.is_published() { "published" } else { "usual, unconfirmed" }
}

/// How easily a note comes.
#[must_use]
pub const fn ease(ease: Ease) -> &'static str {
    match ease {
        Ease::Easy => "easy",
        Ease::Fair => "fair",
        Ease::Awkward => "awkward",
    }
}

//! Labels of what is shown of a tune, the same on the page and in the elements. What is said
//! about music comes from the lesson crate.

use crate::player::PlayerWords;
use modewright_core::find::Chance;
use modewright_core::{Pitch, Signature};
use modewright_lesson::words;
use modewright_sheet::RowKind;

/// Name of the staff.
pub const STAFF: &str = "The tune on a staff; arrow keys lead from note to note";
/// Name of middle C on the picture.
pub const MIDDLE_C: &str = "middle C";
/// The part of the range where a tune spends most of its time.
pub const MOST: &str = "half of the time";
/// The lowest note.
pub const LOWEST: &str = "Lowest";
/// The highest note.
pub const HIGHEST: &str = "Highest";
/// From the lowest to the highest.
pub const IN_ALL: &str = "In all";
/// Names of the two orders of notes.
pub const ORDER: &str = "Order of the notes";
/// By pitch.
pub const BY_PITCH: &str = "by pitch";
/// By fifths.
pub const BY_FIFTHS: &str = "by fifths";
/// What turning the home marker does.
pub const TURN_HOME: &str = "Same notes, another home";
/// What turning the ring does.
pub const TURN_RING: &str = "Same home, other notes";
/// One home back.
pub const HOME_BACK: &str = "back";
/// One home on.
pub const HOME_ON: &str = "on";
/// One step darker.
pub const DARKER: &str = "darker";
/// One step brighter.
pub const BRIGHTER: &str = "brighter";
/// Another signature.
pub const SIGNATURE: &str = "Same mode, another signature";
/// Play it.
pub const HEAR: &str = "Hear it";
/// Stop.
pub const QUIET: &str = "Stop";
/// How loud.
pub const LOUDNESS: &str = "How loud";
/// No sound.
pub const SILENT: &str = "This browser gives no sound here.";
/// The signs of the wheel: home, in the mode, changed, from outside, left open.
pub const LEGEND: [&str; 5] = [
    "home",
    "in the mode",
    "changed: up, down",
    "sounds, but not in the mode",
    "left open by the tune",
];
/// What the plot shows.
pub const CHANCES_HINT: &str = "Chances in 100. Choose one to turn the wheel to it.";
/// What can be done with the staff.
pub const STAFF_HINT: &str = "Point at a note to read what it is.";
/// What to do with the wheel.
pub const WHEEL_HINT: &str = "Drag the house to another home, or drag the rim to other notes. A touch on a note makes it home.";
/// The button that turns the wheel back.
pub const FOLLOW: &str = "Back to the tune's own key";
/// Heading of the range.
pub const RANGE: &str = "How low, how high";

/// A row under the staff, in the choice of rows.
#[must_use]
pub const fn row(row: RowKind) -> &'static str {
    match row {
        RowKind::Note => "note",
        RowKind::Degree => "degree",
        RowKind::Solfa => "solfa",
        RowKind::Count => "count",
        RowKind::Fingering => "fingering",
        RowKind::Bellows => "bellows",
        RowKind::Words => "words",
    }
}

/// A chance in a hundred.
#[must_use]
pub fn chance(chance: Chance) -> String {
    match (u32::from(chance.ten_thousandths()) + 50) / 100 {
        0 => "under 1".to_owned(),
        n => n.to_string(),
    }
}

/// The signature as it stands in the hub.
#[must_use]
pub fn hub_signature(signature: Signature) -> String {
    let count = signature.fifths();
    match count {
        0 => "no ♯ or ♭".to_owned(),
        1.. => format!("{count} ♯"),
        _ => format!("{} ♭", -count),
    }
}

/// Where a note stands.
#[must_use]
pub fn place(pitch: Pitch, in_words: &str, bar: u32) -> String {
    let name = format!("{}{}", words::note(pitch.spelling()), pitch.octave());
    if bar == 0 {
        format!("{in_words} ({name}), first in the pickup")
    } else {
        format!("{in_words} ({name}), first in bar {bar}")
    }
}

/// Where a problem stands.
#[must_use]
pub fn problem_place(line: u32, column: u32) -> String {
    format!("line {line}, column {column}")
}

/// A signature in the choice of all fifteen.
#[must_use]
pub fn signature(signature: Signature) -> String {
    words::signature(signature)
}

/// What is written on the player.
#[must_use]
pub fn player() -> PlayerWords {
    PlayerWords {
        play: "Play the tune".into(),
        stop: "Stop".into(),
        loudness: "How loud".into(),
        how: "Slower, some bars, clicks …".into(),
        speed: "Speed".into(),
        first_bar: "From bar".into(),
        last_bar: "to bar".into(),
        all_bars: "all bars".into(),
        again: "again and again".into(),
        count_in: "Bars counted in".into(),
        click: "clicks under the tune".into(),
        drone: "home held below".into(),
        voice: ["Played with".into(), "a string".into(), "a reed".into()],
        silent: "This browser gives no sound here.".into(),
        too_long: "It would sound for more than a quarter of an hour: choose some bars.".into(),
        nothing: "There is no note to play here: choose other bars.".into(),
    }
}

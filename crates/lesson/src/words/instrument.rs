//! Instruments and their files in words.

use super::{
    Advice,
    list::{choice, list},
    way::pitch_name,
};
use modewright_core::instrument::Instrument;
use modewright_core::{Interval, Signature};
use modewright_formats::instrument::{InstrumentError, InstrumentErrorKind as Kind};

/// How far an instrument sounds from what is written: "sounds an octave higher than written".
#[must_use]
pub fn sounds(instrument: &Instrument) -> String {
    let shift = instrument.to_sounding();
    if shift == Interval::UNISON {
        return "sounds as written".to_owned();
    }
    let side = if shift.is_down() { "lower" } else { "higher" };
    let name = shift.abs().in_words();
    let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("sounds {article} {name} {side} than written")
}

/// The compass as written: "D4 to D6".
#[must_use]
pub fn compass(instrument: &Instrument) -> String {
    match (instrument.lowest(), instrument.highest()) {
        (Some(low), Some(high)) => format!("{} to {}", pitch_name(low), pitch_name(high)),
        _ => String::new(),
    }
}

/// Signatures that lie well: "two sharps; one sharp".
#[must_use]
pub fn liked(signatures: &[Signature]) -> String {
    let words: Vec<String> = signatures
        .iter()
        .map(|&signature| {
            let words = super::signature(signature);
            words.split(',').next().unwrap_or_default().to_owned()
        })
        .collect();
    words.join("; ")
}

/// A manner of playing by its id: "along the row".
#[must_use]
pub fn style(id: &str) -> String {
    id.replace('-', " ")
}

/// An instrument that is not known, and those that come nearest. `lists` is what lists them all
/// where this is read: each edge has its own.
#[must_use]
pub fn unknown_instrument(name: &str, nearest: &[&str], lists: &str) -> Advice {
    let shown: String = name.chars().take(40).collect();
    let all = format!("`{lists}` lists them all");
    let hint =
        if nearest.is_empty() { all } else { format!("do you mean {}? {all}", choice(nearest)) };
    Advice { message: format!("there is no instrument `{shown}`"), hint }
}

/// A file that holds several instruments, where one is wanted.
#[must_use]
pub fn several_instruments(file: &str, ids: &[&str]) -> Advice {
    let first = ids.first().copied().unwrap_or_default();
    Advice {
        message: format!("{file} holds {} instruments: {}", ids.len(), list(ids)),
        hint: format!("name one of them like {file}:{first}"),
    }
}

/// Several instruments of one's own, where one is wanted.
#[must_use]
pub fn several_own(option: &str, ids: &[&str]) -> Advice {
    let first = ids.first().copied().unwrap_or_default();
    Advice {
        message: format!("there are {} instruments: {}", ids.len(), list(ids)),
        hint: format!("name one of them in `{option}`, like {first}"),
    }
}

/// No instrument, where one is wanted.
#[must_use]
pub fn no_instrument() -> Advice {
    Advice {
        message: "no instrument is named".to_owned(),
        hint: "name one by its id, like tin-whistle-d, or give your own".to_owned(),
    }
}

/// A manner of playing that an instrument does not offer.
#[must_use]
pub fn unknown_style(name: &str, instrument: &Instrument) -> Advice {
    let offered: Vec<&str> = instrument.styles.iter().map(|style| style.id.as_str()).collect();
    let shown: String = name.chars().take(40).collect();
    Advice {
        message: format!("{} is not played in the style `{shown}`", instrument.name),
        hint: format!("it offers {}", list(&offered)),
    }
}

/// What is wrong with an instrument file, where, and a way out.
#[must_use]
pub fn instrument_error(error: &InstrumentError) -> Advice {
    Advice { message: error.to_string(), hint: hint(&error.kind) }
}

fn hint(kind: &Kind) -> String {
    const PITCH: &str = "write a note name and an octave, like F#4; C4 is middle C";
    let hint = match kind {
        Kind::TooLong => "a file of one family is a few thousand bytes long",
        Kind::NotJson { .. } => {
            "the file is JSON: names and text in double quotes, a comma between items, none after the last"
        }
        Kind::BadShape { .. } => "the fields are told in tests/schema/instrument.json",
        Kind::Missing { field: "format" } => "begin with \"format\": 1",
        Kind::Missing { .. } => {
            "a file has `format`, `id`, `name`, and notes in one of the ways `notes`, `buttons`, `frets` with `strings`, `levers` with `strings`, or `range`"
        }
        Kind::BadFormat { .. } => "this program reads format 1",
        Kind::BadId { .. } => "small letters and digits, with - between words, like tin-whistle-d",
        Kind::SameId { .. } => "give each of them an id of its own",
        Kind::NotAPitch { .. } => PITCH,
        Kind::NotANote { .. } => "letters run from A to G, with # or b after them, like F# or Bb",
        Kind::NotAnInterval { .. } => "write it like \"P4\", \"m3\" or, downwards, \"-M2\"",
        Kind::NotAFret { .. } => "write a number, with + after it for a half fret, like \"6+\"",
        Kind::NotASignature { .. } => {
            "count sharps as a positive number and flats as a negative one, seven at most"
        }
        Kind::NotAHole { .. } => "X is a closed hole, O an open one, / a half closed one",
        Kind::HoleCount { .. } => "`holes` of the instrument says how many there are",
        Kind::NoSuchRow { .. } => "rows are counted from 0 in the order of `rows`",
        Kind::NoSuchString { .. } => "strings are counted from 0 in the order of `strings`",
        Kind::StringNames { .. } => "give each string a name, or leave the names out",
        Kind::CountedFromOne => "the lowest button is 1; a group of holes has at least one",
        Kind::BeyondMidi { .. } => "written and sounding notes run from C-1 to G9",
        Kind::UpsideDown => "put the lowest note first",
        Kind::BadBend => "bent notes are lower than the note of `push` or `draw` beside them",
        Kind::NoNotes => "state them in `notes`, `buttons`, `frets`, `levers` or `range`",
        Kind::NoWays => "a note that needs no fingering has one empty way: {}",
        Kind::TooManyWays => "leave out ways that nobody plays",
        Kind::TooManySizes => "put some of them in another file",
        Kind::NestedSizes => "list all sizes in one list",
        Kind::ShiftAndNotes => "leave out `shift`, or leave the notes to the family",
    };
    hint.to_owned()
}

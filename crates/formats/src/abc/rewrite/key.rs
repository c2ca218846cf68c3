//! Keys in the text.

use super::super::key::KeyReading;
use super::super::spelled::sign;
use super::Edit;
use modewright_core::transpose::moved_key;
use modewright_core::tune::{KeyForm, WrittenKey};
use modewright_core::{Interval, Spelling, Step};

/// The changes of a key field, and the key that it then states.
pub(super) fn edits(reading: &KeyReading, by: Interval) -> (Vec<Edit>, WrittenKey) {
    let old = reading.key.unwrap_or_default();
    let Some(new) = moved_key(&old, by) else { return (Vec::new(), old) };
    let mut edits = Vec::new();
    if let (Some(old_home), Some(home)) = (old.home, new.home)
        && old_home != home
    {
        let (start, end) = reading.home;
        edits.push(Edit { start, end, text: home.to_string() });
    }
    match new.form {
        KeyForm::Modified => edits.extend(renamed(reading, by)),
        KeyForm::Explicit if old.alters != new.alters || old.form != new.form => {
            edits.extend(relisted(reading, &new));
        }
        _ => {}
    }
    (edits, new)
}

/// Each listed accidental moves on its own.
fn renamed(reading: &KeyReading, by: Interval) -> Vec<Edit> {
    let listed = reading.parts.accidentals.iter().zip(&reading.parts.places);
    let moved = listed.filter_map(|(&(step, alter), &(start, end))| {
        let note = Spelling::new(step, alter).transpose(by).ok()?;
        Some(Edit { start, end, text: accidental(note) })
    });
    moved.collect()
}

/// The list is written anew: letters that were plain may need a sign now.
fn relisted(reading: &KeyReading, new: &WrittenKey) -> Vec<Edit> {
    let places = &reading.parts.places;
    let together =
        places.windows(2).any(|pair| matches!(pair, [(_, end), (start, _)] if end == start));
    let list = listed(new, if together { "" } else { " " });
    let (start, end) = reading.head;
    let says_home = new.home.is_some();
    let mut edits = Vec::new();
    // `HP` and `none` say something else; a home with `exp`, and `exp` itself, stay.
    let head = if start == end || says_home { None } else { Some("exp".to_owned()) };
    match (places.first(), places.last()) {
        (Some(&(from, _)), Some(&(_, to))) => {
            edits.extend(head.map(|text| Edit { start, end, text }));
            let list = if list.is_empty() && start == end { "exp".to_owned() } else { list };
            // What stands between the accidentals is blanks, or parts that stay.
            let apart = places.windows(2).any(|p| matches!(p, [(_, a), (b, _)] if b - a > 1));
            if apart {
                edits.push(Edit {
                    start: from,
                    end: places.first().map_or(to, |p| p.1),
                    text: list,
                });
                let others = places.iter().skip(1);
                edits.extend(others.map(|&(start, end)| Edit { start, end, text: String::new() }));
            } else {
                edits.push(Edit { start: from, end: to, text: list });
            }
        }
        _ => {
            let blank = if list.is_empty() { "" } else { " " };
            match head {
                Some(text) => edits.push(Edit { start, end, text: format!("{text}{blank}{list}") }),
                None => edits.push(Edit { start: end, end, text: format!("{blank}{list}") }),
            }
        }
    }
    edits
}

/// The accidentals of a key as a list: sharps, then flats, in the order of signatures.
fn listed(key: &WrittenKey, between: &str) -> String {
    let alter = |step: &Step| key.alter(*step).semitones();
    let order = Step::SHARP_ORDER.into_iter();
    let sharps = order.clone().filter(|step| alter(step) > 0);
    let flats = order.rev().filter(|step| alter(step) < 0);
    let names: Vec<String> =
        sharps.chain(flats).map(|step| accidental(Spelling::new(step, key.alter(step)))).collect();
    names.join(between)
}

/// An accidental as a key lists it: `^f`, `_b`, `=c`.
fn accidental(note: Spelling) -> String {
    format!("{}{}", sign(note.alter), note.step.letter().to_ascii_lowercase())
}

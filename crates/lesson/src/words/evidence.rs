//! Reasons in words. A reason that the model did not use has no sentence.

use super::{
    degree::role,
    key::{key_name, mode_name, note, signature},
    list::list,
};
use modewright_core::find::{Evidence, EvidenceKind, Fact};
use modewright_core::{Key, Signature, Spelling};

/// A reason as a sentence.
#[must_use]
pub fn evidence(evidence: &Evidence) -> String {
    let (mine, over) = (evidence.favours, evidence.over);
    let name = key_name(mine);
    match &evidence.fact {
        Fact::Rests { note: rest, count, of } => {
            let note = note(*rest);
            let strains = match (count, of) {
                (1, 1) => {
                    return format!(
                        "Its one strain comes to rest on {}.",
                        compared(*rest, mine, over)
                    );
                }
                (2, 2) => "Both strains come".to_owned(),
                (a, b) if a == b => "All strains come".to_owned(),
                (0, _) => {
                    return format!(
                        "No strain comes to rest where {} would have it.",
                        key_name(over)
                    );
                }
                (1, b) => format!("One of {b} strains comes"),
                (a, b) => format!("{a} of {b} strains come"),
            };
            format!("{strains} to rest on {note}, {} in {name}.", role(*rest, mine))
        }
        Fact::Last { note, at_rest: true } => {
            format!("The tune comes to rest on {}.", compared(*note, mine, over))
        }
        Fact::Last { note, at_rest: false } => {
            format!("Its very last note is {}.", compared(*note, mine, over))
        }
        Fact::Outside(notes) => {
            let (sound, it) = if notes.len() == 1 { ("sounds", "it") } else { ("sound", "them") };
            let notes = list(&names(notes));
            format!("{notes} {sound} in the tune: {name} has {it}, {} has not.", key_name(over))
        }
        Fact::Signature(fifths) => page(*fifths, mine, over),
        Fact::Usual => format!(
            "All else apart, the tune books that the weights come from lean to {} here.",
            mode_name(mine.mode)
        ),
        Fact::Notes(notes) => by_notes(evidence.kind, notes, mine, over),
    }
}

/// A reason that rests on some notes of the tune.
fn by_notes(kind: EvidenceKind, notes: &[Spelling], mine: Key, over: Key) -> String {
    let name = key_name(mine);
    let roles = list(&with_roles(notes, mine));
    let plain = list(&names(notes));
    let first = notes.first().copied().unwrap_or(mine.home);
    match kind {
        EvidenceKind::FirstStrong => {
            format!("The first strong note is {}.", compared(first, mine, over))
        }
        EvidenceKind::Time => {
            let sound = if notes.len() == 1 { "sounds" } else { "sound" };
            format!("How long {roles} {sound} suits {name}.")
        }
        EvidenceKind::Stress => {
            format!("The beats and the long notes favour {roles}, as {name} would have it.")
        }
        EvidenceKind::Opening => format!("The opening bars dwell on {roles}: a start for {name}."),
        EvidenceKind::Cadence => {
            format!("The bars that lead to the rest turn about {roles}, as a close in {name} does.")
        }
        EvidenceKind::Register => {
            format!(
                "Where the tune lies, low and high, makes {plain} stand out: {roles} in {name}."
            )
        }
        EvidenceKind::Triads => {
            format!("Whole bars are built on {roles}: chords that belong to {name}.")
        }
        EvidenceKind::Forms => {
            format!("Of two neighbouring notes the tune prefers {plain}, which suits {name}.")
        }
        EvidenceKind::Motif => {
            format!("The way the tune steps to {roles} and comes back there suits {name}.")
        }
        _ => format!("{roles} speak for {name}."),
    }
}

/// What the signature on the page says.
fn page(fifths: i8, mine: Key, over: Key) -> String {
    let Ok(written) = Signature::new(i32::from(fifths)) else { return String::new() };
    let words = signature(written);
    let fits = mine.pitch_set()
        == Key::new(
            Spelling::from_fifths(i32::from(fifths)).unwrap_or(mine.home),
            modewright_core::Mode::Ionian,
        )
        .pitch_set();
    if fits {
        format!("The signature on the page ({words}) is that of {}.", key_name(mine))
    } else {
        format!(
            "The signature on the page ({words}) is nearer to {} than to {}.",
            key_name(mine),
            key_name(over)
        )
    }
}

/// A note with what it is in the answer and, where that differs, in the rival.
fn compared(rest: Spelling, mine: Key, over: Key) -> String {
    let (here, there) = (role(rest, mine), role(rest, over));
    let name = note(rest);
    if here == there {
        return format!("{name}, {here} in {}", key_name(mine));
    }
    let there = if there == "outside it" { "not even in it".to_owned() } else { there };
    format!("{name}: {here} in {}; in {} it is {there}", key_name(mine), key_name(over))
}

fn names(notes: &[Spelling]) -> Vec<String> {
    notes.iter().map(|n| note(*n)).collect()
}

fn with_roles(notes: &[Spelling], key: Key) -> Vec<String> {
    notes
        .iter()
        .map(|n| {
            let role = role(*n, key);
            let named = role.strip_prefix("its ").map(|name| format!("the {name}"));
            format!("{} ({})", note(*n), named.unwrap_or(role))
        })
        .collect()
}

//! Which octave each letter is in.

use super::habits::Habits;
use super::token::{Note, Token, TokenKind};
use modewright_core::Pitch;

/// The middle line of the treble stave, B4, in lines and spaces above C0.
const MIDDLE: i32 = 34;

/// A pitch for every note, in order; `None` where there is none so high or low.
pub(super) fn place(tokens: &[Token], habits: &Habits) -> Vec<Option<Pitch>> {
    let notes = tokens.iter().filter_map(|t| match &t.kind {
        TokenKind::Note(note) => Some(note),
        _ => None,
    });
    if habits.octaves_are_inferred() {
        return nearest(&notes.collect::<Vec<_>>());
    }
    notes.map(|note| marked(note, habits)).collect()
}

/// The octave that a note's own marks say.
fn marked(note: &Note, habits: &Habits) -> Option<Pitch> {
    if habits.numbers_are_octaves {
        // A few notes without a number are taken to lie in the middle octave.
        let octave = note.number.and_then(|n| i32::try_from(n).ok()).unwrap_or(4);
        return Pitch::new(note.spelling(), octave).ok();
    }
    let high = if habits.case_is_octave { !note.capital } else { habits.all_small };
    let down = if habits.commas_are_octaves { i32::from(note.commas) } else { 0 };
    let octave = if high { 5 } else { 4 } + i32::from(note.up) - down;
    Pitch::new(note.spelling(), octave).ok()
}

/// Each note nearest to the one before, by lines and spaces; the whole as near the middle of the
/// treble stave as octaves allow.
///
/// Seven steps make an octave, so one way is always the shorter: there is no tie.
fn nearest(notes: &[&Note]) -> Vec<Option<Pitch>> {
    let mut places: Vec<i32> = Vec::with_capacity(notes.len());
    for note in notes {
        let step = i32::from(note.step.index());
        let place = match places.last() {
            None => 28 + step,
            Some(&last) => last + (step - last + 3).rem_euclid(7) - 3,
        };
        places.push(place);
    }
    let (Some(&low), Some(&high)) = (places.iter().min(), places.iter().max()) else {
        return Vec::new();
    };
    // Half of (low + high) lies within half an octave of the middle, the lower one on a tie.
    let shift = (2 * MIDDLE - low - high + 6).div_euclid(14) * 7;
    let pitch = |(note, place): (&&Note, i32)| {
        let octave = (place + shift).div_euclid(7);
        Pitch::new(note.spelling(), octave).ok()
    };
    notes.iter().zip(places).map(pitch).collect()
}

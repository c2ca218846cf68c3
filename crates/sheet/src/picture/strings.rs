//! Strings with frets or fingers, the highest string above; and the strings of a harp.

use super::drawing::{Anchor, Asked, Drawing, Role, units};
use modewright_core::Pitch;
use modewright_core::instrument::{Fret, Instrument, Lever, Playable, Way};
use modewright_lesson::words::{self, PictureSign};
use std::collections::BTreeSet;

const FRET: i32 = 46;
const STRING: i32 = 34;
const SPOT: i32 = FRET - 6;
/// The last fret or finger of the first place of the hand.
const FIRST_PLACE: u8 = 5;

pub(super) fn neck(instrument: &Instrument, asked: &Asked<'_>) -> Drawing {
    let mut drawing = Drawing::default();
    let strings = units(instrument.strings.len());
    let y = |string: i32| 18 + (strings - 1 - string) * STRING;
    let all = || {
        instrument.notes().iter().flat_map(|note| {
            note.ways
                .iter()
                .filter_map(move |way| Some((note, way, i32::from(way.string?), way.fret?)))
        })
    };
    let shown: Vec<(&Playable, &Way, i32, Fret)> =
        all().filter(|(note, ..)| asked.uses(note)).collect();
    // No more of the neck than the tune or the first place of the hand asks for. Each fret has a
    // column of its own, the half frets of a diatonic fretboard too.
    let last = shown.iter().filter(|(note, way, ..)| asked.role(note, way) != Role::Other);
    let last = last.map(|(.., fret)| fret.number).max().unwrap_or(0).max(FIRST_PLACE);
    let frets: BTreeSet<Fret> =
        all().map(|(.., fret)| fret).filter(|fret| fret.number <= last).collect();
    let column =
        |fret: Fret| units(frets.range(..=fret).filter(|fret| **fret > Fret::default()).count());
    let count = frets.last().map_or(0, |last| column(*last));
    let longest = (0..)
        .zip(&instrument.strings)
        .map(|(at, open)| name(instrument, at, *open).chars().count());
    let left = units(longest.max().unwrap_or(1)) * 9 + 12 + FRET;
    let right = left + count * FRET + FRET / 4;
    let (top, bottom) = (y(strings - 1) - 10, y(0) + 10);
    drawing.line((left, top), (left, bottom), true);
    for fret in frets.iter().filter(|fret| **fret > Fret::default()) {
        let x = left + column(*fret) * FRET;
        let at = (x - FRET / 2, bottom + 18);
        if instrument.fretted {
            drawing.line((x, top), (x, bottom), false);
            drawing.words(at, fret.to_string(), Anchor::Middle);
            drawing.signs.insert(PictureSign::Frets);
        } else if let Some(finger) = finger(all().map(|(_, way, ..)| way), *fret) {
            drawing.words(at, finger.to_string(), Anchor::Middle);
            drawing.signs.insert(PictureSign::Fingers);
        }
    }
    let shown = shown.into_iter().filter(|(.., fret)| fret.number <= last);
    let shown: Vec<_> = shown.collect();
    for (at, open) in (0..).zip(&instrument.strings) {
        let line = y(units(at));
        // A string is not drawn through the names on it.
        let on = shown.iter().filter(|(_, _, string, _)| *string == units(at));
        let covered: BTreeSet<i32> = on.map(|(.., fret)| column(*fret)).collect();
        let mut from = left - FRET;
        for column in covered {
            let middle = left - FRET / 2 + column * FRET;
            drawing.line((from, line), ((middle - SPOT / 2).max(from), line), false);
            from = middle + SPOT / 2;
        }
        drawing.line((from, line), (right.max(from), line), false);
        drawing.words((0, line + 5), name(instrument, at, *open), Anchor::Start);
    }
    for (note, way, string, fret) in shown {
        let at = (left - FRET / 2 + column(fret) * FRET, y(string));
        drawing.spot(at, (SPOT, 26), asked.name(note.written), asked.role(note, way));
    }
    drawing.fit(right + 4, bottom + 26)
}

/// The finger of a column, where every string has the same there.
fn finger<'a>(ways: impl Iterator<Item = &'a Way>, fret: Fret) -> Option<u8> {
    let mut fingers = ways.filter(|way| way.fret == Some(fret)).map(|way| way.finger);
    let first = fingers.next()??;
    fingers.all(|finger| finger == Some(first)).then_some(first)
}

/// A string by its own name, or by its open note.
fn name(instrument: &Instrument, at: usize, open: Pitch) -> String {
    let own = instrument.string_names.get(at);
    own.cloned().unwrap_or_else(|| words::note(open.spelling()))
}

const HARP: i32 = 32;
const ACROSS: i32 = 18;
const LINE: i32 = 136;

/// The strings of a harp in lines of eighteen: the open note below, and above it what sounds with
/// the lever up, where the tune needs that.
pub(super) fn harp(instrument: &Instrument, asked: &Asked<'_>) -> Drawing {
    let mut drawing = Drawing::default();
    let count = units(instrument.strings.len());
    for (string, open) in (0..).zip(&instrument.strings) {
        let place = i32::from(string);
        let (x, y) = (HARP / 2 + place % ACROSS * HARP, place / ACROSS * LINE);
        let sounds = |lever: Lever| {
            instrument.notes().iter().find_map(|note| {
                let on = |way: &&Way| way.string == Some(string) && way.lever == Some(lever);
                let role = asked.role(note, note.ways.iter().find(on)?);
                let is_played = matches!(role, Role::Home | Role::Used);
                is_played.then(|| (asked.name(note.written), role))
            })
        };
        let (up, down) = (sounds(Lever::Up), sounds(Lever::Down));
        drawing.line((x, y + 26), (x, y + 94), up.is_some() || down.is_some());
        let (name, role) = down.unwrap_or_else(|| (words::note(open.spelling()), Role::Idle));
        drawing.spot((x, y + 108), (HARP - 2, 24), name, role);
        if let Some((name, role)) = up {
            drawing.spot((x, y + 14), (HARP - 2, 24), name, role);
            drawing.signs.insert(PictureSign::Lever);
        }
    }
    let lines = (count + ACROSS - 1) / ACROSS;
    drawing.fit(count.min(ACROSS) * HARP, lines.max(1) * LINE - 14)
}

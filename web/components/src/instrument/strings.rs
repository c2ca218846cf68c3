//! Strings with frets or fingers, the highest string above; and the strings of a harp.

use super::drawing::{Anchor, Drawing, Part, Role, TuneNotes};
use crate::wheel::note_name;
use modewright_core::instrument::{Fret, Instrument, Lever, Way};
use std::collections::BTreeSet;

const FRET: i32 = 46;
const STRING: i32 = 34;
const NUT: i32 = 92;

pub(super) fn frets(instrument: &Instrument, tune: &TuneNotes) -> Drawing {
    let mut drawing = Drawing::default();
    let strings = i32::try_from(instrument.strings.len()).unwrap_or(12);
    let y = |string: i32| 24 + (strings - 1 - string) * STRING;
    let spots = instrument.notes().iter().flat_map(|note| {
        note.ways
            .iter()
            .enumerate()
            .filter_map(move |(at, way)| Some((note, at, i32::from(way.string?), way.fret?)))
    });
    let used: Vec<_> = spots.filter(|(note, ..)| tune.uses(note.written)).collect();
    // No more of the neck than the tune or the first hand position asks for; each fret has a
    // column of its own, the half frets of a diatonic fretboard too.
    let last = used.iter().map(|(.., fret)| fret.number).max().unwrap_or(0).max(5);
    let all = instrument.notes().iter().flat_map(|note| &note.ways);
    let all: BTreeSet<Fret> = all.filter_map(|way| way.fret).filter(|f| f.number <= last).collect();
    let column = |fret: Fret| {
        let before = all.range(..fret).filter(|fret| fret.number > 0 || fret.half).count();
        i32::try_from(before).unwrap_or(0) + i32::from(fret > Fret::new(0))
    };
    let count = all.last().map_or(0, |last| column(*last));
    let (left, right) = (NUT, NUT + count * FRET + FRET / 2);
    let (top, bottom) = (y(strings - 1) - 10, y(0) + 10);
    drawing.line((left, top), (left, bottom), true);
    if instrument.fretted {
        for fret in all.iter().filter(|fret| **fret > Fret::new(0)) {
            let x = left + column(*fret) * FRET;
            drawing.line((x, top), (x, bottom), false);
            drawing.words(x - FRET / 2, bottom + 18, fret.to_string(), Anchor::Middle);
        }
    }
    for (string, open) in (0..).zip(&instrument.strings) {
        drawing.line((left - FRET, y(string)), (right, y(string)), false);
        drawing.words(4, y(string) + 5, note_name(open.spelling()), Anchor::Start);
    }
    // The usual ways lie over the others.
    for usual in [false, true] {
        for (note, at, string, fret) in &used {
            let role = tune.role(note.written, &note.ways, *at);
            if usual != (role != Role::Other) {
                continue;
            }
            let x = left - FRET / 2 + column(*fret) * FRET;
            drawing.parts.push(Part::Note {
                x,
                y: y(*string),
                width: FRET - 6,
                height: 26,
                name: tune.name(note.written),
                role,
            });
        }
    }
    drawing.fit(right + 4, bottom + 26)
}

const HARP: i32 = 24;
const ACROSS: i32 = 18;

/// The strings of a harp in lines of eighteen: the open note below, and above it what sounds with
/// the lever up, where the tune needs that.
pub(super) fn harp(instrument: &Instrument, tune: &TuneNotes) -> Drawing {
    let mut drawing = Drawing::default();
    let count = i32::try_from(instrument.strings.len()).unwrap_or(60);
    for (string, open) in (0..).zip(&instrument.strings) {
        let (x, y) = (HARP + (string % ACROSS) * HARP * 4 / 3, (string / ACROSS) * 136);
        let sounds = |lever: Lever| {
            instrument.notes().iter().find_map(|note| {
                let on = |way: &Way| way.string.map(i32::from) == Some(string);
                let at = note.ways.iter().position(|w| on(w) && w.lever == Some(lever))?;
                let role = tune.role(note.written, &note.ways, at);
                (role != Role::Idle).then(|| (tune.name(note.written), role))
            })
        };
        let (up, down) = (sounds(Lever::Up), sounds(Lever::Down));
        drawing.line((x, y + 26), (x, y + 94), up.is_some() || down.is_some());
        let mut named = |(name, role): (String, Role), y: i32| {
            drawing.parts.push(Part::Note { x, y, width: 30, height: 24, name, role });
        };
        named(down.unwrap_or_else(|| (note_name(open.spelling()), Role::Idle)), y + 108);
        if let Some(up) = up {
            named(up, y + 14);
        }
    }
    let lines = (count + ACROSS - 1) / ACROSS;
    drawing.fit(count.min(ACROSS) * HARP * 4 / 3 + HARP, lines.max(1) * 136)
}

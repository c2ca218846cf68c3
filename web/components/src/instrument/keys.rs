//! A keyboard from the lowest to the highest note: for the piano accordion, and for a voice, whose
//! notes have no place that can be seen.

use super::drawing::{Drawing, Part, TuneNotes};
use modewright_core::instrument::Instrument;
use modewright_core::{Pitch, PitchClass, Spelling, Step};

const WHITE: i32 = 34;
const TALL: i32 = 110;

pub(super) fn draw(instrument: &Instrument, tune: &TuneNotes) -> Drawing {
    let mut drawing = Drawing::default();
    let (Some(low), Some(high)) = (instrument.lowest(), instrument.highest()) else {
        return drawing.fit(1, 1);
    };
    let white = |midi: i16| {
        let class = PitchClass::new(i32::from(midi));
        Step::ALL.into_iter().any(|step| Spelling::natural(step).pitch_class() == class)
    };
    let (from, to) = (shown(low.midi(), &white, -1), shown(high.midi(), &white, 1));
    let whites: Vec<i16> = (from..=to).filter(|&midi| white(midi)).collect();
    let left = |midi: i16| {
        i32::try_from(whites.iter().take_while(|&&w| w < midi).count()).unwrap_or(0) * WHITE
    };
    for &midi in &whites {
        let (x, round) = (left(midi), 4);
        drawing.parts.push(Part::Frame {
            x,
            y: 34,
            width: WHITE,
            height: TALL,
            round,
            dark: false,
        });
    }
    for midi in (from..=to).filter(|&midi| !white(midi)) {
        let x = left(midi) - WHITE / 3;
        drawing.parts.push(Part::Frame {
            x,
            y: 34,
            width: WHITE * 2 / 3,
            height: 66,
            round: 3,
            dark: true,
        });
    }
    for note in instrument.notes() {
        let written: Pitch = note.written;
        if !tune.uses(written) {
            continue;
        }
        let (x, y) = if white(written.midi()) {
            (left(written.midi()) + WHITE / 2, 34 + TALL - 18)
        } else {
            (left(written.midi()), 16)
        };
        let role = tune.role(written, &note.ways, super::drawing::usual(&note.ways));
        let name = tune.name(written);
        drawing.parts.push(Part::Note { x, y, width: WHITE - 2, height: 26, name, role });
    }
    let count = i32::try_from(whites.len()).unwrap_or(1);
    drawing.fit(count * WHITE, 34 + TALL + 2)
}

/// The nearest lower key at or beyond an end, so that no keyboard begins with an upper one.
fn shown(midi: i16, white: &impl Fn(i16) -> bool, step: i16) -> i16 {
    if white(midi) { midi } else { midi + step }
}

//! A keyboard from the lowest to the highest note: for the piano accordion, and for a voice, whose
//! notes have no place that can be seen.

use super::drawing::{Asked, Drawing, Part, Role, units};
use modewright_core::instrument::Instrument;
use modewright_core::{PitchClass, Spelling, Step};

const WHITE: i32 = 34;
const TALL: i32 = 110;
const TOP: i32 = 34;

pub(super) fn draw(instrument: &Instrument, asked: &Asked<'_>) -> Drawing {
    let mut drawing = Drawing::default();
    let (Some(low), Some(high)) = (instrument.lowest(), instrument.highest()) else {
        return drawing.fit(1, 1);
    };
    // No keyboard begins or ends with an upper key.
    let from = low.midi() - if is_white(low.midi()) { 0 } else { 1 };
    let to = high.midi() + if is_white(high.midi()) { 0 } else { 1 };
    let whites = |below: i16| units((from..below).filter(|midi| is_white(*midi)).count());
    for midi in (from..=to).filter(|midi| is_white(*midi)) {
        let at = (whites(midi) * WHITE, TOP);
        drawing.parts.push(Part::Frame { at, size: (WHITE, TALL), round: 4, dark: false });
    }
    for midi in (from..=to).filter(|midi| !is_white(*midi)) {
        let at = (whites(midi) * WHITE - WHITE / 3, TOP);
        drawing.parts.push(Part::Frame { at, size: (WHITE * 2 / 3, 66), round: 3, dark: true });
    }
    for note in instrument.notes().iter().filter(|note| asked.uses(note)) {
        let midi = note.written.midi();
        let at = if is_white(midi) {
            (whites(midi) * WHITE + WHITE / 2, TOP + TALL - 18)
        } else {
            (whites(midi) * WHITE, 16)
        };
        let role = note.ways.iter().map(|way| asked.role(note, way)).min().unwrap_or(Role::Idle);
        drawing.spot(at, (WHITE - 2, 26), asked.name(note.written), role);
    }
    drawing.fit(whites(to + 1) * WHITE, TOP + TALL + 2)
}

fn is_white(midi: i16) -> bool {
    let class = PitchClass::new(i32::from(midi));
    Step::ALL.into_iter().any(|step| Spelling::natural(step).pitch_class() == class)
}

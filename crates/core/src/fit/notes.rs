//! The notes of a tune by height.

use crate::{Pitch, Tune, order};

/// All notes of a tune that have one height.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TuneNote {
    /// The written pitch, as it is spelled first.
    pub pitch: Pitch,
    /// How often it sounds; tied notes sound once.
    pub count: u32,
    /// The numbers of the bars that it begins in, in order, each once.
    pub bars: Vec<u32>,
}

/// The notes of a tune, the lowest first.
pub(super) fn of(tune: &Tune) -> Vec<TuneNote> {
    // Heights of pitches fit a small table; places in it count from the lowest that can be.
    let place = |pitch: Pitch| usize::try_from(i32::from(pitch.midi()) + 64).unwrap_or(0);
    let mut by_height: Vec<Option<usize>> = vec![None; 320];
    let mut notes: Vec<TuneNote> = Vec::new();
    for sounding in tune.soundings() {
        let bar = tune.events.get(sounding.event).map_or(0, |event| tune.bar_number(event));
        let Some(slot) = by_height.get_mut(place(sounding.pitch)) else { continue };
        let at = *slot.get_or_insert(notes.len());
        match notes.get_mut(at) {
            Some(note) => {
                note.count = note.count.saturating_add(1);
                // Bars come in their order, but for the two sides of a split one.
                if note.bars.last() != Some(&bar) {
                    note.bars.push(bar);
                }
            }
            None => notes.push(TuneNote { pitch: sounding.pitch, count: 1, bars: vec![bar] }),
        }
    }
    order::by_number(&mut notes, |note| i32::from(note.pitch.midi()).cast_unsigned() ^ 1 << 31);
    notes
}

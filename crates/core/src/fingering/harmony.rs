//! Notes that can be added to a long final.

use super::{Plan, candidates};
use crate::instrument::{Instrument, Way};
use crate::{Key, Length, Pitch, PitchSet, Spelling, Tune};

/// A long last note of a strain, and notes of the home chord that the free hand can add.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Harmony<'a> {
    /// Which note, as an index into the notes of the plan.
    pub note: usize,
    /// What can be added, from the lowest to the highest: the written pitch and its way.
    pub added: Vec<(Pitch, &'a Way)>,
}

/// A final that is at least as long bears a chord.
const LONG: Length = Length::CROTCHET;

/// For each strain that ends on a long note of the home chord: the other notes of that chord
/// that the hand which does not play it has, with the air going the same way.
///
/// Only instruments that give each hand buttons of its own have any. The ways are those that
/// [`super::plan`] itself would take.
#[must_use]
pub fn harmony<'a>(
    tune: &Tune,
    instrument: &'a Instrument,
    plan: &Plan<'_>,
    home: Key,
    options: super::Options,
) -> Vec<Harmony<'a>> {
    let Ok(scale) = home.scale() else { return Vec::new() };
    let chord: PitchSet =
        [scale[0], scale[2], scale[4]].map(Spelling::pitch_class).into_iter().collect();
    let mut found = Vec::new();
    for strain in tune.strains() {
        let Some(end) = strain.end.checked_sub(1).and_then(|bar| tune.bars.get(bar)) else {
            continue;
        };
        let after = plan.notes.partition_point(|note| note.sounding.event < end.end);
        let Some(place) = after.checked_sub(1) else { continue };
        let note = &plan.notes[place];
        let pitch = note.sounding.pitch;
        let long = note.sounding.length >= LONG && chord.contains(pitch.pitch_class());
        let (true, Some(way)) = (long, note.way) else { continue };
        let Some(hand) = way.hand else { continue };
        let free = |other: &&Way| {
            let same_air = other.direction.is_none() || other.direction == way.direction;
            other.hand.is_some_and(|other| other != hand) && same_air
        };
        let others = instrument.notes().iter().filter(|note| {
            chord.contains(note.written.pitch_class()) && note.written.midi() != pitch.midi()
        });
        let added = others.filter_map(|note| {
            let ways = candidates(instrument, note.written, options);
            Some((note.written, ways.into_iter().find(free)?))
        });
        let added: Vec<(Pitch, &Way)> = added.collect();
        if !added.is_empty() {
            found.push(Harmony { note: place, added });
        }
    }
    found
}

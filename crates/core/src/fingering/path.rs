//! The cheapest path, by dynamic programming.

use super::{Fingered, Met, Options, beginnings, candidates, step};
use crate::instrument::{Costs, Instrument, Way};
use crate::{Pitch, Tune};
use std::collections::HashMap;

/// A way at a note, with the cheapest way to come there.
struct Reached {
    cost: u64,
    /// The place of the way before it among those of its note.
    from: usize,
}

/// The notes with the ways of the cheapest path, and what is met on it.
pub(super) fn best<'a>(
    tune: &Tune,
    it: &'a Instrument,
    costs: &Costs,
    options: Options,
) -> (Vec<Fingered<'a>>, Met) {
    let begins = beginnings(tune);
    let begins = |event: usize| begins.get(event).copied().unwrap_or(false);
    let mut notes: Vec<Fingered<'a>> = tune
        .soundings()
        .map(|sounding| Fingered { sounding, way: None, begins: begins(sounding.event) })
        .collect();
    // The ways of each pitch, found once: a tune has few pitches and many notes.
    let mut known: Vec<Vec<&'a Way>> = Vec::new();
    let mut places: HashMap<Pitch, usize> = HashMap::new();
    let of_note: Vec<usize> = notes
        .iter()
        .map(|note| {
            let pitch = note.sounding.pitch;
            *places.entry(pitch).or_insert_with(|| {
                known.push(candidates(it, pitch, options));
                known.len() - 1
            })
        })
        .collect();
    let ways = |note: usize| known[of_note[note]].as_slice();

    let mut reached: Vec<Reached> = Vec::with_capacity(notes.len() * 2);
    // Where the ways of each note begin in `reached`.
    let mut starts: Vec<usize> = Vec::with_capacity(notes.len() + 1);
    for (i, note) in notes.iter().enumerate() {
        starts.push(reached.len());
        let before = i.checked_sub(1).map_or(&[][..], &ways);
        let came = i.checked_sub(1).map_or(0, |i| starts[i]);
        let same = i > 0 && notes[i - 1].sounding.pitch.midi() == note.sounding.pitch.midi();
        for &way in ways(i) {
            let here = step::at(way).cost(costs);
            let mut best = Reached { cost: here, from: 0 };
            for (j, from) in before.iter().enumerate() {
                let between =
                    step::between(it, costs.span, (from, way), same, note.begins).cost(costs);
                let cost = reached[came + j].cost.saturating_add(between).saturating_add(here);
                if j == 0 || cost < best.cost {
                    best = Reached { cost, from: j };
                }
            }
            reached.push(best);
        }
    }
    starts.push(reached.len());

    let mut taken: Option<usize> = None;
    for i in (0..notes.len()).rev() {
        let here = &reached[starts[i]..starts[i + 1]];
        if here.is_empty() {
            taken = None;
            continue;
        }
        // The end of a path: the tune's, or where the next note is missing.
        let place = taken.unwrap_or_else(|| cheapest(here));
        notes[i].way = ways(i).get(place).copied();
        taken = Some(here[place].from);
    }
    let met = met(it, costs.span, &notes);
    (notes, met)
}

fn cheapest(reached: &[Reached]) -> usize {
    let mut best = 0;
    for (i, way) in reached.iter().enumerate() {
        if way.cost < reached[best].cost {
            best = i;
        }
    }
    best
}

/// What is met along a path that has been chosen.
pub(super) fn met(it: &Instrument, span: u8, notes: &[Fingered<'_>]) -> Met {
    let mut met = Met::default();
    let mut last: Option<&Fingered<'_>> = None;
    for note in notes {
        if let Some(way) = note.way {
            met.all(&step::at(way));
            if let Some((before, from)) = last.and_then(|before| Some((before, before.way?))) {
                let same = before.sounding.pitch.midi() == note.sounding.pitch.midi();
                met.all(&step::between(it, span, (from, way), same, note.begins));
            }
        }
        last = Some(note);
    }
    met
}

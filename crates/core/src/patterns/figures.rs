//! The stock of rhythms: what fills a beat, or the beats that a note is held over.

use crate::count::bar_places;
use crate::{Length, Tune};
use std::collections::HashMap;

/// A note or rest of a figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Value {
    /// How long it is.
    pub length: Length,
    /// Whether it is a rest.
    pub rest: bool,
}

/// A rhythm from one beat to another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figure {
    /// Its notes and rests.
    pub values: Vec<Value>,
    /// The bar in which it first occurs, as an index into the tune's bars.
    pub first: usize,
    /// How often it occurs on the page.
    pub count: usize,
}

/// Longer figures are no rhythm that one would name: they are left out.
const LONGEST: usize = 16;

pub(super) fn of(tune: &Tune) -> Vec<Figure> {
    let mut known: HashMap<Vec<Value>, usize> = HashMap::new();
    let mut figures: Vec<Figure> = Vec::new();
    for (i, place) in bar_places(tune).into_iter().enumerate() {
        let metre = tune.bars[i].metre;
        let Some(unit) = metre.unit() else { continue };
        // Where beats end, in parts of the metre; a bar that is too long goes round again.
        let mut ends = Vec::new();
        let mut sum = 0;
        for beat in metre.beats() {
            sum += beat;
            ends.push(sum);
        }
        let is_beat = |at: Length| {
            unit.divides(at).is_some_and(|parts| {
                let within = u32::try_from(parts % u64::from(sum.max(1))).unwrap_or(0);
                within == 0 || ends.contains(&within)
            })
        };
        let mut values = Vec::new();
        for event in tune.events_of(i) {
            values.push(Value { length: event.length, rest: event.sound.pitch().is_none() });
            let end = place.offset.plus(event.at).and_then(|at| at.plus(event.length));
            if !end.is_ok_and(is_beat) {
                continue;
            }
            let figure = std::mem::take(&mut values);
            if figure.len() > LONGEST || figure.iter().all(|value| value.rest) {
                continue;
            }
            let next = figures.len();
            let at = *known.entry(figure.clone()).or_insert(next);
            match figures.get_mut(at) {
                Some(known) => known.count += 1,
                None => figures.push(Figure { values: figure, first: i, count: 1 }),
            }
        }
    }
    figures
}

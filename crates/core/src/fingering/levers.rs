//! The levers of a harp: how they are set before the tune, and what changes on the way.

use super::Fingered;
use crate::instrument::{Instrument, Lever};
use crate::{Pitch, Tune};

/// A lever that is set during the tune.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LeverChange {
    /// The open note of the string.
    pub string: Pitch,
    /// How it is set from here on.
    pub lever: Lever,
    /// The event before which it is set, as an index into the tune's events.
    pub event: usize,
    /// The number of the bar.
    pub bar: u32,
}

/// The levers of a tune.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Levers {
    /// The strings that begin with their lever up, from the lowest; the others begin down, or
    /// are not played.
    pub up: Vec<Pitch>,
    /// What is set during the tune, in order.
    pub changes: Vec<LeverChange>,
}

/// The setting for a path; `None` where the instrument has no levers.
pub(super) fn set(tune: &Tune, it: &Instrument, notes: &[Fingered<'_>]) -> Option<Levers> {
    let has_levers = it.notes().iter().flat_map(|note| &note.ways).any(|way| way.lever.is_some());
    if !has_levers {
        return None;
    }
    let mut state: Vec<Option<Lever>> = vec![None; it.strings.len()];
    let mut first = state.clone();
    let mut levers = Levers::default();
    for note in notes {
        let Some((string, lever)) = note.way.and_then(|way| Some((way.string?, way.lever?))) else {
            continue;
        };
        let string = usize::from(string);
        let (Some(now), Some(begun)) = (state.get_mut(string), first.get_mut(string)) else {
            continue;
        };
        match now {
            None => *begun = Some(lever),
            Some(now) if *now == lever => {}
            Some(_) => {
                let event = note.sounding.event;
                let bar = tune.events.get(event).map_or(0, |event| tune.bar_number(event));
                let change = LeverChange { string: it.strings[string], lever, event, bar };
                levers.changes.push(change);
            }
        }
        *now = Some(lever);
    }
    let strings = it.strings.iter().zip(first);
    let up = strings.filter(|(_, lever)| *lever == Some(Lever::Up)).map(|(string, _)| *string);
    levers.up = up.collect();
    Some(levers)
}

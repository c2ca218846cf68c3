//! Beams: which notes of a bar they join, and how many at each.

use crate::notation::Value;
use modewright_core::tune::{Event, MarkKind};
use modewright_core::{Length, Tune};

/// A beam at a note, by the word that MusicXML has for it.
pub(super) type Beam = &'static str;

/// The beams of each event of a bar, the main one first.
pub(super) fn of(tune: &Tune, bar: usize) -> Vec<Vec<Beam>> {
    let events = tune.events_of(bar);
    let ratios = ratios(tune, bar);
    let flags: Vec<usize> =
        events.iter().zip(&ratios).map(|(event, ratio)| flags(event, *ratio)).collect();
    let mut beams = vec![Vec::new(); events.len()];
    let mut first = 0;
    while first < events.len() {
        let mut end = first + 1;
        while end < events.len()
            && events.get(end - 1).is_some_and(|e| e.joined)
            && flags.get(end - 1).is_some_and(|&f| f > 0)
            && flags.get(end).is_some_and(|&f| f > 0)
        {
            end += 1;
        }
        if end - first > 1 {
            group(&flags, first, end, &mut beams);
        }
        first = end;
    }
    beams
}

fn group(flags: &[usize], first: usize, end: usize, beams: &mut [Vec<Beam>]) {
    let at = |i: usize| flags.get(i).copied().unwrap_or(0);
    for (i, here) in beams.iter_mut().enumerate().take(end).skip(first) {
        let before = if i > first { at(i - 1) } else { 0 };
        let after = if i + 1 < end { at(i + 1) } else { 0 };
        for level in 1..=at(i) {
            here.push(match (before >= level, after >= level) {
                (true, true) => "continue",
                (false, true) => "begin",
                (true, false) => "end",
                // A short beam points to the neighbour that it belongs to.
                (false, false) if i == first => "forward hook",
                (false, false) => "backward hook",
            });
        }
    }
}

/// How many beams a note may have; none for a rest.
fn flags(event: &Event, ratio: (u32, u32)) -> usize {
    let Some(_) = event.sound.pitch() else { return 0 };
    let nominal = event.length.times(ratio.0, ratio.1).unwrap_or(Length::ZERO);
    Value::of(nominal).map_or(0, Value::flags)
}

/// The tuplet of each event of a bar: so many in the time of so many.
fn ratios(tune: &Tune, bar: usize) -> Vec<(u32, u32)> {
    let Some(bar) = tune.bars.get(bar) else { return Vec::new() };
    let mut ratios = vec![(1, 1); bar.end - bar.first];
    // A tuplet may have begun in the bar before.
    let from = tune.marks.partition_point(|m| m.event + LONGEST_TUPLET < bar.first);
    for mark in tune.marks.get(from..).unwrap_or(&[]).iter().take_while(|m| m.event < bar.end) {
        if let MarkKind::Tuplet { actual, normal, count } = mark.kind {
            for i in mark.event..mark.event + usize::from(count) {
                let place = i.checked_sub(bar.first).and_then(|i| ratios.get_mut(i));
                if let Some(place) = place {
                    *place = (u32::from(actual).max(1), u32::from(normal).max(1));
                }
            }
        }
    }
    ratios
}

/// How far back a tuplet is looked for.
const LONGEST_TUPLET: usize = 100;

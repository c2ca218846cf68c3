//! The order in which bars are played.

use std::collections::HashMap;

use super::form::{self, Form};
use super::{MarkKind, Tune};
use crate::order;

/// Unfolds repeats, endings and named parts.
pub(super) fn order(tune: &Tune) -> Vec<usize> {
    let whole = || {
        let once = section(tune, 0, tune.bars.len());
        match form::of(tune) {
            Ok(Some(form)) => followed(tune, once, form),
            _ => once,
        }
    };
    if tune.part_order.is_empty() {
        return whole();
    }
    let mut starts: Vec<(usize, &str)> = tune
        .marks
        .iter()
        .filter_map(|mark| match &mark.kind {
            MarkKind::Part(name) => Some((bar_from(tune, mark.event)?, name.as_str())),
            _ => None,
        })
        .collect();
    order::by_number(&mut starts, |&(bar, _)| u32::try_from(bar).unwrap_or(u32::MAX));
    let mut parts: HashMap<&str, (usize, usize)> = HashMap::new();
    for (i, &(bar, name)) in starts.iter().enumerate() {
        let end = starts.get(i + 1).map_or(tune.bars.len(), |&(bar, _)| bar);
        parts.entry(name).or_insert((bar, end));
    }
    let mut played = Vec::new();
    for part in &tune.part_order {
        let Some(&(start, end)) = parts.get(part.as_str()) else { continue };
        played.extend(section(tune, start, end));
        if played.len() >= Tune::MAX_PLAYED_BARS {
            played.truncate(Tune::MAX_PLAYED_BARS);
            break;
        }
    }
    // A play order that names no part of the page says nothing.
    if played.is_empty() { whole() } else { played }
}

/// The first bar that begins at an event or after it.
fn bar_from(tune: &Tune, event: usize) -> Option<usize> {
    let bar = tune.events.get(event)?.bar as usize;
    let begins = tune.bars.get(bar)?.first == event;
    Some(if begins { bar } else { bar + 1 })
}

/// Unfolds the repeats of the bars from `start` to `end`.
///
/// A repeat sign without a beginning goes back to the latest double bar, end of repeat or start.
/// An ending that is followed by the ending of a later pass goes back too, with or without its
/// sign.
fn section(tune: &Tune, start: usize, end: usize) -> Vec<usize> {
    let mut played = Vec::new();
    let mut from = start;
    let mut last_pass = endings_from(tune, from, end);
    let mut pass = 1;
    let mut in_ending = false;
    let mut at = start;
    while at < end && played.len() < Tune::MAX_PLAYED_BARS {
        let bar = &tune.bars[at];
        if let Some(passes) = bar.ending {
            if !passes.contains(pass) {
                if in_ending && passes.last() > pass {
                    (pass, in_ending, at) = (pass + 1, false, from);
                } else {
                    at = after_ending(tune, at, end);
                }
                continue;
            }
            in_ending = true;
        }
        played.push(at);
        let wanted = (u32::from(bar.close.repeat_back) + 1).max(last_pass);
        if bar.close.repeat_back > 0 && pass < wanted {
            (pass, in_ending, at) = (pass + 1, false, from);
            continue;
        }
        let closes = bar.close.ends_strain();
        at += 1;
        let next_ending = tune.bars.get(at).is_some_and(|next| at < end && next.ending.is_some());
        if closes && !next_ending {
            (pass, in_ending, from) = (1, false, at);
            last_pass = endings_from(tune, from, end);
        }
    }
    played
}

/// A form that goes back once: what was played until then, and the second time, without repeats
/// and with last endings, to Fine, to the coda or to the end.
fn followed(tune: &Tune, mut played: Vec<usize>, form: Form) -> Vec<usize> {
    let Some(last) = played.iter().rposition(|&bar| bar == form.jump) else { return played };
    played.truncate(last + 1);
    let end = tune.bars.len();
    let mut at = form.start;
    while at < end && played.len() < Tune::MAX_PLAYED_BARS {
        if let Some(passes) = tune.bars[at].ending {
            let next = after_ending(tune, at, end);
            let later = tune.bars.get(next).filter(|_| next < end).and_then(|bar| bar.ending);
            if later.is_some_and(|later| later.last() > passes.last()) {
                at = next;
                continue;
            }
        }
        played.push(at);
        if form.fine == Some(at) {
            break;
        }
        match form.coda {
            Some((from, to)) if from == at => {
                played.extend(section(tune, to, end));
                break;
            }
            _ => at += 1,
        }
    }
    played.truncate(Tune::MAX_PLAYED_BARS);
    played
}

/// The bar after the ending that begins at `at`: the next ending, or what follows its last line.
fn after_ending(tune: &Tune, at: usize, end: usize) -> usize {
    let mut next = at;
    while next < end {
        let closed = tune.bars[next].close.ends_strain();
        next += 1;
        if closed || tune.bars.get(next).is_some_and(|bar| bar.ending.is_some()) {
            break;
        }
    }
    next
}

/// The highest pass that the endings of the section from `from` name.
fn endings_from(tune: &Tune, from: usize, end: usize) -> u32 {
    let mut last = 0;
    for (i, bar) in tune.bars.iter().enumerate().take(end).skip(from) {
        if let Some(passes) = bar.ending {
            last = last.max(passes.last());
        }
        let next_is_ending = tune.bars.get(i + 1).is_some_and(|next| next.ending.is_some());
        if bar.close.ends_strain() && !next_is_ending {
            break;
        }
    }
    last
}

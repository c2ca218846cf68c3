//! The order in which bars are played.

use super::{MarkKind, Tune};

/// Unfolds repeats, endings and named parts.
pub(super) fn order(tune: &Tune) -> Vec<usize> {
    if tune.part_order.is_empty() {
        return section(tune, 0, tune.bars.len());
    }
    let mut starts: Vec<(usize, &str)> = tune
        .marks
        .iter()
        .filter_map(|mark| match &mark.kind {
            MarkKind::Part(name) => {
                let bar = tune.bars.iter().position(|b| b.first >= mark.event)?;
                Some((bar, name.as_str()))
            }
            _ => None,
        })
        .collect();
    starts.sort_by_key(|&(bar, _)| bar);
    let mut played = Vec::new();
    for part in &tune.part_order {
        let Some(at) = starts.iter().position(|&(_, name)| name == part) else { continue };
        let end = starts.get(at + 1).map_or(tune.bars.len(), |&(bar, _)| bar);
        played.extend(section(tune, starts[at].0, end));
        if played.len() >= Tune::MAX_PLAYED_BARS {
            played.truncate(Tune::MAX_PLAYED_BARS);
            break;
        }
    }
    // A play order that names no part of the page says nothing.
    if played.is_empty() { section(tune, 0, tune.bars.len()) } else { played }
}

/// Unfolds the repeats of the bars from `start` to `end`.
///
/// A repeat sign without a beginning goes back to the latest double bar, end of repeat or start.
fn section(tune: &Tune, start: usize, end: usize) -> Vec<usize> {
    let mut played = Vec::new();
    let mut from = start;
    let mut pass = 1;
    let mut at = start;
    while at < end && played.len() < Tune::MAX_PLAYED_BARS {
        let bar = &tune.bars[at];
        if pass == 1 && bar.open.repeat_on > 0 {
            from = at;
        }
        if let Some(passes) = bar.ending
            && !passes.contains(pass)
        {
            at = after_ending(tune, at, end);
            continue;
        }
        played.push(at);
        let times = u32::from(bar.close.repeat_back) + 1;
        let wanted = times.max(endings_from(tune, from, end));
        if bar.close.repeat_back > 0 && pass < wanted {
            pass += 1;
            at = from;
            continue;
        }
        let closes = bar.close.ends_strain();
        at += 1;
        let in_ending = tune.bars.get(at).is_some_and(|next| at < end && next.ending.is_some());
        if closes && !in_ending {
            pass = 1;
            from = at;
        }
    }
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

//! Variants of one melody: none may stand on both sides of a split.

use crate::books::Example;
use modewright_core::mark;
use std::collections::HashMap;

/// Notes of a run that is compared; steps between them are.
const RUN: usize = 13;
/// Runs that two tunes must share to count as variants.
const SHARED: u32 = 8;
/// A run that stands in more tunes than this is a common figure and says nothing.
const COMMON: usize = 25;

/// Gives every example the number of its group: the least index of its members.
///
/// Tunes that share several long runs of the same steps, whatever their key, are variants.
pub(crate) fn assign(examples: &mut [Example]) {
    let mut places: HashMap<Vec<i16>, Vec<usize>> = HashMap::new();
    for (i, example) in examples.iter().enumerate() {
        let heights: Vec<i16> = example.tune.soundings().map(|s| s.pitch.midi()).collect();
        let steps: Vec<i16> = heights.windows(2).map(|w| w[1] - w[0]).collect();
        for run in steps.windows(RUN) {
            let mut kinds = run.to_vec();
            kinds.sort_unstable();
            kinds.dedup();
            if kinds.len() >= 4 {
                let tunes = places.entry(run.to_vec()).or_default();
                if tunes.last() != Some(&i) {
                    tunes.push(i);
                }
            }
        }
    }
    let mut shared: HashMap<(usize, usize), u32> = HashMap::new();
    for tunes in places.values().filter(|t| (2..=COMMON).contains(&t.len())) {
        for (k, &a) in tunes.iter().enumerate() {
            for &b in &tunes[k + 1..] {
                *shared.entry((a, b)).or_default() += 1;
            }
        }
    }
    let mut parent: Vec<usize> = (0..examples.len()).collect();
    let mut pairs: Vec<(usize, usize)> =
        shared.into_iter().filter(|&(_, n)| n >= SHARED).map(|(pair, _)| pair).collect();
    pairs.sort_unstable();
    for (a, b) in pairs {
        let (a, b) = (root(&mut parent, a), root(&mut parent, b));
        parent[a.max(b)] = a.min(b);
    }
    for (i, example) in examples.iter_mut().enumerate() {
        example.group = root(&mut parent, i);
    }
}

fn root(parent: &mut [usize], mut at: usize) -> usize {
    while parent[at] != at {
        parent[at] = parent[parent[at]];
        at = parent[at];
    }
    at
}

/// A number from 0 to `parts` − 1 for a group, the same on every machine.
pub(crate) fn part(group: usize, parts: u64) -> u64 {
    (mark::of(group.to_le_bytes()) >> 16) % parts
}

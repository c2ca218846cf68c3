//! How much of each bar is in each triad.

use super::share::{Sums, Whole};
use super::view::View;

/// Shares of bars in the major and the minor triad on each pitch class.
#[derive(Clone, Copy, Default)]
pub(super) struct Triads {
    pub major: Sums,
    pub minor: Sums,
    pub weight: i64,
}

impl Triads {
    /// Adds a bar of some weight.
    pub(super) fn add(&mut self, bar: &BarTriads, weight: i64) {
        for (sums, bar) in [(&mut self.major, &bar.major), (&mut self.minor, &bar.minor)] {
            for (sum, &part) in sums.iter_mut().zip(bar) {
                *sum += weight * i64::from(part);
            }
        }
        self.weight += weight;
    }
}

/// How much of one bar is in each triad.
pub(super) struct BarTriads {
    major: [i16; 12],
    minor: [i16; 12],
}

impl BarTriads {
    /// Measures a bar that has notes. The root counts half as much again, and the bar's first
    /// note is favoured by half a beat.
    pub(super) fn of(view: &View<'_>, bar: usize) -> Option<Self> {
        let notes = view.notes_of(bar);
        let first = notes.first()?;
        let mut time: Sums = [0; 12];
        for note in notes {
            time[usize::from(note.class % 12)] += i64::from(note.ticks);
        }
        time[usize::from(first.class % 12)] += i64::from(view.bars[bar].beat / 2);
        let total = Whole::of(time.iter().sum());
        // Most of the twelve do not sound: each that does is added where it is root, third and
        // fifth.
        let (mut major, mut minor): (Sums, Sums) = ([0; 12], [0; 12]);
        for (class, &time) in time.iter().enumerate().filter(|(_, time)| **time > 0) {
            let below = |semitones: usize| (class + 12 - semitones) % 12;
            for (root, part) in [(class, 3 * time / 2), (below(7), time)] {
                major[root] += part;
                minor[root] += part;
            }
            major[below(4)] += time;
            minor[below(3)] += time;
        }
        Some(Self { major: total.shares(&major), minor: total.shares(&minor) })
    }
}

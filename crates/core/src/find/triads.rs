//! How much of each bar is in each triad.

use super::share::{Sums, Whole};
use super::view::{Bar, Note};

/// Shares of bars in the major and the minor triad on each pitch class.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Triads {
    /// Of bars that count in full.
    major: Row,
    minor: Row,
    bars: u32,
    /// Of the others, times their weights.
    parts_major: Sums,
    parts_minor: Sums,
    weight: i64,
}

/// The weight of a bar that counts in full.
pub(super) const FULL: i64 = 1024;

impl Triads {
    /// Adds a bar of some weight.
    #[inline]
    pub(super) fn add(&mut self, bar: &BarTriads, weight: i64) {
        if weight == FULL {
            for i in 0..12 {
                self.major[i] += bar.major[i];
                self.minor[i] += bar.minor[i];
            }
            self.bars += 1;
        } else {
            self.add_part(bar, weight);
        }
    }

    fn add_part(&mut self, bar: &BarTriads, weight: i64) {
        let sums = [(&mut self.parts_major, &bar.major), (&mut self.parts_minor, &bar.minor)];
        for (sums, bar) in sums {
            for (sum, &part) in sums.iter_mut().zip(bar) {
                *sum += weight * i64::from(part);
            }
        }
        self.weight += weight;
    }

    /// What all bars come to: the shares in major and in minor triads.
    pub(super) fn shares(&self) -> [[i16; 12]; 2] {
        let whole = Whole::of(self.weight + FULL * i64::from(self.bars));
        [(&self.major, &self.parts_major), (&self.minor, &self.parts_minor)].map(|(full, parts)| {
            let mut sums = *parts;
            for (sum, &part) in sums.iter_mut().zip(full) {
                *sum += FULL * i64::from(part);
            }
            whole.divide(&sums)
        })
    }
}

/// How much of one bar is in each triad, in parts of a thousand and twenty-four.
pub(super) struct BarTriads {
    major: Row,
    minor: Row,
}

/// A number for each root.
type Row = [u32; 12];

impl BarTriads {
    /// Measures a bar that has notes, by the sounding time of each pitch class in it. The root
    /// counts half as much again, and the bar's first note is favoured by half a beat. The
    /// wholes of neighbours are mostly the same.
    #[inline]
    pub(super) fn of(notes: &[Note], bar: &Bar, mut time: [u32; 16], whole: &mut Whole) -> Self {
        let favoured = bar.beat / 2;
        let first = notes.first().map_or(0, |note| usize::from(note.class % 12));
        let sounding = i64::try_from(bar.sounding).unwrap_or(i64::MAX / 2);
        let whole = whole.again(sounding + i64::from(favoured));
        time[first] = time[first].wrapping_add(favoured);
        let (mut major, mut minor) = ([0; 12], [0; 12]);
        match whole.scale() {
            Some((inverse, bits)) => triads(&time, inverse, bits, &mut major, &mut minor),
            None => long_triads(notes, first, favoured, whole, &mut major, &mut minor),
        }
        Self { major, minor }
    }
}

/// The triads of a bar that is short enough. A plain loop that stands alone: see `products`.
#[inline(never)]
fn triads(time: &[u32; 16], inverse: u32, bits: u32, major: &mut Row, minor: &mut Row) {
    // Twice round, so that what is above a root can be read straight on.
    let mut twice = [0; 24];
    twice[..12].copy_from_slice(&time[..12]);
    twice[12..].copy_from_slice(&time[..12]);
    #[expect(clippy::cast_possible_truncation, reason = "at most one and a half times 1024")]
    let part = |time: u32| ((u64::from(time) * u64::from(inverse)) >> bits) as u32;
    for root in 0..12 {
        let fifth = twice[root] + (twice[root] >> 1) + twice[root + 7];
        major[root] = part(fifth + twice[root + 4]);
        minor[root] = part(fifth + twice[root + 3]);
    }
}

/// The same for bars of any length.
#[cold]
fn long_triads(
    notes: &[Note],
    first: usize,
    favoured: u32,
    whole: Whole,
    major: &mut Row,
    minor: &mut Row,
) {
    let mut time: Sums = [0; 12];
    for note in notes {
        time[usize::from(note.class % 12)] += i64::from(note.ticks);
    }
    time[first] += i64::from(favoured);
    for (third, parts) in [(4, major), (3, minor)] {
        let triad = |root: usize| {
            let [fifth, third] = [7, third].map(|above| time[(root + above) % 12]);
            time[root] + time[root] / 2 + fifth + third
        };
        let shares = whole.shares(&std::array::from_fn(triad));
        *parts = shares.map(|share| u32::from(share.unsigned_abs()));
    }
}

//! What is counted of all notes, in one walk over them.

use super::share::{Sums, Whole};
use super::triads::{BarTriads, FULL, Triads};
use super::view::{Bar, View};

/// The way that counts notes which return to the one before the last.
const RETURN: usize = 6;

/// How a note is reached, by its distance from the one before, from this many semitones down on; 8
/// is a way that is none of those.
const WAY: [u8; 16] = [8, 5, 8, 8, 8, 8, 3, 2, 7, 0, 1, 8, 8, 4, 8, 8];
const FARTHEST: i16 = 8;

/// Twelve pitch classes, and room up to a power of two: a place in it needs no check.
const CLASSES: usize = 16;

/// Heights from here on have a row each: none is lower, nor so much higher as there are rows.
const LOWEST: i16 = -48;
const HEIGHTS: usize = 256;

/// The notes of some strains, counted.
#[derive(Debug)]
pub(super) struct Notes {
    /// Sounding time by height.
    time: [i64; HEIGHTS],
    /// The lowest and the highest note.
    low: i16,
    high: i16,
    /// Notes on downbeats and on beats, by pitch class.
    down: [u32; CLASSES],
    beat: [u32; CLASSES],
    /// The squares of lengths: a long note counts for more than two short ones of its length.
    long: [i64; CLASSES],
    /// How often each pitch class is reached in each way.
    reached: [[u32; CLASSES]; CLASSES],
    /// How many notes are struck.
    pub(super) struck: i64,
    /// Triads of all bars, of those that strains begin with, of those that they come to rest in,
    /// and of those before them.
    pub(super) triads: [Triads; 4],
}

impl Notes {
    /// No notes yet.
    pub(super) fn none() -> Self {
        Self {
            time: [0; HEIGHTS],
            low: i16::MAX,
            high: i16::MIN,
            down: [0; CLASSES],
            beat: [0; CLASSES],
            long: [0; CLASSES],
            reached: [[0; CLASSES]; CLASSES],
            struck: 0,
            triads: [Triads::default(); 4],
        }
    }

    /// Counts the notes of a view, in the place where they are kept: they are some KiB.
    pub(super) fn count(&mut self, view: &View<'_>) {
        let all = self;
        // Bars are mostly of one time.
        let mut beat = Beat::of(1);
        let mut whole = Whole::of(0);
        // The two notes before; no note is so low.
        let (mut last, mut last_but_one) = (i16::MIN, i16::MIN);
        let (mut low, mut high) = (i16::MAX, i16::MIN);
        for &(first, end) in &view.strains {
            let (open, rest) = (view.opening_bar(first, end), view.rest_bar(first, end));
            for (number, bar) in (first..).zip(&view.bars[first..end]) {
                let notes = &view.notes[bar.first..bar.end];
                if notes.is_empty() {
                    continue;
                }
                if beat.beat != bar.beat {
                    beat = Beat::of(bar.beat);
                }
                let mut sounding = [0_u32; CLASSES];
                for note in notes {
                    let (class, midi) = (usize::from(note.class) % CLASSES, note.midi);
                    let ticks = i64::from(note.ticks);
                    sounding[class] = sounding[class].wrapping_add(note.ticks);
                    all.time[height(midi)] += ticks;
                    (low, high) = (low.min(midi), high.max(midi));
                    let beats = beat.sixty_fourths(note.ticks);
                    all.long[class] += beats.wrapping_mul(beats);
                    if note.held {
                        continue;
                    }
                    let at = if note.at < bar.full { note.at } else { note.at % bar.full };
                    all.struck += 1;
                    all.down[class] += u32::from(at == 0);
                    all.beat[class] += u32::from(beat.divides(at));
                    let by = midi.wrapping_sub(last).wrapping_add(FARTHEST).cast_unsigned();
                    let way = WAY[usize::from(by).min(WAY.len() - 1)];
                    all.reached[usize::from(way) % CLASSES][class] += 1;
                    all.reached[RETURN][class] += u32::from(midi == last_but_one);
                    (last_but_one, last) = (last, midi);
                }
                let triads = BarTriads::of(notes, bar, sounding, &mut whole);
                all.triads[0].add(&triads, weight(bar));
                for (which, at) in [(1, open), (2, rest), (3, rest.wrapping_sub(1))] {
                    if number == at {
                        all.triads[which].add(&triads, FULL);
                    }
                }
            }
        }
        (all.low, all.high) = (low, high);
    }

    /// The heights from the lowest to the highest that sounds, each with its time.
    pub(super) fn heights(&self) -> impl Iterator<Item = (i16, i64)> {
        (self.low..=self.high).map(|midi| (midi, self.time[height(midi)]))
    }

    /// Notes on downbeats, by pitch class.
    pub(super) fn down(&self) -> Sums {
        std::array::from_fn(|class| i64::from(self.down[class]))
    }

    /// Notes on beats, by pitch class.
    pub(super) fn beat(&self) -> Sums {
        std::array::from_fn(|class| i64::from(self.beat[class]))
    }

    /// The squares of lengths, by pitch class.
    pub(super) fn long(&self) -> Sums {
        std::array::from_fn(|class| self.long[class])
    }

    /// How often each pitch class is reached in a way, times four.
    pub(super) fn reached(&self, way: usize) -> Sums {
        std::array::from_fn(|class| 4 * i64::from(self.reached[way][class]))
    }

    /// The sounding time by pitch class.
    pub(super) fn time(&self) -> Sums {
        let mut time = [0; 12];
        for (midi, here) in self.heights() {
            time[crate::PitchClass::new(i32::from(midi)).index()] += here;
        }
        time
    }

    /// The lowest height, the one above it, and the highest; `None` where nothing sounds.
    pub(super) fn compass(&self) -> Option<(i16, Option<i16>, i16)> {
        let heights = self.heights().filter(|&(_, time)| time > 0);
        let mut heights = heights.map(|(midi, _)| midi);
        Some((heights.next()?, heights.next(), self.high))
    }
}

/// The length of a beat, and what tells its multiples and its parts without a division.
struct Beat {
    beat: u32,
    /// 2^64 over the beat, rounded up; nothing for a beat of one.
    inverse: u64,
    /// More than 2^40 over the beat, by at most one.
    part: u64,
}

impl Beat {
    fn of(beat: u32) -> Self {
        let beat = beat.max(1);
        let inverse = (u64::MAX / u64::from(beat)).wrapping_add(1);
        Self { beat, inverse, part: (1 << 40) / u64::from(beat) + 1 }
    }

    /// Whether a number is a multiple of the beat. Of `q` beats and `r` more, the product with the
    /// inverse is `r` inverses and less than 2^32, without what passes 2^64: less than one inverse
    /// for a multiple, and at least one for any other.
    #[inline]
    fn divides(&self, at: u32) -> bool {
        u64::from(at).wrapping_mul(self.inverse) <= self.inverse.wrapping_sub(1)
    }

    /// A length in sixty-fourths of the beat, rounded down. The product is too large by less than
    /// one beat's part as long as both are below 2^20.
    #[inline]
    fn sixty_fourths(&self, ticks: u32) -> i64 {
        let number = 64 * u64::from(ticks);
        let fits = number < 1 << 20 && self.beat < 1 << 20;
        let times = if fits { (number * self.part) >> 40 } else { number / u64::from(self.beat) };
        times.cast_signed()
    }
}

/// How much a bar counts: as much as it is full.
fn weight(bar: &Bar) -> i64 {
    if bar.length >= bar.full {
        return FULL;
    }
    i64::from(bar.length) * FULL / i64::from(bar.full)
}

/// The row of a height.
fn height(midi: i16) -> usize {
    usize::from((midi - LOWEST).unsigned_abs()) % HEIGHTS
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn multiples_and_parts_of_a_beat_are_told(beat in 1..=u32::MAX, at: u32, times: u32) {
            for beat in [beat, beat >> 16 | 1, beat >> 27 | 1] {
                let near = beat * (times % (u32::MAX / beat)).max(1);
                for at in [0, at, near - 1, near, near.saturating_add(1), u32::MAX] {
                    prop_assert_eq!(Beat::of(beat).divides(at), at.is_multiple_of(beat));
                    for ticks in [at, at >> 8, at >> 16, near >> 6] {
                        let times = 64 * u64::from(ticks) / u64::from(beat);
                        prop_assert_eq!(Beat::of(beat).sixty_fourths(ticks).cast_unsigned(), times);
                    }
                }
            }
        }
    }
}

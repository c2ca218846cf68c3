//! Fitting the weights: a softmax over 84 candidates, with weights tied across modes.
//!
//! A mode's weight is the sum of three: one that all modes share, one of the modes with the same
//! third, and a small one of its own. Rare modes so learn from common ones. Every tune is seen
//! twice, without its signature and with it.

use crate::{books::Example, lbfgs};
use modewright_core::find::inside::{BLOCKS, Features, PARENT_BLOCKS, SCALE, TABLE_LEN, TIES};
use modewright_core::{Mode, PitchClass};

/// Numbers of blocks by pitch class.
const WIDE: usize = BLOCKS.len() * 12;
/// Place of the signature's distances in a table.
const SIGNATURE: usize = WIDE + PARENT_BLOCKS.len();
/// Weights that are shared by all, by third, and by mode.
const SETS: usize = 1 + 2 + 7;
/// Steps of a fit that look at all candidates; later ones look at the likely ones.
const WIDE_STEPS: usize = 30;
/// How many candidates of a row are likely, by the first steps, without and with the signature.
const LIKELY: usize = 12;
/// Parts of the work; their sums are added in a fixed order.
const CHUNKS: usize = 64;

/// Loss and slope over a part of the rows.
type Part = (f64, Vec<[f32; TABLE_LEN]>);

/// Weights of the seven modes, in natural logarithms of odds per whole.
pub(crate) type Table = Vec<[f64; TABLE_LEN]>;

/// How strongly weights are held at zero.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Hold {
    /// Of a block whose measurements are [`USUAL`] in the mean square; others in proportion to
    /// theirs. Shared, by third, by mode.
    pub blocks: [f64; 3],
    /// Of all else: shared, by third, by mode.
    pub rest: [f64; 3],
}

impl Default for Hold {
    fn default() -> Self {
        Self { blocks: [400.0, 400.0, 400.0], rest: [0.1, 0.5, 1.0] }
    }
}

/// The measure of a block that is held just so strongly: the root of the mean of its squares.
const USUAL: f64 = 0.2;

/// One view of a tune, ready for the sums.
pub(crate) struct Row {
    /// Each block twice in a row, so that a turned block is a slice.
    blocks: Vec<f32>,
    parents: Vec<[f32; 12]>,
    signature: usize,
    answer: usize,
    weight: f64,
    /// The candidates that are summed over; all of them before [`keep_likely`].
    candidates: Vec<usize>,
}

/// The candidate that a tune is taken for.
pub(crate) fn candidate(home: PitchClass, mode: Mode) -> usize {
    home.index() * 7 + mode.index()
}

fn scaled(value: i16) -> f32 {
    #[expect(clippy::cast_precision_loss, reason = "1024")]
    let scale = SCALE as f32;
    f32::from(value) / scale
}

impl Row {
    pub(crate) fn new(features: &Features, signature: i8, answer: usize, weight: f64) -> Self {
        let twice = (0..BLOCKS.len()).flat_map(|b| [features.block(b); 2].concat()).map(scaled);
        let class = PitchClass::new(i32::from(signature) * 7);
        Self {
            blocks: twice.collect(),
            parents: features.parents.iter().map(|b| b.map(scaled)).collect(),
            signature: class.index(),
            answer,
            weight,
            candidates: (0..84).collect(),
        }
    }

    /// Scores without and with the signature; those of candidates that are left out are so low
    /// that they have no chance.
    fn scores(&self, table: &[[f32; TABLE_LEN]]) -> [[f64; 84]; 2] {
        let mut scores = [[-1e9; 84]; 2];
        for &at in &self.candidates {
            let (home, mode) = (at / 7, Mode::ALL[at % 7]);
            let weights = &table[mode.index()];
            let mut sums = [0.0_f32; 12];
            for (block, weights) in self.blocks.chunks_exact(24).zip(weights.chunks_exact(12)) {
                let turned = &block[home..home + 12];
                for i in 0..12 {
                    sums[i] += turned[i] * weights[i];
                }
            }
            let mut sum: f64 = sums.iter().map(|&s| f64::from(s)).sum();
            let parent = parent(home, mode);
            for (block, weight) in self.parents.iter().zip(&weights[WIDE..]) {
                sum += f64::from(block[parent]) * f64::from(*weight);
            }
            sum += f64::from(weights[TABLE_LEN - 2]);
            let distance = (parent + 12 - self.signature) % 12;
            let known = weights[SIGNATURE + distance] + weights[TABLE_LEN - 1];
            scores[0][at] = sum;
            scores[1][at] = sum + f64::from(known);
        }
        scores
    }

    /// Adds this row's part of the slope; `pull` is chance minus truth, without and with.
    fn slope(&self, pull: &[[f64; 84]; 2], to: &mut [[f32; TABLE_LEN]]) {
        for &at in &self.candidates {
            let (without, with) = (pull[0][at], pull[1][at]);
            // Too little to be felt, and most of the work.
            if without.abs() < 1e-5 && with.abs() < 1e-5 {
                continue;
            }
            #[expect(clippy::cast_possible_truncation, reason = "speed matters more than digits")]
            let (both, with) = ((without + with) as f32, with as f32);
            let (home, mode) = (at / 7, Mode::ALL[at % 7]);
            let slope = &mut to[mode.index()];
            for (block, slope) in self.blocks.chunks_exact(24).zip(slope.chunks_exact_mut(12)) {
                let turned = &block[home..home + 12];
                for i in 0..12 {
                    slope[i] += both * turned[i];
                }
            }
            let parent = parent(home, mode);
            for (i, block) in self.parents.iter().enumerate() {
                slope[WIDE + i] += both * block[parent];
            }
            slope[TABLE_LEN - 2] += both;
            let distance = (parent + 12 - self.signature) % 12;
            slope[SIGNATURE + distance] += with;
            slope[TABLE_LEN - 1] += with;
        }
    }
}

/// Leaves each row its most likely candidates, without and with the signature, and the answer:
/// the others have no part in the sums that is worth their time.
fn keep_likely(rows: &mut [Row], table: &[[f32; TABLE_LEN]]) {
    for row in rows {
        let mut kept = vec![row.answer];
        for scores in row.scores(table) {
            let mut order: Vec<usize> = (0..84).collect();
            order.sort_by(|&a, &b| scores[b].total_cmp(&scores[a]));
            kept.extend_from_slice(&order[..LIKELY]);
        }
        kept.sort_unstable();
        kept.dedup();
        row.candidates = kept;
    }
}

/// First degree of the parent major scale.
fn parent(home: usize, mode: Mode) -> usize {
    let degree = [0, 2, 4, 5, 7, 9, 11][mode.index()];
    (home + 12 - degree) % 12
}

/// The rows of some examples: books weighed by the inverse root of their size, modes by how rare
/// they are, so that the common ones do not drown the rest.
pub(crate) fn rows(examples: &[&Example]) -> Vec<Row> {
    let mut by_book = [0_u32; crate::books::BOOKS.len()];
    let mut by_mode = [0_u32; 7];
    for example in examples {
        by_book[example.book] += 1;
        by_mode[example.label.mode.index()] += 1;
    }
    let most = f64::from(by_mode.iter().copied().max().unwrap_or(1));
    let weight = |e: &Example| {
        let book = f64::from(by_book[e.book].max(1));
        let mode = f64::from(by_mode[e.label.mode.index()].max(1));
        libm::pow(book, -0.5) * libm::pow(most / mode, 0.35)
    };
    let total: f64 = examples.iter().map(|e| weight(e)).sum();
    #[expect(clippy::cast_precision_loss, reason = "thousands")]
    let scale = examples.len() as f64 / total;
    let mut rows = crate::made::scales();
    for example in examples {
        let answer = candidate(example.label.home.pitch_class(), example.label.mode);
        for (features, share) in &example.views {
            let weight = weight(example) * scale * share;
            rows.push(Row::new(features, example.signature, answer, weight));
        }
    }
    rows
}

/// Softmax in place; gives the logarithm of the chance of the answer.
fn softmax(scores: &mut [f64; 84], answer: usize) -> f64 {
    let best = scores.iter().copied().fold(f64::MIN, f64::max);
    let mut total = 0.0;
    for score in scores.iter_mut() {
        *score = libm::exp(*score - best);
        total += *score;
    }
    for score in scores.iter_mut() {
        *score /= total;
    }
    libm::log(scores[answer].max(1e-30))
}

/// The table of the three tied sets.
fn combined(theta: &[f64]) -> Table {
    let set = |i: usize, k: usize| theta[i * TABLE_LEN + k];
    (0..7)
        .map(|mode| std::array::from_fn(|k| set(0, k) + set(1 + TIES[mode], k) + set(3 + mode, k)))
        .collect()
}

fn narrow(table: &Table) -> Vec<[f32; TABLE_LEN]> {
    #[expect(clippy::cast_possible_truncation, reason = "speed matters more than digits here")]
    let narrow = |row: &[f64; TABLE_LEN]| row.map(|w| w as f32);
    table.iter().map(narrow).collect()
}

/// The measure of each block over all rows.
///
/// Held alike, blocks of small numbers (shares of the time) would have no say beside those that
/// name one note with a one.
fn measures(rows: &[Row]) -> Vec<f64> {
    let mut sums = vec![0.0; BLOCKS.len()];
    for row in rows {
        for (sum, block) in sums.iter_mut().zip(row.blocks.chunks_exact(24)) {
            *sum += block[..12].iter().map(|&v| f64::from(v) * f64::from(v)).sum::<f64>();
        }
    }
    #[expect(clippy::cast_precision_loss, reason = "thousands")]
    let count = 12.0 * rows.len().max(1) as f64;
    sums.into_iter().map(|sum| libm::sqrt(sum / count)).collect()
}

/// Fits a table to rows.
pub(crate) fn fit(mut rows: Vec<Row>, hold: Hold, steps: usize) -> Table {
    let measures = measures(&rows);
    let measures = &measures;
    let holds: Vec<f64> = (0..SETS)
        .flat_map(|set| {
            let level = match set {
                0 => 0,
                1 | 2 => 1,
                _ => 2,
            };
            (0..TABLE_LEN).map(move |k| match k {
                k if k < WIDE => hold.blocks[level] * measures[k / 12] / USUAL,
                // The constants belong to the modes alone.
                k if k >= TABLE_LEN - 2 => [1e3, 1.0, 0.1][level],
                _ => hold.rest[level],
            })
        })
        .collect();
    let start = vec![0.0; SETS * TABLE_LEN];
    let first = descend(&rows, &holds, start, steps.min(WIDE_STEPS));
    keep_likely(&mut rows, &narrow(&combined(&first)));
    combined(&descend(&rows, &holds, first, steps.saturating_sub(WIDE_STEPS)))
}

/// Goes down from a place by so many steps.
fn descend(rows: &[Row], holds: &[f64], start: Vec<f64>, steps: usize) -> Vec<f64> {
    lbfgs::minimise(start, steps, |theta, slope| {
        let table = narrow(&combined(theta));
        let (loss, sums) = loss_and_slope(rows, &table);
        slope.fill(0.0);
        for (mode, sums) in sums.iter().enumerate() {
            for set in [0, 1 + TIES[mode], 3 + mode] {
                for (to, from) in slope[set * TABLE_LEN..].iter_mut().zip(sums) {
                    *to += from;
                }
            }
        }
        let mut held = 0.0;
        for ((slope, theta), hold) in slope.iter_mut().zip(theta).zip(holds) {
            *slope += hold * theta;
            held += 0.5 * hold * theta * theta;
        }
        loss + held
    })
}

/// Loss and slope over all rows, on all cores, summed in a fixed order.
fn loss_and_slope(rows: &[Row], table: &[[f32; TABLE_LEN]]) -> (f64, Table) {
    let size = rows.len().div_ceil(CHUNKS).max(1);
    let chunks: Vec<&[Row]> = rows.chunks(size).collect();
    let work = |chunk: &[Row]| {
        let mut slope = vec![[0.0_f32; TABLE_LEN]; 7];
        let mut loss = 0.0;
        for row in chunk {
            let mut scores = row.scores(table);
            for scores in &mut scores {
                loss -= row.weight * softmax(scores, row.answer);
                scores[row.answer] -= 1.0;
                scores.iter_mut().for_each(|s| *s *= row.weight);
            }
            row.slope(&scores, &mut slope);
        }
        (loss, slope)
    };
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let next = std::sync::atomic::AtomicUsize::new(0);
    let mut parts: Vec<(usize, Part)> = std::thread::scope(|scope| {
        let worker = || {
            let mut done = Vec::new();
            loop {
                let i = next.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
                let Some(chunk) = chunks.get(i) else { return done };
                done.push((i, work(chunk)));
            }
        };
        let threads: Vec<_> = (0..cores).map(|_| scope.spawn(worker)).collect();
        threads.into_iter().flat_map(|t| t.join().unwrap_or_default()).collect()
    });
    parts.sort_by_key(|(i, _)| *i);
    let mut loss = 0.0;
    let mut slope = vec![[0.0; TABLE_LEN]; 7];
    for (_, (part_loss, part_slope)) in parts {
        loss += part_loss;
        for (to, from) in slope.iter_mut().zip(part_slope) {
            for (to, from) in to.iter_mut().zip(from) {
                *to += f64::from(from);
            }
        }
    }
    (loss, slope)
}

/// The divisor of scores that makes chances fit best on rows that the fit has not seen, without
/// and with the signature.
pub(crate) fn temperatures(table: &Table, rows: &[Row]) -> [f64; 2] {
    let table = narrow(table);
    let scores: Vec<_> = rows.iter().map(|row| row.scores(&table)).collect();
    [0, 1].map(|which| {
        let loss = |t: f64| -> f64 {
            rows.iter()
                .zip(&scores)
                .map(|(row, scores)| {
                    let mut scores = scores[which].map(|s| s / t);
                    -row.weight * softmax(&mut scores, row.answer)
                })
                .sum()
        };
        // The loss has one lowest place: narrow it down by thirds.
        let (mut low, mut high) = (0.3, 3.0);
        for _ in 0..40 {
            let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
            if loss(a) < loss(b) { high = b } else { low = a }
        }
        (low + high) / 2.0
    })
}

/// Scores of an example as a whole, without and with its signature.
pub(crate) fn judge(table: &Table, example: &Example) -> [[f64; 84]; 2] {
    let row = Row::new(&example.views[0].0, example.signature, 0, 1.0);
    row.scores(&narrow(table))
}

//! The score: a sum of weights times measurements, in integers.

use super::{
    features::{BLOCKS, Features, PARENT_BLOCKS, TABLE_LEN},
    finding::Chance,
    weights,
};
use crate::{Mode, PitchClass, Spelling, order};

/// What the user already knows: home, mode or both are fixed, the rest is judged given them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Given {
    /// The home note.
    pub home: Option<Spelling>,
    /// The mode.
    pub mode: Option<Mode>,
}

impl Given {
    /// Whether nothing is known.
    #[must_use]
    pub const fn is_nothing(self) -> bool {
        self.home.is_none() && self.mode.is_none()
    }

    fn allows(self, home: PitchClass, mode: Mode) -> bool {
        self.home.is_none_or(|h| h.pitch_class() == home) && self.mode.is_none_or(|m| m == mode)
    }
}

/// Number of candidates: 12 homes × 7 modes.
pub(super) const CANDIDATES: usize = 84;

/// Groups of modes that share a part of their weights: those with a major third, those with a
/// minor one. By [`Mode::index`].
pub const TIES: [usize; 7] = [0, 1, 1, 0, 0, 1, 1];

/// A table of weights.
///
/// A weight counts in parts of a 256th of a natural unit of evidence per [`super::inside::SCALE`].
#[derive(Clone, Copy, Debug)]
pub struct Model<'a> {
    /// By [`Mode::index`], then the places of [`TABLE_LEN`].
    pub weights: &'a [[i16; TABLE_LEN]; 7],
    /// Scores are divided by this to become natural logarithms of odds, without and with a
    /// signature.
    pub divisor: [i32; 2],
}

/// Weights that belong to a block and a pitch class.
const BY_CLASS: usize = BLOCKS.len() * 12;

/// The scores of all candidates, by home then by [`Mode::index`].
pub(super) type Scores = [i64; CANDIDATES];

impl Model<'_> {
    /// The fitted one.
    pub const FITTED: Model<'static> =
        Model { weights: &weights::WEIGHTS, divisor: weights::DIVISOR };

    /// Home and mode of a candidate.
    pub(super) fn candidate(index: usize) -> (PitchClass, Mode) {
        let home = i32::try_from(index / 7).unwrap_or(0);
        (PitchClass::new(home), Mode::ALL[index % 7])
    }

    /// Adds up all candidates.
    #[must_use]
    pub(super) fn scores(&self, features: &Features) -> Scores {
        let mut scores = [0; CANDIDATES];
        // Each block twice over, so that every turn of it is one piece of fixed length.
        let mut twice = [[0_i16; 24]; BLOCKS.len()];
        for (twice, block) in twice.iter_mut().zip(&features.blocks) {
            twice[..12].copy_from_slice(block);
            twice[12..].copy_from_slice(block);
        }
        let mut turned = [0_i16; BY_CLASS];
        for home in 0..12 {
            for (to, twice) in turned.chunks_exact_mut(12).zip(&twice) {
                to.copy_from_slice(&twice[home..home + 12]);
            }
            for mode in Mode::ALL {
                let weights = &self.weights[mode.index()];
                let sum = dot(&turned, weights);
                scores[home * 7 + mode.index()] =
                    i64::from(sum) + Self::rest(weights, features, home, mode);
            }
        }
        scores
    }

    /// What is not a block by pitch class: parent blocks, signature, constants.
    fn rest(weights: &[i16; TABLE_LEN], features: &Features, home: usize, mode: Mode) -> i64 {
        let parent = parent(home, mode);
        let scale = i64::from(super::features::SCALE);
        let at = BLOCKS.len() * 12;
        let parents: i64 = features
            .parents
            .iter()
            .zip(&weights[at..])
            .map(|(block, &weight)| i64::from(block[parent]) * i64::from(weight))
            .sum();
        let constant = i64::from(weights[TABLE_LEN - 2]) * scale;
        let Some(signature) = features.signature else { return parents + constant };
        let distance = (parent + 12 - usize::from(signature)) % 12;
        let signature = i64::from(weights[at + PARENT_BLOCKS.len() + distance]) * scale;
        parents + constant + signature + i64::from(weights[TABLE_LEN - 1]) * scale
    }

    /// The contribution of each block to one candidate, then of each parent block, of the
    /// signature and of the constants: [`BLOCKS`] + parents + 2 numbers that add up to its score.
    ///
    /// What a signature says to a mode that it is exactly the signature of is the same for all
    /// modes; how the modes differ in it belongs to the constants.
    pub(super) fn contributions(&self, features: &Features, index: usize) -> Vec<i64> {
        let (home, mode) = (index / 7, Mode::ALL[index % 7]);
        let weights = &self.weights[mode.index()];
        let mut parts: Vec<i64> = features
            .blocks
            .iter()
            .zip(weights.chunks_exact(12))
            .map(|(block, weights)| {
                (0..12).map(|i| i64::from(block[(home + i) % 12]) * i64::from(weights[i])).sum()
            })
            .collect();
        let parent = parent(home, mode);
        let at = BLOCKS.len() * 12;
        for (block, &weight) in features.parents.iter().zip(&weights[at..]) {
            parts.push(i64::from(block[parent]) * i64::from(weight));
        }
        let scale = i64::from(super::features::SCALE);
        let known = features.signature.map(|signature| {
            let distance = (parent + 12 - usize::from(signature)) % 12;
            let weight = |distance: usize| i64::from(weights[at + PARENT_BLOCKS.len() + distance]);
            (weight(distance) - weight(0), weight(0) + i64::from(weights[TABLE_LEN - 1]))
        });
        let (signature, with) = known.unwrap_or((0, 0));
        parts.push(signature * scale);
        parts.push((i64::from(weights[TABLE_LEN - 2]) + with) * scale);
        parts
    }

    /// A difference of scores as a natural logarithm of odds.
    pub(super) fn nats(&self, difference: i64, signature: bool) -> f64 {
        #[expect(clippy::cast_precision_loss, reason = "scores are far below 2^52")]
        let difference = difference as f64;
        difference / f64::from(self.divisor[usize::from(signature)])
    }

    /// Chances of all candidates that are allowed; they sum to one but for rounding.
    pub(super) fn chances(
        &self,
        scores: &Scores,
        signature: bool,
        given: Given,
    ) -> Vec<(usize, Chance)> {
        let allowed = |&index: &usize| {
            let (home, mode) = Self::candidate(index);
            given.allows(home, mode)
        };
        let mut order: Vec<usize> = (0..CANDIDATES).filter(allowed).collect();
        // Ties break by home, then by mode.
        order::short(&mut order, |&i| (std::cmp::Reverse(scores[i]), i));
        let Some(&best) = order.first() else { return Vec::new() };
        let odds: Vec<f64> = order
            .iter()
            .map(|&i| libm::exp(self.nats(scores[i] - scores[best], signature)))
            .collect();
        let total: f64 = odds.iter().sum();
        let parts = |odds: f64| {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "between 0 and 10 000"
            )]
            Chance::from_ten_thousandths((odds / total * 10_000.0 + 0.5) as u16)
        };
        order.into_iter().zip(odds).map(|(i, o)| (i, parts(o))).collect()
    }
}

/// Weighs all blocks. A plain loop of a fixed length, which the compiler turns into one that
/// takes eight products at a time: this is most of the work of finding.
fn dot(values: &[i16; BY_CLASS], weights: &[i16; TABLE_LEN]) -> i32 {
    let mut sum = 0_i32;
    for i in 0..BY_CLASS {
        sum = sum.wrapping_add(i32::from(values[i]) * i32::from(weights[i]));
    }
    sum
}

/// First degree of the parent major scale of a candidate, as a pitch class.
fn parent(home: usize, mode: Mode) -> usize {
    let degree = usize::from(crate::degree::MAJOR[mode.index()]);
    (home + 12 - degree) % 12
}

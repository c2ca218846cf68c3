//! The score: a sum of weights times measurements, in integers.

use super::{
    circle::{Turned, WIDTH, Weights},
    features::{BLOCKS, Features, KEPT, Kept, PARENT_BLOCKS, SCALE, SINGLES, TABLE_LEN},
    finding::Chance,
    weights,
};
use crate::{Mode, PitchClass, Spelling};
use std::sync::LazyLock;

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

    /// Whether a candidate is left, by its place in the scores.
    fn allows(self, index: usize) -> bool {
        self.is_nothing() || {
            let (home, mode) = Model::candidate(index);
            self.home.is_none_or(|h| h.pitch_class() == home) && self.mode.is_none_or(|m| m == mode)
        }
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
#[derive(Clone, Debug)]
pub struct Model {
    /// By [`Mode::index`], then the places of [`TABLE_LEN`].
    weights: [[i16; TABLE_LEN]; 7],
    /// Scores are divided by this to become natural logarithms of odds, without and with a
    /// signature.
    divisor: [i32; 2],
    /// The weights of blocks that speak of all notes, by mode.
    circles: [Weights; 7],
    /// The weights of blocks that speak of one note: nothing, for those that speak of none, then
    /// by how far home lies above the note, from an octave below on, each distance by mode.
    singles: Box<[[i16; CANDIDATES + 24 * 7]; SINGLES]>,
    /// The weights of distances from a signature, by mode, three times round.
    distances: [[i16; 36]; 7],
}

/// The scores of all candidates, by home then by [`Mode::index`].
pub(super) type Scores = [i64; CANDIDATES];

impl Model {
    /// The fitted one.
    #[must_use]
    pub fn fitted() -> &'static Self {
        static FITTED: LazyLock<Model> =
            LazyLock::new(|| Model::new(&weights::WEIGHTS, weights::DIVISOR));
        &FITTED
    }

    /// Lays a table out for scoring.
    pub(super) fn new(weights: &[[i16; TABLE_LEN]; 7], divisor: [i32; 2]) -> Self {
        let mut singles = Box::new([[0; CANDIDATES + 24 * 7]; SINGLES]);
        let mut circles = [[[0; WIDTH]; 12]; 7];
        for (block, kept) in KEPT.into_iter().enumerate() {
            for (mode, weights) in weights.iter().enumerate() {
                let weights = &weights[block * 12..block * 12 + 12];
                match kept {
                    Kept::Single(single) => {
                        for above in 0..24 {
                            singles[single][CANDIDATES + above * 7 + mode] =
                                weights[(24 - above) % 12];
                        }
                    }
                    Kept::Circle(circle) => {
                        for (row, weight) in circles[mode].iter_mut().zip(weights) {
                            row[circle] = *weight;
                        }
                    }
                }
            }
        }
        let first = BLOCKS.len() * 12 + PARENT_BLOCKS.len();
        let distances =
            weights.each_ref().map(|weights| std::array::from_fn(|i| weights[first + i % 12]));
        let circles = circles.each_ref().map(Weights::of);
        Self { weights: *weights, divisor, circles, singles, distances }
    }

    /// The weights, by [`Mode::index`], then the places of [`TABLE_LEN`].
    pub(super) const fn weights(&self) -> &[[i16; TABLE_LEN]; 7] {
        &self.weights
    }

    /// Home and mode of a candidate.
    pub(super) fn candidate(index: usize) -> (PitchClass, Mode) {
        let home = i32::try_from(index / 7).unwrap_or(0);
        (PitchClass::new(home), Mode::ALL[index % 7])
    }

    /// Adds up all candidates.
    #[must_use]
    pub(super) fn scores(&self, features: &Features) -> Scores {
        let mut singles = [0_i16; CANDIDATES];
        for (class, rows) in features.singles.iter().zip(self.singles.iter()) {
            let from = (24 - usize::from(class.unwrap_or(24)).min(24)) * 7;
            for (sum, weight) in singles.iter_mut().zip(&rows[from..from + CANDIDATES]) {
                *sum += weight;
            }
        }
        let mut scores = [0; CANDIDATES];
        let turned = Turned::of(&features.circles);
        // Twice round, so that they are read straight on.
        let parents = features.parents.map(|block| std::array::from_fn(|i| block[i % 12]));
        for (mode, weights) in Mode::ALL.into_iter().zip(&self.circles) {
            let rest = self.rest(&parents, features.signature, mode);
            let circles = turned.times(weights);
            for home in 0..12 {
                let at = home * 7 + mode.index();
                let single = i64::from(singles[at]) * i64::from(SCALE);
                scores[at] = single + circles[home] + rest[home];
            }
        }
        scores
    }

    /// What is not a block by pitch class: parent blocks, signature, constants; for each home.
    fn rest(
        &self,
        parents: &[[i16; 24]; PARENT_BLOCKS.len()],
        signature: Option<u8>,
        mode: Mode,
    ) -> [i64; 12] {
        let weights = &self.weights[mode.index()];
        let scale = i64::from(SCALE);
        let at = BLOCKS.len() * 12;
        let known = signature.map(usize::from);
        let constant = i64::from(weights[TABLE_LEN - 2])
            + known.map_or(0, |_| i64::from(weights[TABLE_LEN - 1]));
        // Read on from here, homes have their parents in order.
        let from = 12 - usize::from(crate::degree::MAJOR[mode.index()]);
        let mut rest = [constant * scale; 12];
        if let Some(signature) = known {
            let distances = &self.distances[mode.index()][from + 12 - signature % 12..];
            for (rest, &distance) in rest.iter_mut().zip(distances) {
                *rest += i64::from(distance) * scale;
            }
        }
        for (block, &weight) in parents.iter().zip(&weights[at..]) {
            for (rest, &part) in rest.iter_mut().zip(&block[from % 12..]) {
                *rest += i64::from(i32::from(part) * i32::from(weight));
            }
        }
        rest
    }

    /// The contribution of each block to one candidate, then of each parent block, of the
    /// signature and of the constants: [`BLOCKS`] + parents + 2 numbers that add up to its score.
    ///
    /// What a signature says to a mode that it is exactly the signature of is the same for all
    /// modes; how the modes differ in it belongs to the constants.
    pub(super) fn contributions(&self, features: &Features, index: usize) -> Vec<i64> {
        let (home, mode) = (index / 7, Mode::ALL[index % 7]);
        let weights = &self.weights[mode.index()];
        let mut parts: Vec<i64> = weights
            .chunks_exact(12)
            .take(BLOCKS.len())
            .enumerate()
            .map(|(block, weights)| {
                let part = |(place, &weight): (usize, &i16)| {
                    i64::from(features.at(block, (home + place) % 12)) * i64::from(weight)
                };
                weights.iter().enumerate().map(part).sum()
            })
            .collect();
        let parent = parent(home, mode);
        let at = BLOCKS.len() * 12;
        for (block, &weight) in features.parents.iter().zip(&weights[at..]) {
            parts.push(i64::from(block[parent]) * i64::from(weight));
        }
        let scale = i64::from(SCALE);
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

    /// Chances of all candidates that are allowed.
    pub(super) fn chances(&self, scores: &Scores, features: &Features, given: Given) -> Chances {
        let signature = features.signature.is_some();
        let far = UNHEARD * i64::from(self.divisor[usize::from(signature)]);
        // From the tune's first note up: ties break by home in that order, so that they move with
        // the tune, then by mode. What is not allowed is farther behind than anything.
        let from = features.first_home();
        let index = |place: usize| (from + place) % CANDIDATES;
        let mut turned = *scores;
        turned.rotate_left(from);
        if !given.is_nothing() {
            for (place, score) in turned.iter_mut().enumerate() {
                if !given.allows(index(place)) {
                    *score = FORBIDDEN;
                }
            }
        }
        let best = turned.iter().fold(FORBIDDEN, |best, &score| best.max(score));
        // The places of those that are near, listed without a branch.
        let (mut near, mut count) = ([0_u8; CANDIDATES.next_power_of_two()], 0);
        for (place, &score) in (0_u8..).zip(&turned) {
            near[count % near.len()] = place;
            count += usize::from(best - score < far && score != FORBIDDEN);
        }
        let near = &near[..count];
        let mut ranks = [u64::MAX; RANKED];
        let rank = |place: u8, score: i64| score.abs_diff(best) << 8 | u64::from(place);
        let (mut odds, mut total) = ([0.0; CANDIDATES], 0.0);
        for &place in near {
            let score = turned[usize::from(place)];
            insert(&mut ranks, rank(place, score));
            odds[usize::from(place)] = libm::exp(self.nats(score - best, signature));
            total += odds[usize::from(place)];
        }
        // Where few are near, those that are far are ranked too.
        if near.len() < RANKED {
            for (place, &score) in (0_u8..).zip(&turned) {
                if score != FORBIDDEN && !near.contains(&place) {
                    insert(&mut ranks, rank(place, score));
                }
            }
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between 0 and 10 000"
        )]
        let chance =
            |odds: f64| Chance::from_ten_thousandths((odds / total * 10_000.0 + 0.5) as u16);
        let mut chances =
            Chances { ranked: [(0, Chance::default()); RANKED], count: 0, homes: [0; 12] };
        for &place in near {
            // Most are too unlikely to be a ten-thousandth when rounded.
            let odds = odds[usize::from(place)];
            if odds * 25_000.0 > total {
                let home = index(usize::from(place)) / 7;
                chances.homes[home] += u32::from(chance(odds).ten_thousandths());
            }
        }
        for rank in ranks.into_iter().filter(|&rank| rank != u64::MAX) {
            #[expect(clippy::cast_possible_truncation, reason = "a byte is kept")]
            let place = usize::from(rank as u8);
            chances.ranked[chances.count % RANKED] = (index(place), chance(odds[place]));
            chances.count += 1;
        }
        chances
    }
}

/// Puts a number into a short list that is in order, whose last falls out.
fn insert(list: &mut [u64; RANKED], mut number: u64) {
    if number >= list[RANKED - 1] {
        return;
    }
    for place in list {
        if number < *place {
            std::mem::swap(place, &mut number);
        }
    }
}

/// The score of a candidate that is not allowed.
const FORBIDDEN: i64 = i64::MIN / 4;

/// How many candidates are ranked.
const RANKED: usize = 6;
/// From so many natural units behind the best on, odds are not counted: of all candidates together
/// they are less than a hundred-millionth of the best's, and chances are told in ten-thousandths.
const UNHEARD: i64 = 23;

/// How likely candidates are.
#[derive(Clone, Debug)]
pub(super) struct Chances {
    ranked: [(usize, Chance); RANKED],
    count: usize,
    /// Each home, whatever its mode, in ten-thousandths.
    pub homes: [u32; 12],
}

impl Chances {
    /// The likeliest, from the best on, by their places in the scores; fewer where fewer are
    /// allowed.
    pub(super) fn ranked(&self) -> &[(usize, Chance)] {
        &self.ranked[..self.count]
    }
}

/// First degree of the parent major scale of a candidate, as a pitch class.
fn parent(home: usize, mode: Mode) -> usize {
    let degree = usize::from(crate::degree::MAJOR[mode.index()]);
    (home + 12 - degree) % 12
}

//! What a height costs a player, and why.

use crate::Signature;
use crate::instrument::Instrument;

/// Kinds of reasons, in the order in which a player asks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ReasonKind {
    /// Notes that cannot be played.
    Missing,
    /// Notes that are hard to sound or to tune.
    Awkward,
    /// Notes in common use, but not among a learner's first.
    Fair,
    /// Notes outside the comfortable span.
    Outside,
    /// How far the tune moves from where it stands.
    Distance,
    /// A key that is not among those that lie well.
    Key,
    /// Sharps and flats of the signature.
    Signature,
}

impl ReasonKind {
    /// All kinds.
    pub const ALL: [Self; 7] = [
        Self::Missing,
        Self::Awkward,
        Self::Fair,
        Self::Outside,
        Self::Distance,
        Self::Key,
        Self::Signature,
    ];
}

/// A reason with its cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Reason {
    /// What it speaks of.
    pub kind: ReasonKind,
    /// How many: notes, semitones up or down, or sharps (positive) and flats (negative).
    pub number: i32,
    /// What it costs, in tenths of a semitone's move.
    pub cost: u32,
}

/// A missing note outweighs all else that a height can cost.
pub(super) const MISSING: u32 = 10_000;
/// The most that anything but missing notes costs together.
const MOST: u32 = MISSING - 1;
/// What a semitone away costs.
const SEMITONE: u32 = 10;
/// What an octave away costs: the names of the notes stay.
const OCTAVE: u32 = 30;
/// What a sharp or flat costs.
const ACCIDENTAL: u32 = 10;
/// What a key costs that does not lie well.
const OTHER_KEY: u32 = 40;
/// What notes outside the comfortable span cost, if all lay there.
const OUTSIDE: u32 = 200;
/// What notes of one point each cost, if all were such (see
/// [`Costs`](crate::instrument::Costs)).
const POINT: u32 = 200;

/// What folded notes cost, if all were folded.
const FOLDED: u32 = 400;
/// What a better height must save, so that a tune that can be played is moved: a move of four
/// semitones.
pub(super) const WORTH_MOVING: u32 = 40;

/// What a height costs with its missing notes folded.
pub(super) fn folded_cost(reasons: &[Reason], all: u32) -> u32 {
    let costs = reasons.iter().map(|reason| match reason.kind {
        ReasonKind::Missing => share(reason.number.unsigned_abs(), FOLDED, all),
        _ => reason.cost,
    });
    costs.fold(0, u32::saturating_add)
}

/// The cost of some of all notes, where all together cost so much; rounded up.
fn share(count: u32, weight: u32, all: u32) -> u32 {
    let whole = u64::from(count) * u64::from(weight);
    u32::try_from(whole.div_ceil(u64::from(all.max(1)))).unwrap_or(MOST)
}

/// Counts of sounding notes.
#[derive(Debug, Default)]
pub(super) struct Tally {
    pub(super) all: u32,
    pub(super) missing: u32,
    pub(super) awkward: u32,
    pub(super) fair: u32,
    pub(super) outside: u32,
}

impl Tally {
    /// The reasons that cost something.
    pub(super) fn reasons(
        &self,
        instrument: &Instrument,
        semitones: i16,
        signature: Option<Signature>,
    ) -> Vec<Reason> {
        let costs = instrument.costs();
        let share = |count, weight| share(count, weight, self.all);
        let is_liked = match signature {
            Some(signature) => instrument.liked.is_empty() || instrument.liked.contains(&signature),
            None => true,
        };
        let fifths = signature.map_or(0, Signature::fifths);
        let number = |count: u32| i32::try_from(count).unwrap_or(i32::MAX);
        let mut left = MOST;
        let mut reasons = Vec::new();
        for (kind, number, cost) in [
            (ReasonKind::Missing, number(self.missing), self.missing.saturating_mul(MISSING)),
            (
                ReasonKind::Awkward,
                number(self.awkward),
                share(self.awkward, POINT * u32::from(costs.awkward)),
            ),
            (ReasonKind::Fair, number(self.fair), share(self.fair, POINT * u32::from(costs.fair))),
            (ReasonKind::Outside, number(self.outside), share(self.outside, OUTSIDE)),
            (ReasonKind::Distance, semitones.into(), distance(semitones)),
            (ReasonKind::Key, fifths.into(), if is_liked { 0 } else { OTHER_KEY }),
            (ReasonKind::Signature, fifths.into(), u32::from(fifths.unsigned_abs()) * ACCIDENTAL),
        ] {
            let cost = if kind == ReasonKind::Missing { cost } else { cost.min(left) };
            if kind != ReasonKind::Missing {
                left -= cost;
            }
            if cost > 0 {
                reasons.push(Reason { kind, number, cost });
            }
        }
        reasons
    }
}

/// What a move costs: by octaves as far as that is less, the rest by semitones.
fn distance(semitones: i16) -> u32 {
    let size = u32::from(semitones.unsigned_abs());
    let (octaves, rest) = (size / 12, size % 12);
    let below = octaves * OCTAVE + rest * SEMITONE;
    let above = (octaves + 1) * OCTAVE + (12 - rest) * SEMITONE;
    below.min(above)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_octave_is_nearer_than_a_fifth() {
        for (semitones, cost) in
            [(0, 0), (1, 10), (-5, 50), (7, 70), (8, 70), (12, 30), (-12, 30), (13, 40), (24, 60)]
        {
            assert_eq!(distance(semitones), cost, "{semitones}");
        }
    }
}

//! What spoke for the answer: the model's own contributions, gathered by kind.

use super::{
    features::{BLOCKS, Features, PARENT_BLOCKS},
    model::Model,
    view::View,
};
use crate::{Key, PitchClass, PitchSet, Spelling, Tune, order};

/// What a contribution speaks of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum EvidenceKind {
    /// How long each note sounds.
    Time,
    /// What falls on the beats, and the long notes.
    Stress,
    /// The first strong note of the tune.
    FirstStrong,
    /// The opening bars of the strains.
    Opening,
    /// The note that the tune comes to rest on.
    LastNote,
    /// The notes that the strains come to rest on.
    StrainEnds,
    /// The bars that lead to the rest.
    Cadence,
    /// Where the tune lies: lowest, highest, low and high notes.
    Register,
    /// Bars that spell out a triad.
    Triads,
    /// Which of two neighbouring notes is used.
    Forms,
    /// How notes are reached and returned to.
    Motif,
    /// Notes that the scale does not hold.
    Outside,
    /// The signature on the page.
    Signature,
    /// What the other reasons leave over: how often such tunes are in the mode.
    Usual,
}

impl EvidenceKind {
    /// All kinds.
    pub const ALL: [Self; 14] = [
        Self::Time,
        Self::Stress,
        Self::FirstStrong,
        Self::Opening,
        Self::LastNote,
        Self::StrainEnds,
        Self::Cadence,
        Self::Register,
        Self::Triads,
        Self::Forms,
        Self::Motif,
        Self::Outside,
        Self::Signature,
        Self::Usual,
    ];
}

/// What was seen in the tune, for the words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fact {
    /// These notes decide, the weightiest first.
    Notes(Vec<Spelling>),
    /// So many of the strains come to rest on this note.
    Rests {
        /// The note.
        note: Spelling,
        /// How many strains rest on it.
        count: u32,
        /// Of how many.
        of: u32,
    },
    /// The tune ends on this note.
    Last {
        /// The note.
        note: Spelling,
        /// Whether it comes to rest there; otherwise it is the last of notes that lead back.
        at_rest: bool,
    },
    /// These notes sound and lie outside the scale of the rival.
    Outside(Vec<Spelling>),
    /// The signature on the page, in fifths.
    Signature(i8),
    /// Nothing in the tune: how often such tunes are in the mode.
    Usual,
}

/// One reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Evidence {
    /// What it speaks of.
    pub kind: EvidenceKind,
    /// The candidate that it speaks for.
    pub favours: Key,
    /// The candidate that it speaks against.
    pub over: Key,
    /// How much: hundredths of a natural logarithm of odds, always positive.
    pub weight: u32,
    /// What was seen.
    pub fact: Fact,
    /// The notes of the tune that it is about, as indices into its events.
    pub events: Vec<usize>,
}

/// The most notes that one reason points to.
const MAX_EVENTS: usize = 200;
/// The least weight that is worth a sentence, in hundredths.
const LEAST: u32 = 15;
/// The most reasons for one comparison.
const MOST: usize = 6;

/// A candidate: its place in the scores and its name.
#[derive(Clone, Copy, Debug)]
pub(super) struct Candidate {
    pub index: usize,
    pub key: Key,
}

/// Compares the answer with a rival.
pub(super) struct Comparison<'a> {
    pub model: &'a Model,
    pub tune: &'a Tune,
    pub view: &'a View<'a>,
    pub features: &'a Features,
    /// The name that the tune gives to each pitch class.
    pub names: &'a [Spelling; 12],
}

impl Comparison<'_> {
    /// The reasons for and against the answer, the weightiest first.
    pub(super) fn reasons(&self, answer: Candidate, rival: Candidate) -> Vec<Evidence> {
        let mine = self.model.contributions(self.features, answer.index);
        let theirs = self.model.contributions(self.features, rival.index);
        let mut sums = EvidenceKind::ALL.map(|kind| (0_u32, kind, 0_i64));
        for (kind, (a, b)) in kinds().zip(mine.iter().zip(&theirs)) {
            sums[kind as usize].2 += a - b;
        }
        for (weight, _, sum) in &mut sums {
            *weight = self.hundredths(*sum);
        }
        order::short(&mut sums, |&(weight, kind, _)| (std::cmp::Reverse(weight), kind));
        sums.into_iter()
            .filter(|&(weight, ..)| weight >= LEAST)
            .filter_map(|(weight, kind, sum)| self.reason(kind, weight, sum, answer, rival))
            .take(MOST)
            .collect()
    }

    /// A difference of scores in hundredths of a natural logarithm of odds, whichever way.
    fn hundredths(&self, sum: i64) -> u32 {
        let weight = self.model.nats(sum.abs(), self.features.signature.is_some()) * 100.0;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "small and positive"
        )]
        let weight = (weight + 0.5) as u32;
        weight
    }

    fn reason(
        &self,
        kind: EvidenceKind,
        weight: u32,
        sum: i64,
        answer: Candidate,
        rival: Candidate,
    ) -> Option<Evidence> {
        let (favoured, other) = if sum >= 0 { (answer, rival) } else { (rival, answer) };
        let classes = self.deciding_classes(kind, favoured, other);
        let notes = || classes.iter().map(|c| self.names[c.index()]).collect::<Vec<_>>();
        let fact = match kind {
            EvidenceKind::Usual => Fact::Usual,
            EvidenceKind::Signature => {
                Fact::Signature(super::features::written_signature(self.tune)?)
            }
            EvidenceKind::StrainEnds => {
                let class = *classes.first()?;
                let rests = self.rests();
                let count = rests.iter().filter(|&&(_, c)| c == class).count();
                Fact::Rests {
                    note: self.names[class.index()],
                    count: u32::try_from(count).ok()?,
                    of: u32::try_from(rests.len()).ok()?,
                }
            }
            EvidenceKind::LastNote => {
                let class = *classes.first()?;
                let at_rest = self.rests().last().is_some_and(|&(_, rest)| rest == class);
                Fact::Last { note: self.names[class.index()], at_rest }
            }
            EvidenceKind::Outside => Fact::Outside(notes()),
            _ if classes.is_empty() => return None,
            _ => Fact::Notes(notes()),
        };
        if matches!(&fact, Fact::Outside(notes) if notes.is_empty()) {
            return None;
        }
        let events = self.events(kind, &classes);
        Some(Evidence { kind, favours: favoured.key, over: other.key, weight, fact, events })
    }

    /// The pitch classes that make most of a kind's contribution, the weightiest first; at most
    /// three.
    fn deciding_classes(
        &self,
        kind: EvidenceKind,
        favoured: Candidate,
        other: Candidate,
    ) -> Vec<PitchClass> {
        let sounding: PitchSet =
            self.view.all_notes().map(|n| PitchClass::new(i32::from(n.class))).collect();
        if kind == EvidenceKind::Outside {
            let missing = favoured.key.pitch_set().minus(other.key.pitch_set());
            return missing.intersection(sounding).iter().collect();
        }
        // Looked up once, not for every class: most kinds have but a few of the many blocks.
        let blocks: Vec<usize> =
            (0..BLOCKS.len()).filter(|&block| BLOCKS[block].kind == kind).collect();
        let share = |class: PitchClass, candidate: Candidate| -> i64 {
            let (home, mode) = Model::candidate(candidate.index);
            let place = usize::from(class.above(home));
            let part = |&block: &usize| {
                let weight = self.model.weights()[mode.index()][block * 12 + place];
                i64::from(self.features.at(block, class.index())) * i64::from(weight)
            };
            blocks.iter().map(part).sum()
        };
        // A note outside a scale speaks for no home in it that a learner could follow.
        let mut classes: Vec<(i64, PitchClass)> = sounding
            .intersection(favoured.key.pitch_set())
            .iter()
            .map(|class| (share(class, favoured) - share(class, other), class))
            .filter(|&(weight, _)| weight > 0)
            .collect();
        order::short(&mut classes, |&(weight, class)| (std::cmp::Reverse(weight), class));
        let most = classes.first().map_or(0, |c| c.0);
        classes.retain(|&(weight, _)| weight * 3 >= most);
        classes.truncate(3);
        classes.into_iter().map(|(_, class)| class).collect()
    }

    /// The note that each strain comes to rest on: its event and its class.
    fn rests(&self) -> Vec<(u32, PitchClass)> {
        let rest = |&(first, end): &(usize, usize)| {
            let bar = self.view.rest_bar(first, end);
            let note = self.view.notes_of(bar).get(self.view.rest_note(bar))?;
            Some((note.event, PitchClass::new(i32::from(note.midi))))
        };
        self.view.strains.iter().filter_map(rest).collect()
    }

    /// The notes that a reason is about.
    fn events(&self, kind: EvidenceKind, classes: &[PitchClass]) -> Vec<usize> {
        use EvidenceKind as Kind;
        let wanted = |class: u8| classes.iter().any(|c| c.semitones() == class);
        let bars: Option<Vec<usize>> = match kind {
            Kind::Signature | Kind::Usual => return Vec::new(),
            Kind::LastNote | Kind::StrainEnds => {
                let rests = self.rests();
                let from = if kind == Kind::LastNote { rests.len().saturating_sub(1) } else { 0 };
                return rests[from..]
                    .iter()
                    .filter(|(_, c)| classes.contains(c))
                    .map(|&(e, _)| e as usize)
                    .collect();
            }
            Kind::FirstStrong => {
                let strains = self.view.strains.iter().take(1);
                let bar = strains.map(|&(first, end)| self.view.opening_bar(first, end)).next();
                let note = bar.and_then(|b| self.view.notes_of(b).first());
                return note.map(|n| n.event as usize).into_iter().collect();
            }
            Kind::Opening => {
                let bar = |&(first, end): &(usize, usize)| self.view.opening_bar(first, end);
                Some(self.view.strains.iter().map(bar).collect())
            }
            Kind::Cadence => {
                let ends = self.view.strains.iter().flat_map(|&(first, end)| {
                    let rest = self.view.rest_bar(first, end);
                    [rest.saturating_sub(1).max(first), rest]
                });
                Some(ends.collect())
            }
            _ => None,
        };
        let bars = bars.unwrap_or_else(|| self.view.all_bars().collect());
        let mut events: Vec<usize> = bars
            .into_iter()
            .flat_map(|bar| self.view.notes_of(bar))
            .filter(|n| wanted(n.class))
            .map(|n| n.event as usize)
            .collect();
        order::by_number(&mut events, |&event| u32::try_from(event).unwrap_or(u32::MAX));
        events.dedup();
        events.truncate(MAX_EVENTS);
        events
    }
}

/// The kind of each contribution, in the order of [`Model::contributions`].
fn kinds() -> impl Iterator<Item = EvidenceKind> {
    BLOCKS
        .iter()
        .chain(PARENT_BLOCKS)
        .map(|block| block.kind)
        .chain([EvidenceKind::Signature, EvidenceKind::Usual])
}

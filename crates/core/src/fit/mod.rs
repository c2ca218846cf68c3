//! Where a tune lies on an instrument.
//!
//! [`fit`] looks at every transposition that brings a note of the tune onto the instrument and
//! ranks them by what a player cares about: nothing missing, few awkward notes, the comfortable
//! span, near the original, a key that lies well, few sharps and flats. Each is a [`Reason`] with
//! its cost, and the cost of a [`Candidate`] is their sum. [`elsewhere`] asks the reverse: which
//! of several instruments plays the tune where it stands.
//!
//! Pitches are as written, for the tune and for the instrument; what is heard is
//! [`Instrument::written_to_sounding`] away. Grace notes and the lower notes of chords do not
//! count: a player leaves them out.

mod height;
mod notes;
mod reason;
#[cfg(test)]
mod tests;

pub use notes::TuneNote;
pub use reason::{Reason, ReasonKind};

use crate::instrument::Instrument;
use crate::transpose::Reach;
use crate::{Interval, Key, Pitch, Signature, Tune, order};
use height::{Ground, Names, candidate};

/// Why a note cannot be played.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Why {
    /// It lies below the lowest note.
    Below,
    /// It lies above the highest note.
    Above,
    /// It lies between them, but the instrument has no such note.
    Absent,
    /// All that is known of a way to play it is doubtful.
    Unconfirmed,
}

/// What makes a note awkward.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Awkwardness {
    /// A hole is half covered.
    HalfHole,
    /// A reed is bent.
    Bend,
    /// It is hard to sound or to tune.
    Hard,
}

/// A note that is missing, after the move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Missing {
    /// Its written pitch.
    pub pitch: Pitch,
    /// Which of [`Fit::notes`] it is.
    pub note: usize,
    /// Why it is missing.
    pub why: Why,
    /// The octaves that bring it onto the instrument; 0 where none do.
    pub fold: i8,
}

/// A note that is awkward, after the move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Awkward {
    /// Its written pitch.
    pub pitch: Pitch,
    /// Which of [`Fit::notes`] it is.
    pub note: usize,
    /// What makes it so.
    pub why: Awkwardness,
}

/// The tune at one height on the instrument.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Candidate {
    /// The interval from the page as it is to this height.
    pub by: Interval,
    /// The key that results; `None` where the tune has none.
    pub key: Option<Key>,
    /// The signature that results, where it is a plain one.
    pub signature: Option<Signature>,
    /// The lowest written note.
    pub lowest: Pitch,
    /// The highest written note.
    pub highest: Pitch,
    /// Notes that cannot be played, the lowest first.
    pub missing: Vec<Missing>,
    /// Notes that are awkward, the lowest first.
    pub awkward: Vec<Awkward>,
    /// How many sounding notes lie outside the comfortable span.
    pub outside: u32,
    /// What it costs and why, in the order of [`ReasonKind`]; nothing that costs nothing.
    pub reasons: Vec<Reason>,
    /// The sum of the reasons' costs.
    pub cost: u32,
}

impl Candidate {
    /// Whether every note can be played.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.missing.is_empty()
    }

    /// Whether every missing note can be played in another octave.
    #[must_use]
    pub fn is_foldable(&self) -> bool {
        self.missing.iter().all(|missing| missing.fold != 0)
    }

    /// Whole octaves within the move: the rest is five semitones down to six up.
    #[must_use]
    pub const fn octaves(&self) -> i16 {
        (self.by.semitones() + 5).div_euclid(12)
    }
}

/// What can be said in the end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// The tune has no notes.
    NoNotes,
    /// Every note can be played as the page stands.
    AsWritten,
    /// Every note can be played after a move.
    Moved,
    /// Only with notes taken into another octave.
    Folded,
    /// Not at all.
    Nowhere,
}

/// All heights of a tune on an instrument, the best first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fit {
    /// The notes of the tune by height, as the page has them.
    pub notes: Vec<TuneNote>,
    /// Every height with a note on the instrument, and the one of the page; the best first.
    pub candidates: Vec<Candidate>,
}

impl Fit {
    /// The tune where it stands; `None` without notes.
    #[must_use]
    pub fn as_written(&self) -> Option<&Candidate> {
        self.candidates.iter().find(|c| c.by == Interval::UNISON)
    }

    /// The best height at which every note can be played.
    #[must_use]
    pub fn best(&self) -> Option<&Candidate> {
        self.candidates.first().filter(|c| c.is_whole())
    }

    /// The best height at which some notes are missing and each can be taken into another octave.
    ///
    /// Here a missing note costs what a folded note costs: twice as much as one outside the
    /// comfortable span. A few folds where the tune stands come before fewer in a key that hardly
    /// lies on the instrument.
    #[must_use]
    pub fn by_folding(&self) -> Option<&Candidate> {
        let all = self.notes.iter().map(|note| note.count).fold(0, u32::saturating_add);
        let near = self.candidates.iter().filter(|c| !c.is_whole() && c.is_foldable());
        near.min_by_key(|c| reason::folded_cost(&c.reasons, all))
    }

    /// The best height, where it is so much easier than the page's own that moving is worth it.
    #[must_use]
    pub fn better(&self) -> Option<&Candidate> {
        let (here, best) = (self.as_written()?, self.best()?);
        (best.cost.saturating_add(reason::WORTH_MOVING) <= here.cost).then_some(best)
    }

    /// What can be said in the end.
    #[must_use]
    pub fn verdict(&self) -> Verdict {
        match (self.as_written(), self.best(), self.by_folding()) {
            (None, ..) => Verdict::NoNotes,
            (Some(c), ..) if c.is_whole() => Verdict::AsWritten,
            (_, Some(_), _) => Verdict::Moved,
            (_, _, Some(_)) => Verdict::Folded,
            _ => Verdict::Nowhere,
        }
    }
}

/// The written notes of an instrument that a plan may rest on.
#[must_use]
pub fn reach(instrument: &Instrument) -> Reach {
    let notes = instrument.notes().iter().filter(|note| note.ease().is_some());
    notes.map(|note| note.written).collect()
}

/// Ranks every transposition of a tune on an instrument; `key` is what the tune is said to be in,
/// and moves along.
///
/// # Examples
///
/// ```
/// use modewright_core::fit::{Verdict, fit};
/// use modewright_core::instrument::{Instrument, Way};
/// use modewright_core::tune::{Sound, Span, TuneBuilder};
/// use modewright_core::{Length, Pitch};
///
/// // A pipe of five notes, and a tune of three that begins below it.
/// let names = ["G4", "A4", "B4", "D5", "E5"];
/// let ways = names.map(|name| (name.parse::<Pitch>().unwrap(), Way::default()));
/// let pipe = Instrument::default().with_ways(ways);
/// let mut builder = TuneBuilder::new();
/// for name in ["C4", "D4", "E4"] {
///     builder.event(Sound::Note(name.parse()?), Length::CROTCHET, Span::default()).unwrap();
/// }
/// let found = fit(&builder.finish(), &pipe, Some("C ionian".parse()?));
/// assert_eq!(found.verdict(), Verdict::Moved);
/// let best = found.best().unwrap();
/// assert_eq!((best.by.to_string(), best.key), ("P5".into(), Some("G ionian".parse()?)));
/// // Where it stands every note lies below the pipe.
/// assert_eq!(found.as_written().unwrap().missing.len(), 3);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn fit(tune: &Tune, instrument: &Instrument, key: Option<Key>) -> Fit {
    let notes = notes::of(tune);
    let (Some(low), Some(high)) = (notes.first(), notes.last()) else { return Fit::default() };
    let (low, high) = (low.pitch.midi(), high.pitch.midi());
    let names = Names::new(tune, key);
    let ground = Ground::new(instrument);
    let mut candidates = Vec::new();
    let (least, most) = match (instrument.lowest(), instrument.highest()) {
        (Some(lowest), Some(highest)) => (lowest.midi() - high, highest.midi() - low),
        _ => (0, 0),
    };
    for semitones in least.min(0)..=most.max(0) {
        let stays = semitones == 0;
        if !stays && !notes.iter().any(|n| instrument.ease(n.pitch.midi() + semitones).is_some()) {
            continue;
        }
        candidates.extend(candidate(&notes, &ground, &names, semitones));
    }
    // The lowest cost first, then the nearest, then the lower of two.
    order::by_number(&mut candidates, |c| c.by.semitones().unsigned_abs().into());
    order::by_number(&mut candidates, |c| c.cost);
    Fit { notes, candidates }
}

/// A tune where it stands on one of several instruments.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Elsewhere {
    /// Which of the instruments it is.
    pub index: usize,
    /// The tune there, unmoved.
    pub candidate: Candidate,
}

/// A tune where it stands on one instrument; `None` without notes.
#[must_use]
pub fn stands(tune: &Tune, instrument: &Instrument, key: Option<Key>) -> Option<Candidate> {
    candidate(&notes::of(tune), &Ground::new(instrument), &Names::new(tune, key), 0)
}

/// Which of several instruments plays a tune where it stands: all on which any of it sounds, the
/// best first.
#[must_use]
pub fn elsewhere<'a>(
    tune: &Tune,
    instruments: impl IntoIterator<Item = &'a Instrument>,
    key: Option<Key>,
) -> Vec<Elsewhere> {
    let notes = notes::of(tune);
    let names = Names::new(tune, key);
    let places = instruments.into_iter().enumerate().filter_map(|(index, instrument)| {
        let candidate = candidate(&notes, &Ground::new(instrument), &names, 0)?;
        (candidate.missing.len() < notes.len()).then_some(Elsewhere { index, candidate })
    });
    let mut places: Vec<Elsewhere> = places.collect();
    order::by_number(&mut places, |place| place.candidate.cost);
    places
}

//! The best way through a tune on an instrument where notes have several.
//!
//! Between each two notes a player pays for turning the air, for crossing rows and strings, for
//! a finger that hops, for a hand that moves; at a note for its awkwardness. What each costs is
//! data of the instrument. The path with the least sum is found by dynamic programming over the
//! ways of each note.

mod harmony;
mod levers;
mod path;
mod step;

pub use harmony::{Harmony, harmony};
pub use levers::{LeverChange, Levers};
pub use step::Difficulty;

use crate::instrument::{Certainty, Ease, Instrument, Way};
use crate::tune::{MarkKind, Sounding};
use crate::{Pitch, Tune};
use step::Met;

/// What is asked for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// Which of the instrument's manners of playing, as an index; the usual one is 0.
    pub style: usize,
    /// Whether ways may be taken that no public source confirms, where others are known.
    /// Otherwise such a way is taken only for a note that has no published one, and a doubtful
    /// way never.
    pub unconfirmed: bool,
}

/// A note of the tune with the way that was chosen for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fingered<'a> {
    /// The note; tied notes are one.
    pub sounding: Sounding,
    /// How to play it; `None` where the instrument does not have it.
    pub way: Option<&'a Way>,
    /// Whether a phrase begins here, so that the air may turn freely before it.
    pub begins: bool,
}

/// How much of the cost is of one kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// The kind.
    pub kind: Difficulty,
    /// How often it is met.
    pub times: u32,
    /// Times its price.
    pub cost: u64,
}

/// A pitch that the instrument does not have, or has in doubtful ways alone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// The written pitch.
    pub pitch: Pitch,
    /// The numbers of the bars it stands in.
    pub bars: Vec<u32>,
    /// Whether a doubtful way is known.
    pub doubtful: bool,
}

/// A path through the tune.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan<'a> {
    /// The notes in the order of the page.
    pub notes: Vec<Fingered<'a>>,
    /// The parts of the cost that are not nothing, in the order of [`Difficulty::ALL`].
    pub parts: Vec<Part>,
    /// The sum of the parts.
    pub cost: u64,
    /// Pitches that cannot be played, from the lowest to the highest.
    pub missing: Vec<Missing>,
    /// How the levers of a harp are set; `None` for an instrument without.
    pub levers: Option<Levers>,
}

impl Plan<'_> {
    /// Notes whose way is hard to sound or to tune, as indices into the tune's events in
    /// ascending order; of tied notes the first.
    #[must_use]
    pub fn awkward(&self) -> Vec<usize> {
        let hard = |note: &&Fingered<'_>| note.way.is_some_and(|way| way.ease == Ease::Awkward);
        self.notes.iter().filter(hard).map(|note| note.sounding.event).collect()
    }
}

/// The best path through a tune.
///
/// Tied notes keep their way. At the beginning of a strain, after a rest, a breath mark, a
/// phrase mark or a pause the air turns freely. A note that is missing is passed over, and the
/// path begins anew after it. Of paths that cost the same the one whose ways stand first in the
/// instrument's list is taken, so that the answer is the same everywhere.
///
/// # Examples
///
/// ```
/// use modewright_core::fingering::{Options, plan};
/// use modewright_core::instrument::{Direction, Instrument, Way};
/// use modewright_core::tune::{Sound, Span, TuneBuilder};
/// use modewright_core::{Length, Pitch};
///
/// // D on a push alone, A on either.
/// let way = |direction| Way { direction: Some(direction), ..Way::default() };
/// let (d, a): (Pitch, Pitch) = ("D4".parse()?, "A4".parse()?);
/// let mut instrument = Instrument::default().with_ways([
///     (d, way(Direction::Push)),
///     (a, way(Direction::Draw)),
///     (a, way(Direction::Push)),
/// ]);
/// let mut style = modewright_core::instrument::Style::default();
/// style.costs.turn = 3;
/// instrument.styles = vec![style];
///
/// let mut builder = TuneBuilder::new();
/// for pitch in [a, d, a] {
///     builder.event(Sound::Note(pitch), Length::CROTCHET, Span::default()).unwrap();
/// }
/// let tune = builder.finish();
/// let plan = plan(&tune, &instrument, Options::default());
/// // The A after D stays on the push, and so does the one before it.
/// assert_eq!(plan.cost, 0);
/// assert!(plan.notes.iter().all(|note| note.way.unwrap().direction == Some(Direction::Push)));
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn plan<'a>(tune: &Tune, instrument: &'a Instrument, options: Options) -> Plan<'a> {
    let costs = instrument
        .styles
        .get(options.style)
        .map_or_else(|| instrument.costs(), |style| style.costs);
    let (notes, mut met) = path::best(tune, instrument, &costs, options);
    let levers = levers::set(tune, instrument, &notes);
    if let Some(levers) = &levers {
        met.add(Difficulty::Lever, u32::try_from(levers.changes.len()).unwrap_or(u32::MAX));
    }
    let parts: Vec<Part> = Difficulty::ALL
        .into_iter()
        .map(|kind| {
            let times = met.times(kind);
            Part { kind, times, cost: u64::from(times) * u64::from(kind.price(&costs)) }
        })
        .filter(|part| part.cost > 0)
        .collect();
    let missing = missing(tune, instrument, &notes);
    Plan { cost: met.cost(&costs), notes, parts, missing, levers }
}

/// The ways of a note that may be taken, in the order of the instrument's list.
fn candidates(instrument: &Instrument, pitch: Pitch, options: Options) -> Vec<&Way> {
    let Some(note) = instrument.note(pitch.midi()) else { return Vec::new() };
    let allowed = |certainty: Certainty| options.unconfirmed || !certainty.is_doubtful();
    let mut ways: Vec<&Way> = note.ways.iter().filter(|way| allowed(way.certainty)).collect();
    if !options.unconfirmed && ways.iter().any(|way| way.certainty.is_published()) {
        ways.retain(|way| way.certainty.is_published());
    }
    // On a harp each letter has its string: E flat is not the D string with its lever up.
    let letter = |way: &&Way| {
        let string = way.lever.and(way.string)?;
        Some(instrument.strings.get(usize::from(string))?.spelling().step)
    };
    let own = |way: &&Way| letter(way) == Some(pitch.spelling().step);
    if ways.iter().any(own) {
        ways.retain(own);
    }
    ways
}

/// Where phrases begin, for each event and one more.
fn beginnings(tune: &Tune) -> Vec<bool> {
    let mut begins = vec![false; tune.events.len() + 1];
    let mut set = |event: usize| {
        if let Some(place) = begins.get_mut(event) {
            *place = true;
        }
    };
    set(0);
    for strain in tune.strains() {
        if let Some(bar) = tune.bars.get(strain.first) {
            set(bar.first);
        }
    }
    for (i, event) in tune.events.iter().enumerate() {
        if event.sound.pitch().is_none() {
            set(i + 1);
        }
    }
    for mark in &tune.marks {
        if let MarkKind::Sign(name) = &mark.kind
            && matches!(
                name.as_str(),
                "breath" | "fermata" | "shortphrase" | "mediumphrase" | "longphrase"
            )
        {
            set(mark.event + 1);
        }
    }
    begins
}

/// The pitches without a way, with their bars.
fn missing(tune: &Tune, instrument: &Instrument, notes: &[Fingered<'_>]) -> Vec<Missing> {
    let mut missing: Vec<Missing> = Vec::new();
    // One place for each height and spelling: there are few, however long the tune.
    for note in notes.iter().filter(|note| note.way.is_none()) {
        let pitch = note.sounding.pitch;
        let bar = tune.events.get(note.sounding.event).map_or(0, |event| tune.bar_number(event));
        let at = missing.binary_search_by_key(&pitch, |m| m.pitch).unwrap_or_else(|at| {
            let doubtful = instrument.note(pitch.midi()).is_some();
            missing.insert(at, Missing { pitch, bars: Vec::new(), doubtful });
            at
        });
        let bars = &mut missing[at].bars;
        if bars.last() != Some(&bar) {
            bars.push(bar);
        }
    }
    missing
}

#[cfg(test)]
mod tests;

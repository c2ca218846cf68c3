//! Putting the answer together.

use super::{
    Finding, Ranked, Unsaid, Verdict,
    facts::{self, Use},
    features::Features,
    finding::Chance,
    model::{Chances, Given, Model},
    names::Names,
    view::look,
};
use crate::{PitchSet, Tune};

/// Chance from which an answer is clear, in ten-thousandths.
const CLEAR: u16 = 7_500;
/// Chance of the best home below which the notes have no centre, in ten-thousandths.
const NO_CENTRE: u32 = 3_000;

/// Finds home note, mode and range of a tune.
///
/// The home of the written key is never evidence; its signature is.
///
/// # Examples
///
/// ```
/// use modewright_core::tune::{Sound, Span, TuneBuilder};
/// use modewright_core::{Length, Mode, find};
///
/// let mut builder = TuneBuilder::new();
/// for name in ["D4", "E4", "F4", "G4", "A4", "B4", "C5", "D5", "A4", "F4", "E4", "D4"] {
///     builder.event(Sound::Note(name.parse()?), Length::CROTCHET, Span::default()).unwrap();
/// }
/// let finding = find::find(&builder.finish());
/// let best = finding.best().expect("twelve notes about D");
/// assert_eq!(best.key.to_string(), "D dorian");
/// // One note has a range but no mode.
/// let mut one = TuneBuilder::new();
/// one.event(Sound::Note("D4".parse()?), Length::CROTCHET, Span::default()).unwrap();
/// assert_eq!(find::find(&one.finish()).best(), None);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn find(tune: &Tune) -> Finding {
    find_given(tune, Given::default())
}

/// Finds what is not given: with a home, the mode; with a mode, the home; with both, the
/// evidence for and against them.
#[must_use]
pub fn find_given(tune: &Tune, given: Given) -> Finding {
    find_with(Model::fitted(), tune, given)
}

/// Finds by some table of weights.
pub(super) fn find_with(model: &Model, tune: &Tune, given: Given) -> Finding {
    let (view, heard) = look(tune);
    let uses = facts::uses(&heard);
    let features = Features::of_tune(tune, &view);
    let chances = model.chances(&model.scores(&features), &features, given);
    let names = Names::of(tune, &uses);
    let range = heard.range();
    let mut finding = Finding {
        verdict: Verdict::None,
        given,
        unsaid: unsaid(&uses, &chances, given),
        ranked: Vec::new(),
        pattern: None,
        open: Vec::new(),
        variants: Vec::new(),
        agrees: None,
        notes: Vec::new(),
        range,
        position: None,
    };
    let ranked = |&(index, chance): &(usize, Chance)| Ranked { key: names.key(index), chance };
    let ranked: Vec<Ranked> = chances.ranked().iter().map(ranked).collect();
    let (Some(best), Some(&(index, _))) = (ranked.first().copied(), chances.ranked().first())
    else {
        return finding;
    };
    finding.notes = facts::shares(&uses, best.key);
    if uses.is_empty() {
        return finding;
    }
    finding.ranked = ranked;
    if finding.unsaid.is_some() {
        return finding;
    }
    finding.open = facts::open(&uses, best.key);
    finding.verdict = verdict(best.chance, chances.homes[index / 7], &finding);
    finding.pattern = Some(facts::pattern(&uses, best.key));
    finding.variants = facts::variants(tune, &uses, best.key);
    finding.agrees = facts::agreement(tune, best.key);
    finding.position = range.and_then(|r| r.position(best.key.home.pitch_class()));
    finding
}

/// Why nothing can be said, if so.
fn unsaid(uses: &[Use], chances: &Chances, given: Given) -> Option<Unsaid> {
    let classes: PitchSet = uses.iter().map(|u| u.class).collect();
    match classes.len() {
        0 => return Some(Unsaid::NoNotes),
        1 => return Some(Unsaid::OneNote),
        2 => return Some(Unsaid::TwoNotes),
        _ => {}
    }
    if classes.len() >= 11 && is_even(uses) {
        return Some(Unsaid::NoCentre);
    }
    let sum = chances.ranked().first().map_or(0, |(index, _)| chances.homes[index / 7]);
    (given.is_nothing() && sum < NO_CENTRE).then_some(Unsaid::NoCentre)
}

/// Whether no pitch class sounds more than half as long again as any other.
fn is_even(uses: &[Use]) -> bool {
    let mut time = [0_u64; 12];
    for u in uses {
        time[u.class.index()] += u.ticks;
    }
    let heard = || time.iter().filter(|&&t| t > 0);
    heard().max().unwrap_or(&0) * 2 <= heard().min().unwrap_or(&0) * 3
}

fn verdict(chance: Chance, home: u32, finding: &Finding) -> Verdict {
    if !finding.open.is_empty() && finding.given.mode.is_none() && home >= u32::from(CLEAR) {
        Verdict::Open
    } else if chance.ten_thousandths() >= CLEAR {
        Verdict::Clear
    } else {
        Verdict::Doubtful
    }
}

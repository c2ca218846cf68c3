//! Putting the answer together.

use super::{
    Finding, Ranked, StrainFinding, Unsaid, Verdict,
    evidence::{Candidate, Comparison},
    facts::{self, Use},
    features::{Features, written_signature},
    finding::Chance,
    model::{Chances, Given, Model},
    view::View,
};
use crate::{Key, PitchClass, PitchSet, Range, Signature, Spelling, Step, Tune, order};

/// Chance from which an answer is clear, in ten-thousandths.
const CLEAR: u16 = 7_500;
/// Chance of the best home below which the notes have no centre, in ten-thousandths.
const NO_CENTRE: u32 = 3_000;
/// The least notes of a strain that is judged alone.
const STRAIN_NOTES: usize = 8;

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
    let view = View::of(tune);
    let uses = facts::uses(tune);
    let features = Features::of_tune(tune, &view);
    let scores = model.scores(&features);
    let has_signature = features.signature.is_some();
    let chances = model.chances(&scores, has_signature, given);
    let names = names(tune, &uses);
    let spell = |index: usize| spell(tune, &uses, index);

    let unsaid = unsaid(&uses, &chances, given);
    let all: Vec<(Candidate, Chance)> = chances
        .ranked
        .iter()
        .map(|&(index, chance)| (Candidate { index, key: spell(index) }, chance))
        .collect();
    let ranked: Vec<Ranked> =
        all.iter().map(|&(c, chance)| Ranked { key: c.key, chance }).collect();
    let range = Range::of(tune);
    let mut finding = Finding {
        verdict: Verdict::None,
        given,
        unsaid,
        ranked: Vec::new(),
        pattern: None,
        open: Vec::new(),
        variants: Vec::new(),
        agrees: None,
        notes: Vec::new(),
        range,
        position: None,
        strains: Vec::new(),
        evidence: Vec::new(),
    };
    let Some(&(best, chance)) = all.first() else { return finding };
    finding.notes = facts::shares(&uses, best.key);
    if uses.is_empty() {
        return finding;
    }
    finding.ranked = ranked;
    if unsaid.is_some() {
        return finding;
    }
    finding.open = facts::open(&uses, best.key);
    finding.verdict = verdict(best, chance, &chances, &finding, given);
    finding.pattern = Some(facts::pattern(&uses, best.key));
    finding.variants = facts::variants(tune, &uses, best.key);
    finding.agrees = facts::agreement(tune, best.key);
    finding.position = range.and_then(|r| r.position(best.key.home.pitch_class()));
    finding.strains = strains(model, tune, &view, &uses);
    let compare = Comparison { model, tune, view: &view, features: &features, names: &names };
    for rival in rivals(best, &scores, &spell) {
        finding.evidence.extend(compare.reasons(best, rival));
    }
    finding
}

/// Why nothing can be said, if so.
fn unsaid(uses: &[Use], chances: &Chances, given: Given) -> Option<Unsaid> {
    let classes: PitchSet = uses.iter().map(|u| u.note.pitch_class()).collect();
    match classes.len() {
        0 => return Some(Unsaid::NoNotes),
        1 => return Some(Unsaid::OneNote),
        2 => return Some(Unsaid::TwoNotes),
        _ => {}
    }
    if classes.len() >= 11 && is_even(uses) {
        return Some(Unsaid::NoCentre);
    }
    let sum = chances.ranked.first().map_or(0, |(index, _)| chances.homes[index / 7]);
    (given.is_nothing() && sum < NO_CENTRE).then_some(Unsaid::NoCentre)
}

/// Whether no pitch class sounds more than half as long again as any other.
fn is_even(uses: &[Use]) -> bool {
    let mut time = [0_u64; 12];
    for u in uses {
        time[u.note.pitch_class().index()] += u.ticks;
    }
    let heard = || time.iter().filter(|&&t| t > 0);
    heard().max().unwrap_or(&0) * 2 <= heard().min().unwrap_or(&0) * 3
}

fn verdict(
    best: Candidate,
    chance: Chance,
    chances: &Chances,
    finding: &Finding,
    given: Given,
) -> Verdict {
    let home = chances.homes[best.index / 7];
    if !finding.open.is_empty() && given.mode.is_none() && home >= u32::from(CLEAR) {
        Verdict::Open
    } else if chance.ten_thousandths() >= CLEAR {
        Verdict::Clear
    } else {
        Verdict::Doubtful
    }
}

/// The candidates that the answer is compared with: the runner-up, and, where that shares the
/// answer's home, the best one with another home (where it does not, the best one with the same
/// home): so that both home and mode are explained.
fn rivals(best: Candidate, scores: &[i64], spell: &dyn Fn(usize) -> Key) -> Vec<Candidate> {
    let of = |same_home: bool| {
        (0..scores.len())
            .filter(|&i| i != best.index && (i / 7 == best.index / 7) == same_home)
            .max_by_key(|&i| (scores[i], std::cmp::Reverse(i)))
    };
    let mut rivals: Vec<usize> = [of(false), of(true)].into_iter().flatten().collect();
    order::short(&mut rivals, |&i| std::cmp::Reverse(scores[i]));
    rivals.into_iter().map(|index| Candidate { index, key: spell(index) }).collect()
}

/// What each strain on its own would be; nothing for a tune of one strain.
fn strains(model: &Model, tune: &Tune, view: &View<'_>, uses: &[Use]) -> Vec<StrainFinding> {
    if view.strain_count() < 2 {
        return Vec::new();
    }
    let parts = tune.strains();
    let signature = written_signature(tune);
    let judge = |(i, part): (usize, &crate::tune::Strain)| {
        let alone = view.strains(i, i + 1);
        if alone.all_notes().count() < STRAIN_NOTES {
            return None;
        }
        let features = Features::of(&alone, signature);
        let scores = model.scores(&features);
        let chances = model.chances(&scores, signature.is_some(), Given::default());
        let &(index, chance) = chances.ranked.first()?;
        let key = spell(tune, uses, index);
        let bars = &tune.bars[part.first..part.end];
        Some(StrainFinding {
            label: part.label.clone(),
            bars: (bars.first()?.number, bars.last()?.number),
            best: Ranked { key, chance },
        })
    };
    parts.iter().enumerate().filter_map(judge).collect()
}

/// The name that the tune gives to each pitch class; the usual one near its signature for
/// those that do not sound.
fn names(tune: &Tune, uses: &[Use]) -> [Spelling; 12] {
    let centre = i32::from(written_signature(tune).unwrap_or(0)) + 2;
    std::array::from_fn(|i| {
        let class = PitchClass::new(i32::try_from(i).unwrap_or(0));
        let used = uses.iter().find(|u| u.note.pitch_class() == class);
        used.map_or_else(|| Spelling::near(class, centre), |u| u.note)
    })
}

/// A candidate as the tune spells it: with the name that its home note has in the tune where
/// that key can be written, else near the signature, else in the usual way.
fn spell(tune: &Tune, uses: &[Use], index: usize) -> Key {
    let (home, mode) = Model::candidate(index);
    let used = uses.iter().map(|u| u.note).find(|n| n.pitch_class() == home);
    let by_name = used.map(|n| Key::new(n, mode)).filter(|k| k.signature().is_ok());
    let fifths = tune.key().and_then(crate::tune::WrittenKey::signature).map(Signature::fifths);
    by_name.unwrap_or_else(|| match fifths {
        Some(fifths) => Key::written_near(home, mode, i32::from(fifths)),
        None => Key::written_near(home, mode, lean(uses)),
    })
}

/// Which way the accidentals of a tune lean, as a signature: the sum of its altered letters.
fn lean(uses: &[Use]) -> i32 {
    Step::ALL
        .into_iter()
        .filter_map(|step| uses.iter().find(|u| u.note.step == step))
        .map(|u| i32::from(u.note.alter.semitones()))
        .sum()
}

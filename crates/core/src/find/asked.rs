//! What is told of a finding when somebody asks: its reasons, and its strains one by one.
//!
//! Who finds the modes of a whole book asks for neither, and both take longer than finding.

use super::{
    Evidence, Finding, Ranked, StrainFinding,
    evidence::{Candidate, Comparison},
    facts,
    features::{Features, written_signature},
    model::{Given, Model, Scores},
    names::Names,
    view::look,
};
use crate::{Tune, order};

/// The least notes of a strain that is judged alone.
const STRAIN_NOTES: usize = 8;

impl Finding {
    /// What spoke for the answer and against it, the weightiest first, against one rival after
    /// the other; nothing where nothing is said. The tune is the one that this was found of.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::tune::{Sound, Span, TuneBuilder};
    /// use modewright_core::{Length, find};
    ///
    /// let mut builder = TuneBuilder::new();
    /// for name in ["D4", "E4", "F4", "G4", "A4", "B4", "C5", "D5", "A4", "F4", "E4", "D4"] {
    ///     builder.event(Sound::Note(name.parse()?), Length::CROTCHET, Span::default()).unwrap();
    /// }
    /// let tune = builder.finish();
    /// let finding = find::find(&tune);
    /// let best = finding.best().expect("twelve notes about D").key;
    /// let reasons = finding.evidence(&tune);
    /// assert!(reasons.iter().any(|reason| reason.favours == best));
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    #[must_use]
    pub fn evidence(&self, tune: &Tune) -> Vec<Evidence> {
        evidence_with(Model::fitted(), tune, self)
    }

    /// What each strain on its own would be; nothing for a tune of one strain, or where nothing
    /// is said. The tune is the one that this was found of.
    #[must_use]
    pub fn strains(&self, tune: &Tune) -> Vec<StrainFinding> {
        let (view, heard) = look(tune);
        if self.best().is_none() || view.strain_count() < 2 {
            return Vec::new();
        }
        let (model, uses) = (Model::fitted(), facts::uses(&heard));
        let (parts, names) = (tune.strains(), Names::of(tune, &uses));
        let signature = written_signature(tune);
        let judge = |(i, part): (usize, &crate::tune::Strain)| {
            let alone = view.strains(i, i + 1);
            if alone.all_notes().count() < STRAIN_NOTES {
                return None;
            }
            let features = Features::of(&alone, signature);
            let chances = model.chances(&model.scores(&features), &features, Given::default());
            let &(index, chance) = chances.ranked().first()?;
            let bars = &tune.bars[part.first..part.end];
            Some(StrainFinding {
                label: part.label.clone(),
                bars: (bars.first()?.number, bars.last()?.number),
                best: Ranked { key: names.key(index), chance },
            })
        };
        parts.iter().enumerate().filter_map(judge).collect()
    }
}

/// The reasons by some table of weights.
pub(super) fn evidence_with(model: &Model, tune: &Tune, finding: &Finding) -> Vec<Evidence> {
    let Some(found) = finding.best() else { return Vec::new() };
    let (view, heard) = look(tune);
    let uses = facts::uses(&heard);
    let features = Features::of_tune(tune, &view);
    let scores = model.scores(&features);
    let names = Names::of(tune, &uses);
    let index = found.key.home.pitch_class().index() * 7 + found.key.mode.index();
    let best = Candidate { index, key: found.key };
    let compare =
        Comparison { model, tune, view: &view, features: &features, names: &names.notes(tune) };
    let rivals = rivals(best, &scores, features.first_home(), &names).into_iter();
    rivals.flat_map(|rival| compare.reasons(best, rival)).collect()
}

/// The candidates that the answer is compared with: the runner-up, and, where that shares the
/// answer's home, the best one with another home (where it does not, the best one with the same
/// home): so that both home and mode are explained.
///
/// Of two with one score the first is taken, from the candidate `from` on.
fn rivals(best: Candidate, scores: &Scores, from: usize, names: &Names) -> Vec<Candidate> {
    let of = |same_home: bool| {
        (0..from)
            .rev()
            .chain((from..scores.len()).rev())
            .filter(|&i| i != best.index && (i / 7 == best.index / 7) == same_home)
            .max_by_key(|&i| scores[i])
    };
    let mut rivals: Vec<usize> = [of(false), of(true)].into_iter().flatten().collect();
    order::short(&mut rivals, |&i| std::cmp::Reverse(scores[i]));
    rivals.into_iter().map(|index| Candidate { index, key: names.key(index) }).collect()
}

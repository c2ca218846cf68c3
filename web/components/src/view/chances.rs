//! The candidates with their chances, and what is said beside the verdict.

use super::sentence;
use crate::analysis::Analysis;
use crate::chances::ChanceBar;
use crate::labels;
use modewright_core::find::Ranked;
use modewright_lesson::words;

/// The plot's bars of some candidates.
#[must_use]
pub fn chance_bars(candidates: &[Ranked]) -> Vec<ChanceBar> {
    let bar = |ranked: &Ranked| ChanceBar {
        name: words::key_name(ranked.key).into(),
        told: labels::chance(ranked.chance).into(),
        chance: ranked.chance.ten_thousandths(),
    };
    candidates.iter().map(bar).collect()
}

/// What there is to say of the mode beside the verdict, a sentence each.
#[must_use]
pub fn told(analysis: &Analysis) -> Vec<String> {
    let said = &analysis.words;
    let mut told: Vec<String> = said.compared.iter().map(|compared| sentence(compared)).collect();
    told.extend(said.open.iter().cloned());
    told.extend(said.variants.iter().cloned());
    told.extend(said.agrees.clone());
    told.extend(said.strains.clone());
    told
}

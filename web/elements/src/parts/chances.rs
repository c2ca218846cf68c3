//! The likeliest candidates, each of which turns the wheel.

use super::wheel::Turning;
use modewright_components::analysis::Analysis;
use modewright_components::chances::plot;
use modewright_components::labels;
use modewright_components::view::chance_bars;
use yew::prelude::*;

/// How many candidates the plot has.
const CANDIDATES: usize = 5;

pub(crate) fn chances(analysis: &Analysis, turning: &Turning) -> Html {
    let ranked = &analysis.finding.ranked;
    let shown = ranked.get(..CANDIDATES.min(ranked.len())).unwrap_or_default();
    if analysis.key().is_none() || shown.is_empty() {
        return Html::default();
    }
    let keys: Vec<_> = shown.iter().map(|ranked| ranked.key).collect();
    let on_turn = turning.on_turn();
    let on_choose = Callback::from(move |at: usize| {
        if let Some(key) = keys.get(at) {
            on_turn.emit(*key);
        }
    });
    plot(&chance_bars(shown), &labels::CHANCES_HINT.into(), None, &on_choose)
}

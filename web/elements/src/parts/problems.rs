//! What of a text was not understood.

use crate::labels;
use modewright_components::analysis::Analysis;
use modewright_components::labels::problem_place;
use modewright_formats::Severity;
use modewright_lesson::words;
use yew::prelude::*;

/// How many problems of the text are told.
const PROBLEMS: usize = 5;

/// The problems from a severity upwards.
pub(crate) fn problems(analysis: &Analysis, least: Severity) -> Html {
    let mut told = Vec::new();
    for problem in &analysis.reading.problems {
        if problem.kind.severity() >= least && told.len() < PROBLEMS {
            let place = problem_place(problem.line, problem.column);
            let said = labels::told(&words::problem(&problem.kind));
            told.push(html! { <li><b>{ place }{ ": " }</b>{ said }</li> });
        }
    }
    if told.is_empty() {
        return Html::default();
    }
    html! { <ul class="problems">{ told }</ul> }
}

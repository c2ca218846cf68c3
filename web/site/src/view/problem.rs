//! What is odd about the text, and what is marked in it.

use super::is_empty;
use crate::analysis::Analysis;
use crate::labels;
use crate::marks::MarkKind;
use crate::state::{LARGEST_FILE, Refused, State};
use modewright_formats::ProblemKind;
use modewright_lesson::answer::ProblemAnswer;
use modewright_lesson::words;

/// Something odd.
#[derive(Clone, Debug, PartialEq)]
pub struct ProblemView {
    /// How grave.
    pub kind: MarkKind,
    /// Where.
    pub place: String,
    /// What was found.
    pub message: String,
    /// The way out; may be empty.
    pub hint: String,
    /// The byte of the field where it stands.
    pub at: usize,
}

pub(super) const PROBLEMS_SHOWN: usize = 12;

pub(super) fn marks(analysis: &Analysis, state: &State) -> Vec<(std::ops::Range<usize>, MarkKind)> {
    if is_empty(state) {
        return Vec::new();
    }
    let whole = modewright_core::tune::Span::default();
    let mut marks: Vec<_> = analysis
        .reading
        .problems
        .iter()
        .filter(|problem| problem.span != whole)
        .map(|problem| (analysis.in_field(problem.span), MarkKind::from(problem.kind.severity())))
        .collect();
    let reason = state.reason.and_then(|at| analysis.evidence().get(at));
    if let Some(reason) = reason {
        let notes = analysis.events_in_field(&reason.events);
        marks.extend(notes.into_iter().map(|range| (range, MarkKind::Reason)));
    }
    marks
}

pub(super) fn problem_views(analysis: &Analysis, state: &State) -> Vec<ProblemView> {
    if is_empty(state) {
        return Vec::new();
    }
    let view = |problem: &modewright_formats::Problem| {
        let told = ProblemAnswer::new(problem);
        ProblemView {
            kind: problem.kind.severity().into(),
            place: labels::problem_place(told.line, told.column),
            message: told.message,
            hint: match &problem.kind {
                ProblemKind::SeveralVoices { names, .. } => labels::other_voice(names),
                _ => told.hint,
            },
            at: analysis.in_field(problem.span).start,
        }
    };
    let all = &analysis.reading.problems;
    // The gravest first; among equals in the order of the text.
    let of = |kind: MarkKind| {
        all.iter().filter(move |problem| MarkKind::from(problem.kind.severity()) == kind)
    };
    MarkKind::ALL.into_iter().rev().flat_map(of).take(PROBLEMS_SHOWN).map(view).collect()
}

pub(super) fn refused(name: &str, why: &Refused) -> String {
    match why {
        Refused::Unreadable => labels::unreadable(name),
        Refused::TooLarge => labels::too_large(name, LARGEST_FILE),
        Refused::NotTunes(kind) => {
            let advice = words::problem(kind);
            labels::not_tunes(name, &advice.message, &advice.hint)
        }
        Refused::NotMade(why) => labels::not_made(name, why),
    }
}

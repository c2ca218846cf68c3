//! The reasons, by the candidate that the answer is compared with.

use crate::analysis::Analysis;
use crate::labels;
use crate::state::State;
use modewright_core::Key;
use modewright_lesson::words;

/// Reasons against one rival.
#[derive(Clone, Debug, PartialEq)]
pub struct RivalView {
    /// Its heading.
    pub title: String,
    /// The reasons, those for the answer first.
    pub reasons: Vec<ReasonView>,
}

/// A reason.
#[derive(Clone, Debug, PartialEq)]
pub struct ReasonView {
    /// Its place in the evidence.
    pub at: usize,
    /// Whether it speaks for the answer.
    pub speaks_for: bool,
    /// As a sentence.
    pub text: String,
    /// Whether it is about notes that can be marked.
    pub has_notes: bool,
    /// Whether they are marked.
    pub marked: bool,
}

const REASONS_FOR: usize = 4;
const REASONS_AGAINST: usize = 2;

pub(super) fn rivals(analysis: &Analysis, state: &State) -> Vec<RivalView> {
    let Some(best) = analysis.key() else { return Vec::new() };
    let evidence = analysis.evidence();
    let mut rivals: Vec<Key> = Vec::new();
    for reason in evidence {
        let rival = if reason.favours == best { reason.over } else { reason.favours };
        if !rivals.contains(&rival) {
            rivals.push(rival);
        }
    }
    let reasons = |rival: Key| {
        let about = |mine: bool, most: usize| {
            evidence
                .iter()
                .enumerate()
                .filter(move |(_, e)| (if mine { e.over } else { e.favours }) == rival)
                .take(most)
                .map(move |(at, e)| ReasonView {
                    at,
                    speaks_for: mine,
                    text: words::evidence(e),
                    has_notes: !e.events.is_empty(),
                    marked: state.reason == Some(at),
                })
        };
        about(true, REASONS_FOR).chain(about(false, REASONS_AGAINST)).collect()
    };
    rivals
        .into_iter()
        .map(|rival| RivalView {
            title: labels::rather_than(&words::key_name(rival)),
            reasons: reasons(rival),
        })
        .collect()
}

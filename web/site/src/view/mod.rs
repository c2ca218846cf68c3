//! From what the engine found and what the reader did to what is shown. Plain data, no browser.

mod list;
mod problem;
mod reasons;
mod staff;
#[cfg(test)]
mod tests;
mod trial;
mod wheel;

pub use list::ListView;
pub use modewright_components::view::RangeView;
pub use problem::ProblemView;
pub use reasons::{ReasonView, RivalView};
pub use staff::{PlayedOn, StaffView, note_at};
pub use trial::HomeView;
pub use wheel::WheelView;

use crate::analysis::Analysis;
use crate::labels;
use crate::marks::{Piece, pieces};
use crate::state::{Origin, State};
use modewright_components::ChanceBar;
use modewright_components::view::{chance_bars, range, told};
use modewright_core::Key;
use modewright_lesson::answer::verdict_name;
use modewright_lesson::demo;

/// Everything on the page that depends on the tune and on what the reader did.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// The verdict under the text.
    pub verdict: VerdictView,
    /// The text with its marks.
    pub pieces: Vec<Piece>,
    /// What is odd about the text, the first ones.
    pub problems: Vec<ProblemView>,
    /// How many more there are.
    pub more_problems: usize,
    /// A file that could not be opened.
    pub refused: Option<String>,
    /// What is said of an invented tune.
    pub invented: bool,
    /// The list of tunes, where there are several.
    pub list: Option<ListView>,
    /// The staff, where there is anything to show on it.
    pub staff: Option<StaffView>,
    /// Title of the tune.
    pub title: Option<String>,
    /// Sentences about the mode.
    pub told: Vec<String>,
    /// Reasons, by the candidate that the answer is compared with.
    pub rivals: Vec<RivalView>,
    /// The candidates with their chances.
    pub chances: Vec<ChanceBar>,
    /// Their keys.
    pub candidates: Vec<Key>,
    /// The candidate that the wheel shows.
    pub candidate: Option<usize>,
    /// The homes that can be tried.
    pub homes: Vec<HomeView>,
    /// What trying one gives.
    pub what_if: Option<String>,
    /// Lowest and highest.
    pub range: Option<RangeView>,
    /// The wheel.
    pub wheel: WheelView,
}

/// The verdict.
#[derive(Clone, Debug, PartialEq)]
pub struct VerdictView {
    /// In one line.
    pub line: String,
    /// How sure.
    pub sure: Option<String>,
    /// `clear`, `open`, `doubtful`, `none` or `empty`.
    pub kind: &'static str,
}

const CANDIDATES: usize = 5;

/// Lays out the page.
#[must_use]
pub fn view(analysis: &Analysis, state: &State) -> Page {
    let finding = &analysis.finding;
    let tried = state.what_if.map(|home| analysis.with_home(home));
    let wheel = wheel::wheel(analysis, state, tried.as_ref());
    let candidates: Vec<Key> = match finding.best() {
        Some(_) => finding.ranked.iter().take(CANDIDATES).map(|r| r.key).collect(),
        None => Vec::new(),
    };
    let chances = finding.ranked.get(..candidates.len()).map_or_else(Vec::new, chance_bars);
    let problems = &analysis.reading.problems;
    Page {
        verdict: verdict(analysis, state),
        pieces: pieces(&state.text, &problem::marks(analysis, state)),
        problems: problem::problem_views(analysis, state),
        more_problems: problems.len().saturating_sub(problem::PROBLEMS_SHOWN),
        refused: state.refused.as_ref().map(|(name, why)| problem::refused(name, why)),
        invented: matches!(state.origin, Origin::Demo(_)),
        list: list::list(analysis, state),
        staff: staff::staff(analysis, state),
        title: analysis.reading.tune.header.titles.first().cloned(),
        told: told(analysis),
        rivals: reasons::rivals(analysis, state),
        chances,
        candidate: candidates.iter().position(|key| *key == wheel.shown),
        candidates,
        homes: trial::homes(finding, state),
        what_if: tried
            .as_ref()
            .zip(state.what_if)
            .map(|(tried, class)| trial::what_if(tried, finding, class)),
        range: range(analysis),
        wheel,
    }
}

/// The invented tunes: id and name in the choice.
#[must_use]
pub fn demos() -> Vec<(&'static str, String)> {
    let name = |tune: &demo::Demo| {
        let book = crate::book::Book::of("", tune.abc);
        let title = book.entries.first().map_or(tune.id, |entry| entry.title.as_str()).to_owned();
        (tune.id, labels::demo(&title, tune.shows))
    };
    demo::TUNES.iter().map(name).collect()
}

fn is_empty(state: &State) -> bool {
    state.text.trim().is_empty()
}

fn verdict(analysis: &Analysis, state: &State) -> VerdictView {
    if is_empty(state) {
        return VerdictView { line: labels::EMPTY.to_owned(), sure: None, kind: "empty" };
    }
    let said = &analysis.words;
    VerdictView {
        line: said.verdict.clone(),
        sure: said.sure.clone(),
        kind: verdict_name(analysis.finding.verdict),
    }
}

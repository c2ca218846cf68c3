//! From what the engine found and what the reader did to what is shown. Plain data, no browser.

use crate::analysis::Analysis;
use crate::labels;
use crate::marks::{MarkKind, Piece, pieces};
use crate::state::{LARGEST_FILE, Origin, Refused, State};
use modewright_components::wheel::{Layout, NoteTime, WheelWords, writable};
use modewright_components::{ChanceBar, RangeWords};
use modewright_core::find::Finding;
use modewright_core::{Key, Mode, PitchClass, Signature, Spelling, Step};
use modewright_lesson::answer::{ProblemAnswer, verdict_name};
use modewright_lesson::{demo, words};
use std::rc::Rc;
use yew::AttrValue;

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

/// A list of tunes.
#[derive(Clone, Debug, PartialEq)]
pub struct ListView {
    /// Places and names of the tunes shown.
    pub rows: Vec<(usize, String)>,
    /// The one that is chosen.
    pub chosen: usize,
    /// How many there are.
    pub count: String,
    /// That there are more than are shown.
    pub more: Option<String>,
    /// Whether the list is a file's and can be put away.
    pub of_file: Option<String>,
}

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

/// A home that can be tried.
#[derive(Clone, Debug, PartialEq)]
pub struct HomeView {
    /// The note.
    pub class: PitchClass,
    /// Its name.
    pub name: String,
    /// Whether it is being tried.
    pub chosen: bool,
}

/// Lowest and highest note.
#[derive(Clone, Debug, PartialEq)]
pub struct RangeView {
    /// The range.
    pub range: modewright_core::Range,
    /// Home.
    pub home: Option<Spelling>,
    /// Words of the picture.
    pub words: RangeWords,
    /// What is told beside it: a name and a sentence each.
    pub lines: Vec<(&'static str, String)>,
}

/// The wheel.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelView {
    /// The key that it shows.
    pub shown: Key,
    /// The key of the tune.
    pub compared: Option<Key>,
    /// The order of the notes.
    pub layout: Layout,
    /// The notes of the tune.
    pub notes: Rc<[NoteTime]>,
    /// The forms of degrees that are left open.
    pub open: Rc<[Spelling]>,
    /// Its words.
    pub words: WheelWords,
    /// What turning it changed.
    pub changed: Option<String>,
    /// Whether it shows another key than the tune's.
    pub turned_away: bool,
}

const PROBLEMS_SHOWN: usize = 12;
const TUNES_SHOWN: usize = 200;
const REASONS_FOR: usize = 4;
const REASONS_AGAINST: usize = 2;
const CANDIDATES: usize = 5;

/// Lays out the page.
#[must_use]
pub fn view(analysis: &Analysis, state: &State) -> Page {
    let finding = &analysis.finding;
    let tried = state.what_if.map(|home| analysis.with_home(home));
    let wheel = wheel(analysis, state, tried.as_ref());
    let candidates: Vec<Key> = match finding.best() {
        Some(_) => finding.ranked.iter().take(CANDIDATES).map(|r| r.key).collect(),
        None => Vec::new(),
    };
    let chances = finding.ranked.iter().take(candidates.len()).map(|ranked| ChanceBar {
        name: words::key_name(ranked.key).into(),
        told: labels::chance(ranked.chance).into(),
        chance: ranked.chance.ten_thousandths(),
    });
    let problems = &analysis.reading.problems;
    Page {
        verdict: verdict(analysis, state),
        pieces: pieces(&state.text, &marks(analysis, state)),
        problems: problem_views(analysis, state),
        more_problems: problems.len().saturating_sub(PROBLEMS_SHOWN),
        refused: state.refused.as_ref().map(|(name, why)| refused(name, why)),
        invented: matches!(state.origin, Origin::Demo(_)),
        list: list(analysis, state),
        title: analysis.reading.tune.header.titles.first().cloned(),
        told: told(analysis),
        rivals: rivals(analysis, state),
        chances: chances.collect(),
        candidate: candidates.iter().position(|key| *key == wheel.shown),
        candidates,
        homes: homes(finding, state),
        what_if: tried
            .as_ref()
            .zip(state.what_if)
            .map(|(tried, class)| what_if(tried, finding, class)),
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

fn marks(analysis: &Analysis, state: &State) -> Vec<(std::ops::Range<usize>, MarkKind)> {
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
    let reason = state.reason.and_then(|at| analysis.finding.evidence.get(at));
    if let Some(reason) = reason {
        let notes = analysis.events_in_field(&reason.events);
        marks.extend(notes.into_iter().map(|range| (range, MarkKind::Reason)));
    }
    marks
}

fn problem_views(analysis: &Analysis, state: &State) -> Vec<ProblemView> {
    if is_empty(state) {
        return Vec::new();
    }
    let view = |problem: &modewright_formats::Problem| {
        let told = ProblemAnswer::new(problem);
        ProblemView {
            kind: problem.kind.severity().into(),
            place: labels::problem_place(told.line, told.column),
            message: told.message,
            hint: told.hint,
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

fn refused(name: &str, why: &Refused) -> String {
    match why {
        Refused::Unreadable => labels::unreadable(name),
        Refused::TooLarge => labels::too_large(name, LARGEST_FILE),
        Refused::NotTunes(kind) => {
            let advice = words::problem(kind);
            labels::not_tunes(name, &advice.message, &advice.hint)
        }
    }
}

fn list(analysis: &Analysis, state: &State) -> Option<ListView> {
    let (book, chosen) = match &state.book {
        Some(book) => (&**book, state.chosen),
        None if analysis.inside.tunes.len() > 1 => (&analysis.inside, analysis.chosen),
        None => return None,
    };
    let found = book.search(&state.search);
    let rows = found.iter().take(TUNES_SHOWN).filter_map(|&place| {
        let entry = book.entries.get(place)?;
        let title = if entry.title.is_empty() { labels::UNTITLED } else { &entry.title };
        let name = match &entry.number {
            Some(number) => format!("{number}. {title}"),
            None => title.to_owned(),
        };
        Some((place, name))
    });
    let more = found.len().saturating_sub(TUNES_SHOWN);
    Some(ListView {
        rows: rows.collect(),
        chosen,
        count: labels::found(found.len(), book.tunes.len()),
        more: (more > 0).then(|| labels::more_tunes(more)),
        of_file: state.book.as_ref().map(|book| book.name.clone()),
    })
}

fn told(analysis: &Analysis) -> Vec<String> {
    let said = &analysis.words;
    let mut told: Vec<String> = said.compared.iter().map(|compared| sentence(compared)).collect();
    told.extend(said.open.iter().cloned());
    told.extend(said.variants.iter().cloned());
    told.extend(said.agrees.clone());
    told.extend(said.strains.clone());
    told
}

fn rivals(analysis: &Analysis, state: &State) -> Vec<RivalView> {
    let Some(best) = analysis.key() else { return Vec::new() };
    let evidence = &analysis.finding.evidence;
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

fn homes(finding: &Finding, state: &State) -> Vec<HomeView> {
    if finding.ranked.is_empty() {
        return Vec::new();
    }
    // From home upwards.
    let at = |above: u8| finding.notes.iter().filter(move |n| n.degree.semitones() == above);
    (0..12)
        .flat_map(at)
        .map(|note| {
            let class = note.note.pitch_class();
            HomeView { class, name: words::note(note.note), chosen: state.what_if == Some(class) }
        })
        .collect()
}

fn what_if(tried: &Finding, finding: &Finding, class: PitchClass) -> String {
    let note = finding.notes.iter().map(|n| n.note).find(|n| n.pitch_class() == class);
    let home = tried.best().map(|best| best.key.home).or(note);
    let home = home.map(words::note).unwrap_or_default();
    labels::if_home(&home, &words::headline(tried))
}

fn range(analysis: &Analysis) -> Option<RangeView> {
    let range = analysis.finding.range?;
    let (said, tune) = (&analysis.words, &analysis.reading.tune);
    let mut lines = Vec::new();
    for (name, pitch, words, event) in [
        (labels::LOWEST, range.lowest, &said.lowest, range.lowest_at),
        (labels::HIGHEST, range.highest, &said.highest, range.highest_at),
    ] {
        if let (Some(words), Some(event)) = (words, tune.events.get(event)) {
            let bar = tune.bar_number(event);
            lines.push((name, sentence(&labels::place(pitch, words, bar))));
        }
    }
    let span = range.span().in_words();
    let position = said.position.as_ref();
    let position = position.map_or(String::new(), |position| format!(": {position}"));
    lines.push((labels::IN_ALL, sentence(&format!("{span}{position}"))));
    let told: Vec<&str> = lines.iter().map(|(_, line)| line.as_str()).collect();
    Some(RangeView {
        range,
        home: analysis.key().map(|key| key.home),
        words: RangeWords {
            sentence: told.join(" ").into(),
            middle_c: labels::MIDDLE_C.into(),
            most: labels::MOST.into(),
        },
        lines,
    })
}

fn wheel(analysis: &Analysis, state: &State, tried: Option<&Finding>) -> WheelView {
    let found = analysis.key();
    let tried = tried.and_then(Finding::best).map(|best| best.key);
    let at_rest = Key::new(Spelling::natural(Step::D), Mode::Dorian);
    let shown = writable(state.turned.or(tried).or(found).unwrap_or(at_rest));
    let finding = &analysis.finding;
    let open = finding.open.iter().flat_map(|open| {
        let degree = usize::from(open.degree).saturating_sub(1);
        let home = found.map(|key| key.home);
        open.modes
            .iter()
            .filter_map(move |mode| Key::new(home?, *mode).scale().ok()?.get(degree).copied())
    });
    WheelView {
        shown,
        compared: found,
        layout: state.layout,
        notes: finding.notes.iter().map(|n| NoteTime { note: n.note, share: n.share }).collect(),
        open: open.collect(),
        words: wheel_words(shown),
        changed: found.and_then(|found| words::turned(found, shown)),
        turned_away: found.is_some_and(|found| writable(found) != shown),
    }
}

fn wheel_words(shown: Key) -> WheelWords {
    let signature = shown.signature().map_or(String::new(), labels::hub_signature);
    let signatures = Signature::all().map(|s| AttrValue::from(labels::signature(s)));
    WheelWords {
        layout: labels::ORDER.into(),
        by_pitch: labels::BY_PITCH.into(),
        by_fifths: labels::BY_FIFTHS.into(),
        turn_home: labels::TURN_HOME.into(),
        home_back: labels::HOME_BACK.into(),
        home_on: labels::HOME_ON.into(),
        turn_ring: labels::TURN_RING.into(),
        darker: labels::DARKER.into(),
        brighter: labels::BRIGHTER.into(),
        signature: labels::SIGNATURE.into(),
        signatures: signatures.collect(),
        hear: labels::HEAR.into(),
        quiet: labels::QUIET.into(),
        loudness: labels::LOUDNESS.into(),
        silent: labels::SILENT.into(),
        hub: (
            words::note(shown.home).into(),
            words::mode_name(shown.mode).into(),
            signature.into(),
        ),
        sentence: words::in_one_sentence(shown).into(),
        legend: labels::LEGEND.map(AttrValue::from),
    }
}

/// Words as a sentence: a capital and a full stop.
fn sentence(words: &str) -> String {
    let stop = if words.ends_with('.') { "" } else { "." };
    let mut sentence = format!("{words}{stop}");
    if let Some(first) = sentence.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    sentence
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::Action;
    use modewright_components::wheel::{Role, place_marks};

    fn page(state: &State) -> Page {
        view(&Analysis::of(&state.text, &state.defaults, state.chosen), state)
    }

    fn demo(id: &'static str) -> State {
        State::empty().after(Action::Demo(id))
    }

    #[test]
    fn a_first_visit_answers_at_once() {
        let page = page(&State::first_visit());
        assert!(page.verdict.line.contains("E Dorian"), "{:?}", page.verdict);
        assert!(page.verdict.line.contains("D major with E as home"));
        assert_eq!(page.verdict.kind, "clear");
        assert!(page.invented && page.problems.is_empty() && page.list.is_none());
        assert_eq!(page.wheel.shown.to_string(), "E dorian");
        assert!(!page.wheel.turned_away && page.wheel.changed.is_none());
        let range = page.range.unwrap();
        assert!(range.lines[0].1.starts_with("The D just above middle C"), "{:?}", range.lines);
        assert!(range.lines[2].1.contains("authentic"), "{:?}", range.lines);
        assert_eq!(page.candidate, Some(0));
        assert!(page.candidates.len() >= 3);
        assert!(!page.rivals.is_empty());
    }

    #[test]
    fn every_demo_gives_a_whole_page_with_its_marks_in_place() {
        for (id, name) in demos() {
            assert!(name.contains(": "), "{name}");
            let mut state = demo(id);
            let first = page(&state);
            assert_ne!(first.verdict.kind, "none", "{id}");
            assert_eq!(first.problems, [], "{id}");
            let reasons = first.rivals.iter().flat_map(|r| &r.reasons);
            for reason in reasons.filter(|r| r.has_notes) {
                state = state.after(Action::Reason(Some(reason.at)));
                let marked: Vec<Piece> =
                    page(&state).pieces.into_iter().filter(|p| !p.kinds.is_empty()).collect();
                assert!(!marked.is_empty(), "{id}: {}", reason.text);
                for piece in marked {
                    let text = &state.text[piece.range];
                    assert!(text.contains(|c: char| c.is_ascii_alphabetic()), "{id}: {text}");
                }
            }
        }
    }

    #[test]
    fn an_empty_field_asks_for_a_tune_and_complains_of_nothing() {
        for text in ["", "  \n \n"] {
            let page = page(&State::empty().after(Action::Type(text.into())));
            assert_eq!(page.verdict.kind, "empty");
            assert_eq!(page.problems, []);
            assert!(page.chances.is_empty() && page.range.is_none() && page.homes.is_empty());
        }
    }

    #[test]
    fn one_note_gets_no_mode_but_a_range() {
        let page = page(&State::empty().after(Action::Type("D D D".into())));
        assert_eq!(page.verdict.kind, "none");
        assert!(page.chances.is_empty() && page.range.is_some() && page.wheel.compared.is_none());
    }

    #[test]
    fn an_open_degree_is_open_in_both_forms_on_the_wheel() {
        let page = page(&demo("five-oars"));
        assert_eq!(page.verdict.kind, "open");
        let wheel = &page.wheel;
        let marks = place_marks(wheel.shown, wheel.compared, &wheel.notes, &wheel.open);
        assert!(marks.iter().any(|m| m.open && m.role == Role::InMode));
        assert!(marks.iter().any(|m| m.open && m.role == Role::Outside));
    }

    #[test]
    fn a_second_form_of_the_seventh_stands_outside_the_arc() {
        let page = page(&demo("two-lights-at-the-bar"));
        let wheel = &page.wheel;
        assert_eq!(wheel.shown.to_string(), "E aeolian");
        let marks = place_marks(wheel.shown, wheel.compared, &wheel.notes, &wheel.open);
        let foreign: Vec<String> =
            marks.iter().filter(|m| m.is_foreign()).map(|m| m.name.to_string()).collect();
        assert_eq!(foreign, ["D#"]);
    }

    #[test]
    fn trying_another_home_turns_the_wheel_and_says_so() {
        let state = State::first_visit();
        let home = page(&state).homes.into_iter().find(|h| h.name == "A").unwrap();
        let tried = page(&state.after(Action::WhatIf(Some(home.class))));
        assert!(
            tried.what_if.as_ref().is_some_and(|w| w.starts_with("If home were A: ")),
            "{:?}",
            tried.what_if
        );
        assert_eq!(tried.wheel.shown.home.to_string(), "A");
        assert!(tried.wheel.turned_away);
        assert_eq!(tried.verdict, page(&state).verdict, "the answer itself stays");
    }

    #[test]
    fn a_turned_wheel_says_what_changed() {
        let state = State::first_visit().after(Action::Turn("E aeolian".parse().unwrap()));
        let page = page(&state);
        assert_eq!(
            page.wheel.changed.as_deref(),
            Some("The same home as E Dorian, with C for C♯.")
        );
        assert!(page.wheel.words.sentence.starts_with("E minor is the notes of G major"));
    }

    #[test]
    fn problems_are_marked_where_they_stand_with_the_gravest_first() {
        let text = "X:1\nT:é\nL:1/8\nK:D\nDEF @ GAB|\n";
        let page = page(&State::empty().after(Action::Type(text.into())));
        assert!(!page.problems.is_empty());
        assert!(page.problems.windows(2).all(|p| p[0].kind >= p[1].kind));
        let marked: Vec<&str> = page
            .pieces
            .iter()
            .filter(|p| p.kinds.iter().any(|k| *k > MarkKind::Reason))
            .map(|p| &text[p.range.clone()])
            .collect();
        assert!(marked.contains(&"@"), "{marked:?} {:?}", page.problems);
    }

    #[test]
    fn a_list_shows_what_a_search_leaves() {
        let book = "X:1\nT:Ebb\nK:D\nDEF|\n\nX:2\nT:<img src=x>\nK:G\nGAB|\n";
        let bytes = book.as_bytes().into();
        let state = State::empty().after(Action::Open { name: "quay.abc".into(), bytes });
        let list = page(&state).list.unwrap();
        assert_eq!(list.rows, [(0, "1. Ebb".to_owned()), (1, "2. <img src=x>".to_owned())]);
        let list = page(&state.after(Action::Search("ebb".into()))).list.unwrap();
        assert_eq!((list.rows.len(), list.count.as_str()), (1, "1 of 2 tunes"));
    }
}

//! The page as plain data, for invented tunes and odd texts.

use super::*;
use crate::marks::MarkKind;
use crate::state::Action;
use modewright_components::wheel::{Role, place_marks};

fn page(state: &State) -> Page {
    view(&Analysis::of(&state.text, &state.defaults, state.chosen, state.given), state)
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
    assert_eq!(page.wheel.changed.as_deref(), Some("The same home as E Dorian, with C for C♯."));
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

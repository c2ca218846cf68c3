//! The walk-through, passage by passage: words in a field each, which grows with them.

use crate::labels::lesson as said;
use crate::lesson::Edit;
use crate::parts::tags::{button, field, of, says, tag, text};
use crate::passages::{Passage, Told};
use yew::prelude::*;

pub(super) fn walk((told, gone): (Told, Vec<Edit>)) -> Html {
    let mut parts = Vec::new();
    for (section, (heading, passages)) in told.into_iter().enumerate() {
        let mut all = vec![says("h4", "", &heading)];
        for (at, passage) in passages.iter().enumerate() {
            all.push(place(&format!("words-{section}-{at}"), &heading, at + 1, passage));
        }
        parts.push(of("section", "", all));
    }
    // What comes and goes has its place even when it is empty: elements are matched from the last
    // one on, and a field that is matched with another loses the caret.
    let mut all = Vec::new();
    if !gone.is_empty() {
        all.extend([says("h4", "", said::GONE), says("p", "aside", said::GONE_HINT)]);
        for Edit { place, now, .. } in gone {
            let let_go = button(said::LET_GO, &format!("take {place}"), true);
            all.push(of("div", "gone-words", vec![says("p", "", &now), let_go]));
        }
    }
    parts.push(of("div", "gone", all));
    of("div", "walk", parts)
}

fn place(id: &str, heading: &str, number: usize, passage: &Passage) -> Html {
    let Passage { place, label, text: words, engine, is_old, is_step } = passage;
    let (class, name) = match label {
        Some(label) => ("passage-label", label.clone()),
        None => ("unseen", said::passage(heading, number)),
    };
    // The copy makes the field as high as its words.
    let keys = &["id", "data-do", "rows", "spellcheck"];
    let copy = vec![text(words), text("\u{200b}")];
    let grows = vec![
        tag("span", &["class", "aria-hidden"], &["copy", "true"], copy),
        field(keys, &[id, &format!("write {place}"), "1", "true"], words),
    ];
    let mut parts = vec![
        tag("label", &["class", "for"], &[class, id], vec![text(&name)]),
        of("div", "grows", grows),
    ];
    let mut paragraphs = Vec::new();
    let lines = words.split("\n\n").map(str::trim).filter(|line| !line.is_empty());
    for (at, line) in lines.enumerate() {
        let mut printed = Vec::new();
        if at == 0 && *is_step {
            printed.push(text(&format!("{number}. ")));
        }
        if let (0, Some(label)) = (at, label) {
            printed.push(says("b", "", &format!("{label}. ")));
        }
        printed.push(text(line));
        paragraphs.push(of("p", "", printed));
    }
    parts.push(of("div", "printed", paragraphs));
    let mut class = "passage";
    let mut beside = Vec::new();
    if let Some(engine) = engine {
        class = "passage changed";
        let mut lead = said::ENGINE_SAYS;
        if *is_old {
            class = "passage changed old";
            lead = said::ENGINE_NOW;
            beside.push(says("p", "old-said", said::OLD));
        }
        beside.push(of("p", "", vec![says("i", "", lead), text(" "), text(engine)]));
        beside.push(button(said::TAKE, &format!("take {place}"), true));
        if *is_old {
            beside.push(button(said::STILL_RIGHT, &format!("keep {place}"), true));
        }
    }
    parts.push(of("div", "beside", beside));
    of("div", class, parts)
}

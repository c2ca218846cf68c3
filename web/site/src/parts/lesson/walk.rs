//! The walk-through, passage by passage: words in a field each, which grows with them.

use super::tags::{button, field, of, says, tag, text};
use crate::labels::lesson as said;
use crate::lesson::Edit;
use crate::passages::{Passage, Told};
use yew::prelude::*;

pub(super) fn walk((told, gone): (Told, Vec<Edit>)) -> Html {
    let mut parts = Vec::new();
    for (heading, passages) in told {
        let mut all = vec![says("h4", "", &heading)];
        for (at, passage) in passages.iter().enumerate() {
            all.push(place(&heading, at + 1, passage));
        }
        parts.push(of("section", "", all));
    }
    if !gone.is_empty() {
        let mut all = vec![says("h4", "", said::GONE), says("p", "aside", said::GONE_HINT)];
        for Edit { place, now, .. } in gone {
            let let_go = button(said::LET_GO, &format!("take {place}"), true);
            all.push(of("div", "gone-words", vec![says("p", "", &now), let_go]));
        }
        parts.push(of("section", "gone", all));
    }
    of("div", "walk", parts)
}

fn place(heading: &str, number: usize, passage: &Passage) -> Html {
    let Passage { place, label, text: words, engine, is_old, is_step } = passage;
    let name = match label {
        Some(label) => says("span", "passage-label", label),
        None => says("span", "unseen", &said::passage(heading, number)),
    };
    let keys = &["data-do", "rows", "spellcheck"];
    // The copy makes the field as high as its words.
    let grows = vec![
        tag(
            "span",
            &["class", "aria-hidden"],
            &["copy", "true"],
            vec![text(words), text("\u{200b}")],
        )
        .into(),
        field(keys, &[&format!("write {place}"), "1", "true"], words),
    ];
    let mut parts = vec![of("label", "", vec![name, of("span", "grows", grows)])];
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
        parts.push(of("p", "printed", printed));
    }
    let mut class = "passage";
    if let Some(engine) = engine {
        let mut beside = Vec::new();
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
        parts.push(of("div", "beside", beside));
    }
    of("div", class, parts)
}

//! A link that holds the lesson, and code that puts it into a page.

use crate::analysis::Analysis;
use crate::browser::address;
use crate::effects::document;
use crate::labels::{self, lesson as said};
use crate::lesson::Choice;
use crate::link::LONG;
use crate::parts::tags::{button, field, of, says, tag, text};
use crate::state::{ROWS, State};
use wasm_bindgen::JsCast;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

/// The name of the field in the document.
const FIELD: &str = "to-copy";

/// The buttons, and the link or the code once it is made. A link begins with the page's address.
pub(super) fn share(shown: &str, copied: &str) -> Html {
    let buttons = vec![button(said::LINK, "link", true), button(said::EMBED, "code", true)];
    let mut parts = Vec::new();
    if !shown.is_empty() {
        let is_code = shown.starts_with('<');
        let (name, class, told) = if is_code {
            (said::EMBED_FIELD, "aside", said::EMBED_HINT.to_owned())
        } else {
            let is_long = shown.len() > LONG;
            let class = if is_long { "warned" } else { "aside" };
            (said::LINK_FIELD, class, said::link_length(shown.len(), is_long))
        };
        let keys = &["id", "readonly", "rows", "spellcheck"];
        let shown = field(keys, &[FIELD, "readonly", "3", "false"], shown);
        parts.extend([
            of("label", "", vec![says("span", "", name), shown]),
            says("p", class, &told),
            button(said::COPY, "copy", true),
            tag("p", &["role"], &["status"], vec![text(copied)]),
        ]);
    }
    of("div", "share", vec![of("div", "deeds", buttons), of("div", "to-copy", parts)])
}

/// Marks what is to be copied as a whole, so that any way of copying takes it.
pub(super) fn mark() {
    let field = document().and_then(|document| document.get_element_by_id(FIELD));
    if let Some(field) = field.and_then(|field| field.dyn_into::<HtmlTextAreaElement>().ok()) {
        // A field that cannot be marked is copied by hand.
        let _ = field.focus();
        field.select();
    }
}

/// The element of the lesson with its tune, and the script that brings elements to life.
pub(super) fn code(analysis: &Analysis, state: &State) -> String {
    let rows = ROWS.into_iter().filter(|row| state.lesson.rows.has(*row)).map(labels::row);
    let rows = rows.collect::<Vec<_>>().join(",");
    let values = state.lesson.word(Choice::Values);
    let played = &state.instrument;
    let on = if played.id.is_empty() || !played.own_text.is_empty() {
        String::new()
    } else {
        format!(" instrument=\"{}\"", played.id)
    };
    let text = analysis.own_text();
    let text = text.trim().replace('&', "&amp;").replace('<', "&lt;");
    let address = address();
    let base = address.rsplit_once('/').map_or("", |(base, _)| base);
    format!(
        "<script type=\"module\" src=\"{base}/elements/modewright-elements.js\"></script>\n\
         <modewright-lesson rows=\"{rows}\" values=\"{values}\"{on}>\n{text}\n</modewright-lesson>\n"
    )
}

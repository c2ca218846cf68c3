//! A link that holds the lesson, and code that puts it into a page.

use crate::analysis::Analysis;
use crate::browser::{address, copy, link_to};
use crate::kept::write_link;
use crate::labels::{self, lesson as said};
use crate::lesson::Choice;
use crate::link::LONG;
use crate::state::{ROWS, State};
use std::rc::Rc;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

#[derive(Properties)]
pub(super) struct ShareProps {
    pub(super) analysis: Rc<Analysis>,
    pub(super) state: UseReducerHandle<State>,
}

impl PartialEq for ShareProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.analysis, &other.analysis) && self.state == other.state
    }
}

/// What is shown to be copied.
#[derive(Clone, PartialEq)]
enum Shown {
    Nothing,
    /// A link, with what it was made of.
    Link(Rc<str>, Rc<str>),
    Code,
}

#[component]
pub(super) fn Share(props: &ShareProps) -> Html {
    let shown = use_state_eq(|| Shown::Nothing);
    let on_link = {
        let (state, shown) = (props.state.clone(), shown.setter());
        move |_: MouseEvent| {
            let (held, shown) = (write_link(&state), shown.clone());
            wasm_bindgen_futures::spawn_local(async move {
                let link = link_to(&held).await;
                shown.set(Shown::Link(link.into(), held.into()));
            });
        }
    };
    let on_code = {
        let shown = shown.setter();
        move |_: MouseEvent| shown.set(Shown::Code)
    };
    let field = match &*shown {
        // A link that holds another state than the page is a link no more.
        Shown::Link(link, held) if **held == *write_link(&props.state) => {
            let length = link.len();
            let told = said::link_length(length, length > LONG);
            html! { <ToCopy key="link" text={link} name={said::LINK_FIELD} {told} is_warning={length > LONG} /> }
        }
        Shown::Code => {
            let text: Rc<str> = code(&props.analysis, &props.state).into();
            html! { <ToCopy key="code" {text} name={said::EMBED_FIELD} told={said::EMBED_HINT.to_owned()} is_warning=false /> }
        }
        _ => Html::default(),
    };
    html! {
        <div class="share">
            <div class="deeds">
                <button type="button" onclick={on_link}>{ said::LINK }</button>
                <button type="button" onclick={on_code}>{ said::EMBED }</button>
            </div>
            { field }
        </div>
    }
}

/// The element of the lesson with its tune, and the script that brings elements to life.
fn code(analysis: &Analysis, state: &State) -> String {
    let rows = ROWS.into_iter().filter(|row| state.lesson.rows.has(*row)).map(labels::row);
    let rows = rows.collect::<Vec<_>>().join(",");
    let values = state.lesson.word(Choice::Values);
    let text = analysis.own_text();
    let text = text.trim().replace('&', "&amp;").replace('<', "&lt;");
    let address = address();
    let base = address.rsplit_once('/').map_or("", |(base, _)| base);
    format!(
        "<script type=\"module\" src=\"{base}/elements/modewright-elements.js\"></script>\n\
         <modewright-lesson rows=\"{rows}\" values=\"{values}\">\n{text}\n</modewright-lesson>\n"
    )
}

#[derive(Clone, PartialEq, Properties)]
struct ToCopyProps {
    text: Rc<str>,
    name: &'static str,
    told: String,
    is_warning: bool,
}

/// A text to be copied: it is marked as a whole, so that any way of copying takes it.
#[component]
fn ToCopy(props: &ToCopyProps) -> Html {
    let node = use_node_ref();
    let status = use_state(|| "");
    {
        let (node, status) = (node.clone(), status.setter());
        use_effect_with(props.text.clone(), move |_| {
            status.set("");
            if let Some(field) = node.cast::<HtmlTextAreaElement>() {
                // A field that cannot be marked is copied by hand.
                let _ = field.focus();
                field.select();
            }
        });
    }
    let onclick = {
        let (text, status) = (props.text.clone(), status.setter());
        move |_: MouseEvent| {
            let (text, status) = (text.clone(), status.clone());
            wasm_bindgen_futures::spawn_local(async move {
                status.set(if copy(&text).await { said::COPIED } else { said::NOT_COPIED });
            });
        }
    };
    html! {
        <div class="to-copy">
            <label>
                <span>{ props.name }</span>
                <textarea ref={node} readonly=true rows="3" spellcheck="false" value={props.text.to_string()} />
            </label>
            <p class={if props.is_warning { "warned" } else { "aside" }}>{ &props.told }</p>
            <button type="button" {onclick}>{ said::COPY }</button>
            <p role="status">{ *status }</p>
        </div>
    }
}

//! A box to ask in: which mode is this?

use crate::labels;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

/// What the reader asked.
#[derive(Clone, PartialEq)]
pub(crate) struct Asked {
    pub(crate) text: Rc<str>,
    /// Whether the wheel is wanted too.
    pub(crate) wheel: bool,
}

impl Default for Asked {
    fn default() -> Self {
        Self { text: Rc::from(""), wheel: false }
    }
}

/// The longest text that the box takes, in UTF-16 units: a long tune many times over.
const LONGEST: u32 = 65_536;

/// The box.
pub(crate) fn ask_box(asked: &UseStateHandle<Asked>) -> Html {
    let asked = asked.clone();
    let oninput = Callback::from(move |event: InputEvent| {
        let field = event.target().and_then(|t| t.dyn_into::<HtmlTextAreaElement>().ok());
        if let Some(field) = field {
            asked.set(Asked { text: field.value().into(), wheel: asked.wheel });
        }
    });
    html! {
        <label class="ask-box">
            <span>{ labels::ASK }</span>
            <textarea rows="6" {oninput} placeholder={labels::ASK_HINT} maxlength={LONGEST.to_string()}
                autocomplete="off" autocapitalize="off" autocorrect="off" spellcheck="false" />
        </label>
    }
}

/// The button that brings the wheel and puts it away; it rests where nothing was found.
pub(crate) fn show_wheel(asked: &UseStateHandle<Asked>, found: bool) -> Html {
    let (shown, asked) = (asked.wheel, asked.clone());
    let onclick = Callback::from(move |_: MouseEvent| {
        asked.set(Asked { wheel: !asked.wheel, text: asked.text.clone() });
    });
    html! {
        <button type="button" disabled={!found} aria-expanded={(shown && found).to_string()} {onclick}>
            { if shown { labels::HIDE_WHEEL } else { labels::SHOW_WHEEL } }
        </button>
    }
}

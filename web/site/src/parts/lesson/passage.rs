//! A passage of the walk-through: words in a field, which grows with them.

use crate::labels::lesson as said;
use crate::lesson::{Edit, LessonAction};
use crate::passages::Passage;
use crate::state::Action;
use wasm_bindgen::JsCast;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

#[derive(Clone, PartialEq, Properties)]
pub(super) struct PassagePlaceProps {
    pub(super) passage: Passage,
    /// What the field is called where the passage has no label.
    pub(super) name: String,
    /// Its number in a list.
    pub(super) step: Option<usize>,
    pub(super) act: Callback<Action>,
}

#[component]
pub(super) fn PassagePlace(props: &PassagePlaceProps) -> Html {
    let PassagePlaceProps { passage, name, step, act } = props;
    let engine = passage.engine.as_ref().unwrap_or(&passage.text);
    let write = |now: String| {
        let (place, was) = (passage.place.clone(), engine.clone());
        Action::Lesson(LessonAction::Write(Edit { place, was, now }))
    };
    let oninput = {
        let (act, passage, engine) = (act.clone(), passage.clone(), engine.clone());
        Callback::from(move |event: InputEvent| {
            let field = event.target().and_then(|t| t.dyn_into::<HtmlTextAreaElement>().ok());
            let Some(field) = field else { return };
            let edit =
                Edit { place: passage.place.clone(), was: engine.clone(), now: field.value() };
            act.emit(Action::Lesson(LessonAction::Write(edit)));
        })
    };
    let on = |action: Action| {
        let act = act.clone();
        Callback::from(move |_: MouseEvent| act.emit(action.clone()))
    };
    let label = passage.label.as_ref().map(|label| html! { <b>{ label }{ ". " }</b> });
    let number = step.map(|step| format!("{step}. "));
    let is_changed = passage.engine.is_some();
    let class =
        classes!("passage", is_changed.then_some("changed"), passage.is_old.then_some("old"));
    html! {
        <div {class}>
            <label>
                if let Some(label) = &passage.label {
                    <span class="passage-label">{ label }</span>
                } else {
                    <span class="unseen">{ name }</span>
                }
                <span class="grows">
                    <span class="copy" aria-hidden="true">{ &passage.text }{ "\u{200b}" }</span>
                    <textarea value={passage.text.clone()} {oninput} rows="1" spellcheck="true" />
                </span>
            </label>
            { for passage.text.split("\n\n").map(str::trim).filter(|t| !t.is_empty()).enumerate().map(|(at, text)| html! {
                <p class="printed">
                    if at == 0 { { number.clone() }{ label.clone() } }
                    { text.to_owned() }
                </p>
            }) }
            if is_changed {
                <div class="beside">
                    if passage.is_old { <p class="old-said">{ said::OLD }</p> }
                    <p><i>{ if passage.is_old { said::ENGINE_NOW } else { said::ENGINE_SAYS } }</i>{ " " }{ engine }</p>
                    <button type="button" onclick={on(Action::Lesson(LessonAction::TakeBack(passage.place.clone())))}>{ said::TAKE }</button>
                    if passage.is_old {
                        <button type="button" onclick={on(write(passage.text.clone()))}>{ said::STILL_RIGHT }</button>
                    }
                </div>
            }
        </div>
    }
}

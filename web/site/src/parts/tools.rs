//! What can be done with the whole text: take an invented tune, open a file, go back, clear.

use crate::effects::Files;
use crate::labels;
use crate::state::{Action, Origin, State};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// Ids and names of the invented tunes.
pub(crate) type Demos = Rc<Vec<(&'static str, String)>>;

pub(crate) fn tools(state: &State, demos: &Demos, files: &Files, act: &Callback<Action>) -> Html {
    let chosen = match state.origin {
        Origin::Demo(id) => id,
        _ => "",
    };
    let onchange = {
        let (act, demos) = (act.clone(), demos.clone());
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            let value = select.map(|select| select.value()).unwrap_or_default();
            if let Some((id, _)) = demos.iter().find(|(id, _)| *id == value) {
                act.emit(Action::Demo(id));
            }
        })
    };
    let onfile = {
        let files = files.clone();
        Callback::from(move |event: Event| files.open_chosen(&event))
    };
    let on = |action: Action| {
        let act = act.clone();
        Callback::from(move |_: MouseEvent| act.emit(action.clone()))
    };
    html! {
        <div class="tools">
            <label class="demos">
                <span>{ labels::DEMOS }</span>
                <select {onchange}>
                    <option value="" selected={chosen.is_empty()} disabled={!chosen.is_empty()}>{ labels::DEMO_NONE }</option>
                    { for demos.iter().map(|(id, name)| html! {
                        <option value={*id} selected={chosen == *id}>{ name }</option>
                    }) }
                </select>
            </label>
            <label class="file">
                <input type="file" accept=".abc,.txt,.musicxml,.mxl,.xml,.mid,.midi,text/plain,text/vnd.abc,audio/midi" onchange={onfile} />
                <span>{ labels::OPEN }</span>
            </label>
            <button type="button" disabled={!state.can_undo()} onclick={on(Action::Undo)}>{ labels::UNDO }</button>
            <button type="button" disabled={!state.can_redo()} onclick={on(Action::Redo)}>{ labels::REDO }</button>
            <button type="button" disabled={state.text.is_empty()} onclick={on(Action::Clear)}>{ labels::CLEAR }</button>
        </div>
    }
}

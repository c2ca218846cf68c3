//! What can be done with the whole text: take an invented tune, open a file, go back, clear.

use crate::effects::Files;
use crate::state::{Action, Origin};
use crate::{labels, view};
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

#[derive(Clone, PartialEq, Properties)]
pub(crate) struct ToolsProps {
    pub(crate) origin: Origin,
    pub(crate) can_undo: bool,
    pub(crate) can_redo: bool,
    pub(crate) is_empty: bool,
    pub(crate) files: Files,
    pub(crate) act: Callback<Action>,
}

#[component]
pub(crate) fn Tools(props: &ToolsProps) -> Html {
    let demos = use_memo((), |()| view::demos());
    let chosen = match props.origin {
        Origin::Demo(id) => id,
        _ => "",
    };
    let onchange = {
        let (act, demos) = (props.act.clone(), demos.clone());
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            let value = select.map(|select| select.value()).unwrap_or_default();
            if let Some((id, _)) = demos.iter().find(|(id, _)| *id == value) {
                act.emit(Action::Demo(id));
            }
        })
    };
    let onfile = {
        let files = props.files.clone();
        Callback::from(move |event: Event| files.open_chosen(&event))
    };
    let on = |action: Action| {
        let act = props.act.clone();
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
                <input type="file" accept=".abc,.txt,text/plain,text/vnd.abc" onchange={onfile} />
                <span>{ labels::OPEN }</span>
            </label>
            <button type="button" disabled={!props.can_undo} onclick={on(Action::Undo)}>{ labels::UNDO }</button>
            <button type="button" disabled={!props.can_redo} onclick={on(Action::Redo)}>{ labels::REDO }</button>
            <button type="button" disabled={props.is_empty} onclick={on(Action::Clear)}>{ labels::CLEAR }</button>
        </div>
    }
}

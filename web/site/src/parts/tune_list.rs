//! The tunes of a file, with a search.

use crate::labels;
use crate::state::Action;
use crate::view::ListView;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

pub(crate) fn tune_list(list: Option<&ListView>, search: &str, act: &Callback<Action>) -> Html {
    let Some(list) = list else { return Html::default() };
    let oninput = {
        let act = act.clone();
        Callback::from(move |event: InputEvent| {
            let input = event.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok());
            if let Some(input) = input {
                act.emit(Action::Search(input.value()));
            }
        })
    };
    let on_close = {
        let act = act.clone();
        Callback::from(move |_: MouseEvent| act.emit(Action::CloseBook))
    };
    html! {
        <section class="tune-list" aria-label={labels::LIST}>
            <div class="tune-list-head">
                <h3>{ labels::LIST }</h3>
                if let Some(name) = &list.of_file { <span class="file-name">{ name }</span> }
                <span role="status">{ &list.count }</span>
                if list.of_file.is_some() {
                    <button type="button" onclick={on_close}>{ labels::CLOSE_LIST }</button>
                }
            </div>
            <label class="search">
                <span>{ labels::SEARCH }</span>
                <input type="search" value={search.to_owned()} {oninput} autocomplete="off" spellcheck="false" />
            </label>
            <ul>
                { for list.rows.iter().map(|(place, name)| {
                    let (act, at) = (act.clone(), *place);
                    let current = (at == list.chosen).then_some("true");
                    html! {
                        <li key={at}>
                            <button type="button" aria-current={current}
                                onclick={move |_| act.emit(Action::Choose(at))}>{ name }</button>
                        </li>
                    }
                }) }
            </ul>
            if let Some(more) = &list.more { <p>{ more }</p> }
        </section>
    }
}

//! What if home were another note?

use crate::labels;
use crate::state::Action;
use crate::view::Page;
use yew::prelude::*;

pub(crate) fn trial(page: &Page, act: &Callback<Action>) -> Html {
    if page.homes.is_empty() {
        return Html::default();
    }
    html! {
        <div class="trial">
            <h3 id="what-if">{ labels::WHAT_IF }</h3>
            <div class="homes" role="group" aria-labelledby="what-if">
                { for page.homes.iter().map(|home| {
                    let act = act.clone();
                    let next = (!home.chosen).then_some(home.class);
                    html! {
                        <button type="button" aria-pressed={home.chosen.to_string()}
                            onclick={move |_| act.emit(Action::WhatIf(next))}>{ &home.name }</button>
                    }
                }) }
            </div>
            <p class="what-if" role="status">{ page.what_if.clone().unwrap_or_default() }</p>
        </div>
    }
}

//! What if home were another note?

use super::PageProps;
use crate::labels;
use crate::state::Action;
use yew::prelude::*;

#[component]
pub(crate) fn Trial(props: &PageProps) -> Html {
    let page = &props.page;
    if page.homes.is_empty() {
        return Html::default();
    }
    html! {
        <div class="trial">
            <h3 id="what-if">{ labels::WHAT_IF }</h3>
            <div class="homes" role="group" aria-labelledby="what-if">
                { for page.homes.iter().map(|home| {
                    let act = props.act.clone();
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

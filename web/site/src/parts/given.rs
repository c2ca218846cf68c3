//! Metre and pickup of letters, which cannot tell them; and what is said of a file or link that
//! was opened.

use crate::analysis::Analysis;
use crate::labels;
use crate::state::{Action, METRES, PICKUPS, State};
use modewright_core::Metre;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

pub(crate) fn given(analysis: &Analysis, state: &State, act: &Callback<Action>) -> Html {
    let metre = &analysis.reading.tune.metre;
    let is_open = *metre == Metre::FREE || !state.given.metre.is_empty();
    let asks = !analysis.is_abc() && is_open && analysis.reading.tune.soundings().next().is_some();
    let on = |choices: &'static [&'static str], action: fn(&'static str) -> Action| {
        let act = act.clone();
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            let at = select.and_then(|select| usize::try_from(select.selected_index()).ok());
            if let Some(choice) = at.and_then(|at| choices.get(at)) {
                act.emit(action(choice));
            }
        })
    };
    html! {
        <>
            if !state.told.is_empty() {
                <div class="opened" role="status">
                    <h3>{ labels::OPENED }</h3>
                    <ul>{ for state.told.iter().map(|line| html! { <li>{ &**line }</li> }) }</ul>
                </div>
            }
            if asks {
                <div class="given">
                    <label class="select">
                        <span>{ labels::METRE }</span>
                        <select onchange={on(&METRES, Action::Metre)}>
                            { for METRES.iter().map(|metre| html! {
                                <option selected={*metre == state.given.metre}>{ labels::given(metre) }</option>
                            }) }
                        </select>
                    </label>
                    <label class="select">
                        <span>{ labels::PICKUP }</span>
                        <select onchange={on(&PICKUPS, Action::Pickup)}>
                            { for PICKUPS.iter().map(|pickup| html! {
                                <option selected={*pickup == state.given.pickup}>{ labels::pickup(pickup) }</option>
                            }) }
                        </select>
                    </label>
                    <p class="aside">{ labels::GIVEN_HINT }</p>
                </div>
            }
        </>
    }
}

//! Metre and pickup of letters, which cannot tell them; and what is said of a file or link that
//! was opened.

use super::tags::{of, says, select, tag};
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
    let mut parts = Vec::new();
    if !state.told.is_empty() {
        let lines = state.told.iter().map(|line| says("li", "", line)).collect();
        let told = vec![says("h3", "", labels::OPENED), of("ul", "", lines)];
        parts.push(tag("div", &["class", "role"], &["opened", "status"], told));
    }
    if asks {
        let at = |all: &[&str], one: &str| all.iter().position(|it| *it == one).unwrap_or(0);
        let metres = METRES.map(labels::given);
        let pickups = PICKUPS.map(labels::pickup);
        let (metre, pickup) = (at(&METRES, state.given.metre), at(&PICKUPS, state.given.pickup));
        let choices = vec![
            select(labels::METRE, "metre", &metres, metre),
            select(labels::PICKUP, "pickup", &pickups, pickup),
            says("p", "aside", labels::GIVEN_HINT),
        ];
        parts.push(of("div", "given", choices));
    }
    let onchange = {
        let act = act.clone();
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            let Some(select) = select else { return };
            let at = usize::try_from(select.selected_index()).unwrap_or(0);
            match select.get_attribute("data-do").as_deref() {
                Some("metre") => act.emit(Action::Metre(METRES.get(at).copied().unwrap_or(""))),
                _ => act.emit(Action::Pickup(PICKUPS.get(at).copied().unwrap_or(""))),
            }
        })
    };
    html! { <div {onchange}>{ parts }</div> }
}

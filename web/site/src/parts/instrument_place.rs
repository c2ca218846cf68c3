//! The instrument: which, whether the tune lies on it, and where it lies better.

use crate::analysis::Analysis;
use crate::effects::Files;
use crate::labels;
use crate::player::Player;
use crate::state::Action;
use crate::view::{HeightView, InstrumentView, instrument};
use modewright_components::InstrumentPicture;
use modewright_core::instrument::Instrument;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

#[derive(Properties)]
pub(crate) struct InstrumentPlaceProps {
    pub(crate) analysis: Rc<Analysis>,
    pub(crate) player: Player,
    pub(crate) files: Files,
    pub(crate) act: Callback<Action>,
}

impl PartialEq for InstrumentPlaceProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.analysis, &other.analysis)
            && self.player == other.player
            && self.act == other.act
    }
}

#[component]
pub(crate) fn InstrumentPlace(props: &InstrumentPlaceProps) -> Html {
    let (player, act) = (&props.player, &props.act);
    let view = instrument(&props.analysis, player);
    html! {
        <section class="instrument-place" aria-labelledby="instrument">
            <h2 id="instrument">{ labels::INSTRUMENT }</h2>
            { choice(player, &props.files, act) }
            <p class="told-move" role="status">
                { player.told.as_deref().unwrap_or_default().to_owned() }
            </p>
            if let Some(view) = &view { { lies(view, player, act) } } else {
                <p class="aside">{ labels::INSTRUMENT_HINT }</p>
            }
        </section>
    }
}

fn choice(player: &Player, files: &Files, act: &Callback<Action>) -> Html {
    let onchange = {
        let act = act.clone();
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            act.emit(Action::Instrument(select.map(|s| s.value()).unwrap_or_default()));
        })
    };
    let onfile = {
        let files = files.clone();
        Callback::from(move |event: Event| files.open_instrument(&event))
    };
    let option = |it: &Instrument| {
        html! { <option value={it.id.clone()} selected={*it.id == *player.id}>{ &it.name }</option> }
    };
    let own = player.own.len();
    html! {
        <div class="tools">
            <label class="demos">
                <span>{ labels::INSTRUMENTS }</span>
                <select {onchange}>
                    <option value="" selected={player.id.is_empty()}>{ labels::NO_INSTRUMENT }</option>
                    if own > 0 {
                        <optgroup label={labels::OWN_INSTRUMENTS}>{ for player.own.iter().map(option) }</optgroup>
                    }
                    { for player.all().skip(own).map(option) }
                </select>
            </label>
            <label class="file">
                <span>{ labels::OPEN_INSTRUMENT }</span>
                <input type="file" accept=".json,application/json" onchange={onfile} />
            </label>
        </div>
    }
}

fn lies(view: &InstrumentView, player: &Player, act: &Callback<Action>) -> Html {
    let id = view.instrument.id.clone();
    let mine = player.owns(&id);
    let onmine = {
        let (act, id) = (act.clone(), id);
        Callback::from(move |_: Event| act.emit(Action::Mine(id.clone(), !mine)))
    };
    let onstyle = {
        let act = act.clone();
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            let chosen = select.map_or(0, |select| select.selected_index());
            act.emit(Action::Style(usize::try_from(chosen).unwrap_or_default()));
        })
    };
    html! {
        <>
            <p class="lies"><strong>{ &view.verdict }</strong></p>
            <label class="mine"><input type="checkbox" checked={mine} onchange={onmine} />{ labels::MINE }</label>
            if let Some(told) = &view.mine { <p>{ told }</p> }
            if !view.trouble.is_empty() {
                <h3>{ labels::TROUBLE }</h3>
                <ul class="trouble">{ for view.trouble.iter().map(|line| html! { <li>{ line }</li> }) }</ul>
            }
            <h3>{ labels::PICTURE }</h3>
            <InstrumentPicture instrument={view.instrument.clone()} tune={view.notes.clone()} words={view.words.clone()} />
            if !view.styles.is_empty() {
                <label class="style">
                    <span>{ labels::STYLE }</span>
                    <select onchange={onstyle}>
                        { for view.styles.iter().enumerate().map(|(at, name)| html! {
                            <option selected={at == player.style}>{ name }</option>
                        }) }
                    </select>
                </label>
            }
            { for view.path.iter().map(|line| html! { <p>{ line }</p> }) }
            <h3>{ labels::HEIGHTS }</h3>
            <p class="aside">{ labels::HEIGHTS_HINT }</p>
            <ul class="heights">{ for view.heights.iter().map(|height| row(height, act)) }</ul>
            <div class="aside">{ for view.remarks.iter().map(|line| html! { <p>{ line }</p> }) }</div>
        </>
    }
}

fn row(height: &HeightView, act: &Callback<Action>) -> Html {
    let to = |fold: bool| {
        let (act, by) = (act.clone(), height.by);
        Callback::from(move |_: MouseEvent| act.emit(Action::Move { by, fold }))
    };
    html! {
        <li class={if height.here { "here" } else { "away" }}>
            <span>{ &height.told }</span>
            if height.folds {
                <button type="button" onclick={to(true)}>{ labels::FOLD }</button>
            }
            if height.here {
                <span class="stands">{ labels::HERE }</span>
            } else {
                <button type="button" onclick={to(false)}>{ labels::MOVE }</button>
            }
        </li>
    }
}

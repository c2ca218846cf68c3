//! The instrument: which, whether the tune lies on it, how it is played, and where it lies better.

use crate::analysis::Analysis;
use crate::asking;
use crate::browser::use_near;
use crate::effects::Files;
use crate::instrument::{Answer, Chosen, Failure, Height, InstrumentAction, Named};
use crate::labels::NOT_LOADED;
use crate::labels::instrument as labels;
use crate::state::Action;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// The largest file of instruments that is opened: more than the engine takes.
const LARGEST: f64 = 2_097_152.0;

#[derive(Properties)]
pub(crate) struct InstrumentPlaceProps {
    pub(crate) analysis: Rc<Analysis>,
    pub(crate) text: Rc<str>,
    pub(crate) chosen: Chosen,
    pub(crate) act: Callback<Action>,
}

impl PartialEq for InstrumentPlaceProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.analysis, &other.analysis)
            && Rc::ptr_eq(&self.text, &other.text)
            && self.chosen == other.chosen
    }
}

#[component]
pub(crate) fn InstrumentPlace(props: &InstrumentPlaceProps) -> Html {
    let node = use_node_ref();
    let chosen = &props.chosen;
    let act = {
        let act = props.act.clone();
        Callback::from(move |action| act.emit(Action::Instrument(action)))
    };
    let near = use_near(&node);
    {
        let act = act.clone();
        use_effect_with(near, move |near| {
            if *near {
                act.emit(InstrumentAction::Near);
            }
        });
    }
    let waits = chosen.is_wanted()
        && chosen.failed.is_none()
        && (chosen.list.is_empty() || !chosen.id.is_empty() && chosen.answer.is_none());
    html! {
        <section class="instrument-place" aria-labelledby="instrument" ref={node}>
            <h2 id="instrument" tabindex="-1">{ labels::INSTRUMENT }</h2>
            { choice(chosen, &act) }
            <p class="told-move" role="status">
                { chosen.told.as_deref().or(waits.then_some(labels::UNPACKING)).unwrap_or_default() }
            </p>
            if let Some(failure) = &chosen.failed { { failed(failure, &act) } }
            if let Some(who) = &chosen.who { <p>{ &**who }</p> }
            if let Some(answer) = chosen.answer.as_ref().filter(|_| !chosen.id.is_empty()) {
                { lies(answer, props, &act) }
            } else if chosen.id.is_empty() {
                <p class="aside">{ labels::INSTRUMENT_HINT }</p>
            }
        </section>
    }
}

fn failed(failure: &Failure, act: &Callback<InstrumentAction>) -> Html {
    let said = match failure {
        Failure::NotLoaded => NOT_LOADED,
        Failure::Refused(why) => &**why,
    };
    html! {
        <div class="not-there" role="alert">
            <p>{ said }</p>
            <button type="button" onclick={act.reform(|_| InstrumentAction::Again)}>{ labels::AGAIN }</button>
        </div>
    }
}

fn selected(event: &Event) -> Rc<str> {
    let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
    select.map(|select| select.value()).unwrap_or_default().into()
}

fn choice(chosen: &Chosen, act: &Callback<InstrumentAction>) -> Html {
    let onfile = {
        let act = act.clone();
        Callback::from(move |event: Event| {
            let Some(file) = Files::chosen(&event) else { return };
            let (act, name) = (act.clone(), file.name());
            spawn_local(async move {
                let text = match file.size() <= LARGEST {
                    true => {
                        JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string())
                    }
                    false => None,
                };
                match text {
                    Some(text) => act.emit(asking::take_own(&name, text.into()).await),
                    None => act.emit(InstrumentAction::Tell(labels::not_read(&name).into())),
                }
            });
        })
    };
    let option = |it: &Named| {
        html! { <option value={it.id.to_string()} selected={it.id == chosen.id}>{ &it.name }</option> }
    };
    let group = |name: &str, all: &[Named]| {
        html! { <optgroup label={name.to_owned()}>{ for all.iter().map(option) }</optgroup> }
    };
    let known = chosen.own.iter().chain(&*chosen.list).any(|it| it.id == chosen.id);
    html! {
        <div class="tools">
            <label class="demos">
                <span>{ labels::INSTRUMENTS }</span>
                <select onchange={act.reform(|event| InstrumentAction::Choose(selected(&event)))}>
                    <option value="" selected={chosen.id.is_empty()}>{ labels::NO_INSTRUMENT }</option>
                    if !known && !chosen.id.is_empty() {
                        <option value={chosen.id.to_string()} selected=true>{ &*chosen.id }</option>
                    }
                    if !chosen.own.is_empty() { { group(labels::OWN_INSTRUMENTS, &chosen.own) } }
                    { for chosen.list.chunk_by(|a, b| a.family == b.family).map(|all| {
                        group(all.first().map_or("", |first| &first.family), all)
                    }) }
                </select>
            </label>
            <label class="file">
                <input type="file" accept=".json,application/json" onchange={onfile} />
                <span>{ labels::OPEN_INSTRUMENT }</span>
            </label>
            if !chosen.own_text.is_empty() {
                <button type="button" onclick={act.reform(|_| InstrumentAction::PutAway)}>{ labels::PUT_AWAY }</button>
            }
        </div>
    }
}

fn lies(answer: &Answer, props: &InstrumentPlaceProps, act: &Callback<InstrumentAction>) -> Html {
    let chosen = &props.chosen;
    let mine = chosen.has_it();
    let lines = |lines: &[String]| html! { <>{ for lines.iter().map(|line| html! { <p>{ line }</p> }) }</> };
    html! {
        <div class="lies" aria-busy={chosen.stale.to_string()}>
            <p class="lies-verdict"><strong>{ &answer.verdict }</strong></p>
            <label class="mine">
                <input type="checkbox" checked={mine} onchange={act.reform(move |_: Event| InstrumentAction::Mine(!mine))} />
                { labels::MINE }
            </label>
            if let Some(told) = &answer.elsewhere { <p>{ told }</p> }
            if !answer.trouble.is_empty() {
                <h3>{ labels::TROUBLE }</h3>
                <ul class="lacks">{ for answer.trouble.iter().map(|line| html! { <li>{ line }</li> }) }</ul>
            }
            <figure class="instrument-figure">
                <div class="instrument-scroll" tabindex="0" role="group" aria-label={answer.title.clone()}>
                    { Html::from_html_unchecked(answer.picture.to_string().into()) }
                </div>
                <figcaption>{ for answer.legend.iter().map(|line| html! { <span>{ line }</span> }) }</figcaption>
            </figure>
            if !answer.path.is_empty() || answer.styles.len() > 1 {
                <h3>{ labels::PATH }</h3>
                if answer.styles.len() > 1 { { style(answer, chosen, act) } }
                { lines(&answer.path) }
            }
            if !answer.heights.is_empty() {
                <h3>{ labels::HEIGHTS }</h3>
                <p class="aside">{ labels::HEIGHTS_HINT }</p>
                <ul class="heights">{ for answer.heights.iter().enumerate().map(|(at, height)| row(at, height, props)) }</ul>
            }
            <div class="aside">{ lines(&answer.remarks) }</div>
        </div>
    }
}

fn style(answer: &Answer, chosen: &Chosen, act: &Callback<InstrumentAction>) -> Html {
    html! {
        <label class="style">
            <span>{ labels::STYLE }</span>
            <select onchange={act.reform(|event| InstrumentAction::Style(selected(&event)))}>
                { for answer.styles.iter().enumerate().map(|(at, (id, name))| html! {
                    <option value={id.to_string()} selected={*id == chosen.style || at == 0 && chosen.style.is_empty()}>{ name }</option>
                }) }
            </select>
        </label>
    }
}

fn row(at: usize, height: &Height, props: &InstrumentPlaceProps) -> Html {
    let to = |fold: bool| {
        let (act, analysis, text) = (props.act.clone(), props.analysis.clone(), props.text.clone());
        let (chosen, by) = (props.chosen.clone(), height.by.clone());
        Callback::from(move |_: MouseEvent| {
            let (act, analysis, text) = (act.clone(), analysis.clone(), text.clone());
            let (chosen, by) = (chosen.clone(), by.clone());
            spawn_local(async move {
                let moved = asking::moved(&analysis, text, &chosen, &by, fold).await;
                act.emit(Action::Instrument(moved));
            });
        })
    };
    let told = format!("height-{at}");
    let button = |name, fold| {
        html! { <button type="button" aria-describedby={told.clone()} onclick={to(fold)}>{ name }</button> }
    };
    html! {
        <li>
            <span class="height" id={told.clone()}>{ &height.told }</span>
            if height.folds { { button(if height.here { labels::FOLD_HERE } else { labels::FOLD }, true) } }
            if height.here {
                <span class="stands">{ labels::HERE }</span>
            } else {
                { button(labels::MOVE, false) }
            }
        </li>
    }
}

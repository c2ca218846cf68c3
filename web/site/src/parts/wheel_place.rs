//! The wheel in its place, with what turning it changed and what else it can be turned to.

use super::{candidates, trial};
use crate::labels;
use crate::state::Action;
use crate::view::Page;
use modewright_components::Wheel;
use modewright_components::tone::Hear;
use yew::prelude::*;

pub(crate) fn wheel_place(page: &Page, act: &Callback<Action>) -> Html {
    let wheel = &page.wheel;
    let on_turn = {
        let act = act.clone();
        Callback::from(move |key| act.emit(Action::Turn(key)))
    };
    let on_layout = {
        let act = act.clone();
        Callback::from(move |layout| act.emit(Action::Layout(layout)))
    };
    let on_follow = {
        let act = act.clone();
        Callback::from(move |_: MouseEvent| act.emit(Action::Follow))
    };
    html! {
        <section class="wheel-place" aria-labelledby="wheel">
            <div class="wheel-head">
                <h2 id="wheel">{ labels::WHEEL }</h2>
            <button type="button" class="follow" disabled={!wheel.turned_away} onclick={on_follow}>{ labels::FOLLOW }</button>
            </div>
            <Wheel shown={wheel.shown} compared={wheel.compared} layout={wheel.layout}
                notes={wheel.notes.clone()} open={wheel.open.clone()} words={wheel.words.clone()}
                {on_turn} {on_layout}>
                <Hear shown={wheel.shown} hear={labels::HEAR} quiet={labels::QUIET}
                    loudness={labels::LOUDNESS} silent={labels::SILENT} />
            </Wheel>
            <div class="wheel-said" role="status">
                <p>{ wheel.words.sentence.clone() }</p>
                <p class="changed-said">{ wheel.changed.clone().unwrap_or_default() }</p>
            </div>

            <p class="aside">{ labels::WHEEL_HINT }</p>
            { trial(page, act) }
            { candidates(page, act) }
        </section>
    }
}

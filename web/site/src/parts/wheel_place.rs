//! The wheel in its place, with what turning it changed.

use crate::labels;
use crate::state::Action;
use crate::view::WheelView;
use modewright_components::Wheel;
use yew::prelude::*;

pub(crate) fn wheel_place(wheel: &WheelView, act: &Callback<Action>) -> Html {
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
            <h2 id="wheel">{ labels::WHEEL }</h2>
            <div class="wheel-said" role="status">
                <p>{ wheel.words.sentence.clone() }</p>
                <p class="changed-said">{ wheel.changed.clone().unwrap_or_default() }</p>
            </div>
            <Wheel shown={wheel.shown} compared={wheel.compared} layout={wheel.layout}
                notes={wheel.notes.clone()} open={wheel.open.clone()} words={wheel.words.clone()}
                {on_turn} {on_layout} />
            <p class="aside">{ labels::WHEEL_HINT }</p>
            <button type="button" class="follow" disabled={!wheel.turned_away} onclick={on_follow}>{ labels::FOLLOW }</button>
        </section>
    }
}

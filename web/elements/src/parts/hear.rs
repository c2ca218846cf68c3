//! A button that lets something sound, how loud and, of a tune, how fast.
//!
//! Nothing sounds before the reader asks for it, and it starts quiet. What makes the sound is a part
//! that the script loads at the first press; the script ends it at the Escape key, and where
//! something else begins to sound.

use crate::host::Host;
use crate::labels::HearWords;
use crate::pace::Pace;
use crate::sound;
use modewright_components::player::QUIET;
use std::rc::Rc;
use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// What sounds: its number, and what is told of it.
type Going = Option<(u32, Closure<dyn Fn(i32)>)>;

/// Something that can be heard.
pub(crate) struct Heard {
    /// How it goes, in the numbers of [`sound`].
    told: i32,
    loudness: u8,
    pace: Pace,
    on_pace: Callback<Event>,
    on_press: Callback<MouseEvent>,
    on_loudness: Callback<InputEvent>,
}

/// Something to be heard: `what` says how `text` is to be taken, as the script knows it. Another
/// text ends the sound.
#[hook]
pub(crate) fn use_hear(host: &Host, what: &'static str, text: &Rc<str>, pace: Pace) -> Heard {
    let told = use_state_eq(|| sound::ENDED);
    let loudness = use_state_eq(|| QUIET);
    // What the reader chose goes before what the page's author set.
    let chosen = use_state_eq(|| None::<u32>);
    let pace = Pace { percent: chosen.unwrap_or(pace.percent), ..pace };
    let going = use_mut_ref(|| Going::None);
    let end = {
        let (going, host, told) = (going.clone(), host.clone(), told.setter());
        Callback::from(move |()| {
            if let Some((number, _)) = &*going.borrow() {
                host.script.hush(*number);
                told.set(sound::ENDED);
            }
        })
    };
    {
        let end = end.clone();
        use_effect_with(text.clone(), move |_| move || end.emit(()));
    }
    let on_press = {
        let (going, host, text) = (going.clone(), host.clone(), text.clone());
        let (now, setter, loud) = (*told, told.setter(), *loudness);
        Callback::from(move |_: MouseEvent| {
            if sound::is_on(now) {
                return end.emit(());
            }
            let setter = setter.clone();
            let tell = Closure::<dyn Fn(i32)>::new(move |told| setter.set(told));
            let number = host.script.hear(
                what,
                &text,
                loud,
                pace.percent,
                pace.count_in,
                tell.as_ref().unchecked_ref(),
            );
            *going.borrow_mut() = Some((number, tell));
        })
    };
    let on_loudness = {
        let (going, host, loudness) = (going.clone(), host.clone(), loudness.setter());
        Callback::from(move |event: InputEvent| {
            let input = event.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok());
            let Some(level) = input.and_then(|i| i.value().parse::<u8>().ok()) else { return };
            loudness.set(level);
            if let Some((number, _)) = &*going.borrow() {
                host.script.louder(*number, level);
            }
        })
    };
    {
        let host = host.clone();
        use_effect_with(pace.percent, move |percent| {
            if let Some((number, _)) = &*going.borrow() {
                host.script.pace(*number, *percent);
            }
        });
    }
    let on_pace = {
        let chosen = chosen.setter();
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            if let Some(percent) = select.and_then(|it| it.value().parse().ok()) {
                chosen.set(Some(percent));
            }
        })
    };
    Heard { told: *told, loudness: *loudness, pace, on_pace, on_press, on_loudness }
}

impl Heard {
    /// The written note that is heard.
    pub(crate) fn lit(&self) -> Option<usize> {
        usize::try_from(self.told).ok()
    }

    /// The button, how loud, and what hinders it.
    pub(crate) fn shown(&self, words: &HearWords) -> Html {
        let on = sound::is_on(self.told);
        html! {
            <div class="hear">
                <button type="button" class="hear-button" aria-pressed={on.to_string()} onclick={&self.on_press}>
                    { if on { words.stop } else { words.play } }
                </button>
                <label class="loudness">
                    <span>{ words.loudness }</span>
                    <input type="range" min="0" max="100" step="5" value={self.loudness.to_string()} oninput={&self.on_loudness} />
                </label>
                if let Some(name) = words.pace {
                    <label class="pace">
                        <span>{ name }</span>
                        <select onchange={&self.on_pace}>
                            { for self.pace.choices().into_iter().map(|it| html! {
                                <option value={it.to_string()} selected={it == self.pace.percent}>{ it }{ " %" }</option>
                            }) }
                        </select>
                    </label>
                }
                <p class="silent" role="status">{ words.said(self.told) }</p>
            </div>
        }
    }
}

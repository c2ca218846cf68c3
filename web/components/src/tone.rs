//! The sound of a key: its seven notes up and down over its home.
//!
//! Nothing sounds before the reader asks for it, and it starts quiet.

use crate::player::{QUIET, Speaker};
use gloo_timers::callback::Interval;
use modewright_core::Key;
use modewright_sound::{Voice, compare};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// How often it is asked whether the sound is over, in milliseconds.
const TICK: u32 = 100;

/// What the button that plays a key is given.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct HearProps {
    /// The key to play.
    pub shown: Key,
    /// The button, at rest.
    pub hear: AttrValue,
    /// The button, while it sounds.
    pub quiet: AttrValue,
    /// Name of the control of loudness.
    pub loudness: AttrValue,
    /// What is said where the browser gives no sound.
    pub silent: AttrValue,
}

/// Tones under way; dropping it stops them.
struct Tones {
    speaker: Rc<RefCell<Speaker>>,
    _tick: Interval,
}

/// A button that plays the notes of a key, and how loud.
#[component]
pub fn Hear(props: &HearProps) -> Html {
    let playing = use_mut_ref(|| None::<Tones>);
    let sounding = use_state(|| false);
    let silent = use_state(|| false);
    let loudness = use_state(|| QUIET);
    let stop = {
        let (playing, sounding) = (playing.clone(), sounding.setter());
        Callback::from(move |()| {
            if playing.borrow_mut().take().is_some() {
                sounding.set(false);
            }
        })
    };
    // Another key or the end of the page ends the sound.
    {
        let stop = stop.clone();
        use_effect_with(props.shown, move |_| move || stop.emit(()));
    }
    let onclick = {
        let (playing, sounding, silent) = (playing.clone(), sounding.clone(), silent.clone());
        let (key, loud) = (props.shown, *loudness);
        Callback::from(move |_: MouseEvent| {
            if *sounding {
                return stop.emit(());
            }
            let heard = Rc::new(compare(&[key]));
            let started = Speaker::start(heard, Voice::Plucked, 0, false, loud);
            silent.set(started.is_none());
            sounding.set(started.is_some());
            *playing.borrow_mut() = started.map(|speaker| {
                let speaker = Rc::new(RefCell::new(speaker));
                Tones { _tick: ticking(speaker.clone(), stop.clone()), speaker }
            });
        })
    };
    let oninput = {
        let (loudness, playing) = (loudness.clone(), playing.clone());
        Callback::from(move |event: InputEvent| {
            let input = event.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok());
            let Some(level) = input.and_then(|i| i.value().parse::<u8>().ok()) else { return };
            loudness.set(level);
            if let Some(playing) = &*playing.borrow() {
                playing.speaker.borrow().loudness(level);
            }
        })
    };
    html! {
        <div class="hear">
            <button type="button" class="hear-button" aria-pressed={sounding.to_string()} {onclick}>
                { if *sounding { props.quiet.clone() } else { props.hear.clone() } }
            </button>
            <label class="loudness">
                <span>{ props.loudness.clone() }</span>
                <input type="range" min="0" max="100" step="5" value={loudness.to_string()} {oninput} />
            </label>
            <p class="silent" role="status">{ if *silent { props.silent.clone() } else { AttrValue::default() } }</p>
        </div>
    }
}

/// Schedules the notes until the last has been heard.
fn ticking(speaker: Rc<RefCell<Speaker>>, over: Callback<()>) -> Interval {
    Interval::new(TICK, move || {
        let mut speaker = speaker.borrow_mut();
        if speaker.tick().is_err() || speaker.place().is_none() {
            let over = over.clone();
            // Not from within the timer itself, which would end with it.
            gloo_timers::callback::Timeout::new(0, move || over.emit(())).forget();
        }
    })
}

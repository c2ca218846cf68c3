//! The player.

use super::controls::{PlayerWords, controls};
use super::{Settings, Speaker, same_place};
use gloo_timers::callback::Interval;
use modewright_sound::{PerformOptions, Performance, SoundError};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::{JsCast, closure::Closure};
use web_sys::KeyboardEvent;
use yew::prelude::*;

/// How often the next notes are scheduled and the lit note is looked up, in milliseconds.
const TICK: u32 = 40;

/// A tune laid out in time; asked for when it is played.
pub type Played = Callback<PerformOptions, Result<Performance, SoundError>>;

/// What the player is given.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct PlayerProps {
    /// Lays the tune out. Another tune is another callback, and ends the sound.
    pub perform: Played,
    /// Its home note.
    pub home: Option<modewright_core::PitchClass>,
    /// The highest number of a bar.
    pub last_bar: u32,
    /// How it is played.
    pub settings: Settings,
    /// Another way was chosen.
    pub on_settings: Callback<Settings>,
    /// Another written note is heard, or none.
    pub on_lit: Callback<Option<usize>>,
    /// What is written on it.
    pub words: PlayerWords,
}

/// What sounds, and what keeps it going.
struct Going {
    speaker: Rc<RefCell<Speaker>>,
    _tick: Interval,
    _escape: Escape,
}

/// Plays a tune.
#[component]
pub fn Player(props: &PlayerProps) -> Html {
    let going = use_mut_ref(|| None::<Going>);
    let sounding = use_state(|| false);
    let said = use_state(|| AttrValue::Static(""));
    let stop = {
        let (going, sounding, on_lit) = (going.clone(), sounding.setter(), props.on_lit.clone());
        Callback::from(move |()| {
            if going.borrow_mut().take().is_some() {
                sounding.set(false);
                on_lit.emit(None);
            }
        })
    };
    let play = {
        let (going, sounding, said) = (going.clone(), sounding.setter(), said.setter());
        let (stop, props) = (stop.clone(), props.clone());
        Callback::from(move |old: Option<(Rc<Performance>, u64)>| {
            let performance = props.perform.emit(props.settings.options(props.home));
            let performance = match performance {
                Ok(performance) if performance.notes.is_empty() => {
                    said.set(props.words.nothing.clone());
                    return stop.emit(());
                }
                Err(_) => {
                    said.set(props.words.too_long.clone());
                    return stop.emit(());
                }
                Ok(performance) => Rc::new(performance),
            };
            let from = old.map_or(0, |(old, place)| same_place(&old, place, &performance));
            // What sounded before ends first: browsers allow few sounds at once.
            going.borrow_mut().take();
            let settings = props.settings;
            let (voice, again, level) = (settings.voice, settings.again, settings.loudness);
            let Some(speaker) = Speaker::start(performance, voice, from, again, level) else {
                said.set(props.words.silent.clone());
                return stop.emit(());
            };
            let speaker = Rc::new(RefCell::new(speaker));
            *going.borrow_mut() = Some(Going {
                _tick: ticking(speaker.clone(), props.on_lit.clone(), stop.clone()),
                _escape: Escape::listen(stop.clone()),
                speaker,
            });
            said.set(AttrValue::Static(""));
            sounding.set(true);
        })
    };
    // Another tune, or the end of the page, ends the sound.
    {
        let stop = stop.clone();
        use_effect_with(props.perform.clone(), move |_| move || stop.emit(()));
    }
    // Another speed or voice goes on from the same note; loudness alone changes nothing else.
    {
        let (heard, play) = (going.clone(), play.clone());
        let loudness = props.settings.loudness;
        let rest = Settings { loudness: 0, ..props.settings };
        use_effect_with(rest, move |_| {
            let now = heard.borrow().as_ref().map(|going| {
                let speaker = going.speaker.borrow();
                (speaker.performance.clone(), speaker.place().unwrap_or(0))
            });
            if now.is_some() {
                play.emit(now);
            }
        });
        use_effect_with(loudness, move |level| {
            if let Some(going) = &*going.borrow() {
                going.speaker.borrow().loudness(*level);
            }
        });
    }
    let onclick = {
        let sounding = *sounding;
        Callback::from(move |_: MouseEvent| if sounding { stop.emit(()) } else { play.emit(None) })
    };
    let words = &props.words;
    html! {
        <div class="player">
            <button type="button" class="play" aria-pressed={sounding.to_string()} {onclick}>
                { if *sounding { words.stop.clone() } else { words.play.clone() } }
            </button>
            { controls(props) }
            <p class="silent" role="status">{ (*said).clone() }</p>
        </div>
    }
}

/// Schedules notes and tells which is heard, until it is over.
fn ticking(
    speaker: Rc<RefCell<Speaker>>,
    on_lit: Callback<Option<usize>>,
    over: Callback<()>,
) -> Interval {
    let mut lit = None;
    Interval::new(TICK, move || {
        let (next, ended) = {
            let mut speaker = speaker.borrow_mut();
            let failed = speaker.tick().is_err();
            (speaker.lit(), failed || speaker.place().is_none())
        };
        if ended {
            // Not from within the timer itself, which would end with it.
            let over = over.clone();
            gloo_timers::callback::Timeout::new(0, move || over.emit(())).forget();
        } else if next != lit {
            lit = next;
            on_lit.emit(next);
        }
    })
}

/// Listens for the Escape key in the whole window while it lives.
struct Escape(Closure<dyn Fn(KeyboardEvent)>);

impl Escape {
    fn listen(stop: Callback<()>) -> Self {
        let heard = Closure::<dyn Fn(KeyboardEvent)>::new(move |event: KeyboardEvent| {
            if event.key() == "Escape" {
                stop.emit(());
            }
        });
        if let Some(window) = web_sys::window() {
            let listener = heard.as_ref().unchecked_ref();
            // A window that hears no keys has the button.
            let _ = window.add_event_listener_with_callback("keydown", listener);
        }
        Self(heard)
    }
}

impl Drop for Escape {
    fn drop(&mut self) {
        if let Some(window) = web_sys::window() {
            let listener = self.0.as_ref().unchecked_ref();
            let _ = window.remove_event_listener_with_callback("keydown", listener);
        }
    }
}

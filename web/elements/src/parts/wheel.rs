//! The wheel with what it says: of a key, or of a tune.

use crate::host::Host;
use crate::labels;
use modewright_components::Wheel;
use modewright_components::analysis::Analysis;
use modewright_components::view::{wheel_of_key, wheel_of_tune};
use modewright_components::wheel::Layout;
use modewright_core::Key;
use modewright_lesson::words;
use std::rc::Rc;
use yew::prelude::*;

/// What the reader did, and the key and order that it was done to: when those change, it is gone.
#[derive(Clone, Copy, PartialEq)]
struct Turned {
    from: (Option<Key>, Layout),
    key: Option<Key>,
    layout: Option<Layout>,
}

/// A wheel as it was turned.
pub(crate) struct Turning {
    state: UseStateHandle<Turned>,
    now: Turned,
    host: Host,
}

/// How a wheel is turned that shows a key and an order by itself.
#[hook]
pub(crate) fn use_turned(own: Option<Key>, layout: Layout, host: &Host) -> Turning {
    let at_rest = Turned { from: (own, layout), key: None, layout: None };
    let state = use_state_eq(|| at_rest);
    let now = if state.from == at_rest.from { *state } else { at_rest };
    Turning { state, now, host: host.clone() }
}

impl Turning {
    /// Turns the wheel to a key, and tells the page.
    pub(crate) fn on_turn(&self) -> Callback<Key> {
        let (state, now, host) = (self.state.setter(), self.now, self.host.clone());
        Callback::from(move |key: Key| {
            state.set(Turned { key: Some(key), ..now });
            host.tell_home(key);
        })
    }

    /// The key that is shown, by its name; `other` where there is none.
    pub(crate) fn key_told(&self, other: Key) -> Rc<str> {
        let (own, _) = self.now.from;
        self.now.key.or(own).unwrap_or(other).to_string().into()
    }
}

/// The wheel of a tune or, where there is none, of a key.
pub(crate) fn wheel_place(
    turning: &Turning,
    analysis: Option<&Analysis>,
    key: Key,
    sound: Html,
) -> Html {
    let Turning { state, now, host } = turning;
    let (now, (own, usual)) = (*now, now.from);
    let layout = now.layout.unwrap_or(usual);
    let view = match analysis {
        Some(analysis) => wheel_of_tune(analysis, now.key, layout),
        None => wheel_of_key(key, now.key, layout),
    };
    let on_layout = {
        let state = state.setter();
        Callback::from(move |layout| state.set(Turned { layout: Some(layout), ..now }))
    };
    let on_back = {
        let (state, host) = (state.setter(), host.clone());
        Callback::from(move |_: MouseEvent| {
            state.set(Turned { key: None, ..now });
            if let Some(key) = own {
                host.tell_home(key);
            }
        })
    };
    html! {
        <div class="wheel-place">
            <Wheel shown={view.shown} compared={view.compared} layout={view.layout} notes={view.notes}
                open={view.open} words={view.words.clone()} on_turn={turning.on_turn()} {on_layout}>
                { sound }
            </Wheel>
            <div class="wheel-said" role="status">
                <p>{ view.words.sentence.clone() }</p>
                <p class="changed-said">{ view.changed.unwrap_or_default() }</p>
            </div>
            if let Some(key) = view.compared {
                <button type="button" class="follow" disabled={!view.turned_away} onclick={on_back}>
                    { labels::back_to(&words::key_name(key)) }
                </button>
            }
        </div>
    }
}

//! The wheel with what it says: of a key, or of a tune.

use crate::host::Host;
use crate::labels;
use crate::settings::Settings;
use modewright_components::Wheel;
use modewright_components::analysis::Analysis;
use modewright_components::view::{wheel_of_key, wheel_of_tune};
use modewright_components::wheel::Layout;
use modewright_core::Key;
use modewright_lesson::words;
use std::rc::Rc;
use yew::prelude::*;

#[derive(Clone, Debug, Properties)]
pub(crate) struct WheelPlaceProps {
    /// The key, where there is no tune.
    pub(crate) key_given: Key,
    /// The tune.
    #[prop_or_default]
    pub(crate) analysis: Option<Rc<Analysis>>,
    /// The candidate that was chosen, and how many times one was chosen.
    #[prop_or_default]
    pub(crate) wanted: Option<(Key, u32)>,
    pub(crate) settings: Rc<Settings>,
    pub(crate) host: Host,
}

impl PartialEq for WheelPlaceProps {
    fn eq(&self, other: &Self) -> bool {
        let same = match (&self.analysis, &other.analysis) {
            (Some(one), Some(two)) => Rc::ptr_eq(one, two),
            (one, two) => one.is_none() && two.is_none(),
        };
        same && self.key_given == other.key_given
            && self.wanted == other.wanted
            && self.settings == other.settings
            && self.host == other.host
    }
}

/// What the reader did, and the key and order that it was done to: when those change, it is gone.
#[derive(Clone, Copy, PartialEq)]
struct Turned {
    from: (Option<Key>, Option<(Key, u32)>, Layout),
    key: Option<Key>,
    layout: Option<Layout>,
}

#[component]
pub(crate) fn WheelPlace(props: &WheelPlaceProps) -> Html {
    let own = props.analysis.as_ref().map_or(Some(props.key_given), |analysis| analysis.key());
    let from = (own, props.wanted, props.settings.layout);
    let wanted = props.wanted.map(|(key, _)| key);
    let state = use_state_eq(|| Turned { from, key: wanted, layout: None });
    let turned =
        if state.from == from { *state } else { Turned { from, key: wanted, layout: None } };
    let layout = turned.layout.unwrap_or(props.settings.layout);
    let view = match &props.analysis {
        Some(analysis) => wheel_of_tune(analysis, turned.key, layout),
        None => wheel_of_key(props.key_given, turned.key, layout),
    };
    let on_turn = {
        let (state, host) = (state.setter(), props.host.clone());
        Callback::from(move |key: Key| {
            state.set(Turned { key: Some(key), ..turned });
            host.tell_home(key);
        })
    };
    let on_layout = {
        let state = state.setter();
        Callback::from(move |layout| state.set(Turned { layout: Some(layout), ..turned }))
    };
    let on_back = {
        let (state, host) = (state.setter(), props.host.clone());
        Callback::from(move |_: MouseEvent| {
            state.set(Turned { key: None, ..turned });
            if let Some(key) = own {
                host.tell_home(key);
            }
        })
    };
    html! {
        <div class="wheel-place">
            <Wheel shown={view.shown} compared={view.compared} layout={view.layout} notes={view.notes}
                open={view.open} words={view.words.clone()} sound={props.settings.sound} {on_turn} {on_layout} />
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

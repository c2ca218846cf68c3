//! The staff of a tune, drawn for the room that the element has.

use crate::host::Host;
use crate::settings::Settings;
use gloo_timers::callback::Timeout;
use modewright_components::analysis::Analysis;
use modewright_components::view::{note_told, staff_picture};
use modewright_components::{Staff, labels, use_width};
use modewright_lesson::words::Advice;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

/// How long the room must rest before the staff is drawn again, in milliseconds.
const PAUSE: u32 = 120;

#[derive(Clone, Debug, Properties)]
pub(crate) struct StaffPlaceProps {
    pub(crate) analysis: Rc<Analysis>,
    /// The text of the tune.
    pub(crate) text: Rc<str>,
    pub(crate) settings: Rc<Settings>,
    pub(crate) host: Host,
}

impl PartialEq for StaffPlaceProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.analysis, &other.analysis)
            && self.settings == other.settings
            && self.host == other.host
    }
}

#[component]
pub(crate) fn StaffPlace(props: &StaffPlaceProps) -> Html {
    let StaffPlaceProps { analysis, text: _, settings, host } = props;
    let node = use_node_ref();
    let picture = use_state(|| AttrValue::Static(""));
    let width = use_width(&node);
    let pointed = use_state(|| (Rc::as_ptr(analysis) as usize, None::<usize>));
    // Another tune has other notes.
    let at = pointed.1.filter(|_| pointed.0 == Rc::as_ptr(analysis) as usize);
    let refused = use_state(|| None::<Advice>);
    {
        let (picture, refused, analysis) = (picture.clone(), refused.setter(), analysis.clone());
        let (rows, instrument, host) = (settings.rows, settings.instrument.clone(), host.clone());
        let text = props.text.clone();
        let asked = (Rc::as_ptr(&props.analysis) as usize, rows, instrument.clone(), width);
        use_effect_with(asked, move |_| {
            let wanted = Rc::new(Cell::new(true));
            let still = wanted.clone();
            let (first, setter) = (picture.is_empty(), picture.setter());
            let draw = move || {
                if width == 0 {
                    return;
                }
                let own = || AttrValue::from(staff_picture(&analysis, rows, width));
                let Some(instrument) = instrument else {
                    refused.set(None);
                    setter.set(own());
                    return;
                };
                if first {
                    // The tune is read while its fingering is worked out.
                    setter.set(own());
                }
                spawn_local(async move {
                    let drawn = host.sheet(&text, &instrument, rows, width).await;
                    if still.get() {
                        match drawn {
                            Ok(drawn) => {
                                setter.set(drawn.into());
                                refused.set(None);
                            }
                            Err(why) => refused.set(Some(why)),
                        }
                    }
                });
            };
            let pause = if first {
                draw();
                None
            } else {
                Some(Timeout::new(PAUSE, draw))
            };
            move || {
                wanted.set(false);
                drop(pause);
            }
        });
    }
    {
        let host = host.clone();
        use_effect_with(!picture.is_empty(), move |drawn| {
            if *drawn {
                host.ready();
            }
        });
    }
    let told = at.and_then(|at| note_told(analysis, at, settings.values));
    let on_point = {
        let (pointed, analysis, host) = (pointed.setter(), analysis.clone(), host.clone());
        let values = settings.values;
        Callback::from(move |at: Option<usize>| {
            pointed.set((Rc::as_ptr(&analysis) as usize, at));
            let told = at.and_then(|at| note_told(&analysis, at, values));
            host.tell_note(&analysis, at, told.as_deref());
        })
    };
    let notes = use_memo(Rc::as_ptr(analysis) as usize, |_| {
        (0..analysis.reading.tune.events.len()).collect::<Rc<[usize]>>()
    });
    html! {
        <div class="staff-place" ref={node}>
            if let Some(why) = &*refused {
                <p class="mistake" role="alert">{ crate::labels::told(why) }</p>
            }
            <Staff picture={(*picture).clone()} label={labels::STAFF} notes={(*notes).clone()}
                pointed={at} {on_point} />
            <p class="pointed-said" role="status">
                { told.unwrap_or_else(|| labels::STAFF_HINT.to_owned()) }
            </p>
        </div>
    }
}

//! The staff of a tune, drawn for the room that the element has.

use crate::app::AppProps;
use crate::host::{Host, Sheet};
use crate::labels as own;
use gloo_timers::callback::Timeout;
use modewright_components::analysis::Analysis;
use modewright_components::view::{note_told, staff_picture};
use modewright_components::{Staff, labels, use_width};
use modewright_lesson::walk::Values;
use modewright_lesson::words::Advice;
use std::cell::Cell;
use std::rc::Rc;
use yew::prelude::*;

/// How long the room must rest before the staff is drawn again, in milliseconds.
const PAUSE: u32 = 120;

/// A staff that is asked for.
pub(crate) struct Staffed {
    /// Whether it is shown.
    pub(crate) shown: bool,
    /// Whether it takes the room that it will take.
    pub(crate) stands: bool,
    picture: AttrValue,
    refused: Option<Advice>,
    pointed: UseStateHandle<Pointed>,
    analysis: Rc<Analysis>,
    values: Values,
    host: Host,
}

/// The note that is pointed at, and in which tune: another one has other notes.
#[derive(Clone, Copy, PartialEq)]
struct Pointed {
    tune: *const Analysis,
    at: Option<usize>,
}

/// The staff of a tune, if it is to be `shown`, in the room of an element.
#[hook]
pub(crate) fn use_staff(
    node: &NodeRef,
    analysis: &Rc<Analysis>,
    text: &Rc<str>,
    props: &AppProps,
    shown: bool,
) -> Staffed {
    let AppProps { settings, host, .. } = props;
    let picture = use_state_eq(|| AttrValue::Static(""));
    let refused = use_state(|| None::<Advice>);
    let pointed = use_state_eq(|| Pointed { tune: Rc::as_ptr(analysis), at: None });
    let width = use_width(node);
    {
        let (setter, refused, first) = (picture.setter(), refused.setter(), picture.is_empty());
        let (analysis, text) = (analysis.clone(), text.clone());
        let (settings, host) = (settings.clone(), host.clone());
        let wanted = shown && width > 0;
        let asked = (
            Rc::as_ptr(&analysis),
            (settings.rows, settings.marks.clone(), settings.instrument.clone()),
            (width, wanted),
        );
        use_effect_with(asked, move |_| {
            let still = Rc::new(Cell::new(wanted));
            let asked = still.clone();
            let draw = move || {
                let (rows, marks) = (settings.rows, settings.marks.as_slice());
                let own = || {
                    let drawn = staff_picture(&analysis, rows, marks, width);
                    let (picture, why) = match drawn {
                        Ok(picture) => (picture, None),
                        Err(why) => (String::new(), Some(why)),
                    };
                    setter.set(picture.into());
                    refused.set(why);
                };
                let Some(instrument) = &settings.instrument else {
                    own();
                    return;
                };
                if first {
                    // The tune is read while its fingering is worked out.
                    own();
                }
                let sheet = Sheet { tune: &text, instrument, rows, marks, width };
                host.sheet(sheet, move |drawn| {
                    if still.get() {
                        refused.set(drawn.map(|drawn| setter.set(drawn.into())).err());
                    }
                });
            };
            let pause = if first && wanted {
                draw();
                None
            } else {
                wanted.then(|| Timeout::new(PAUSE, draw))
            };
            move || {
                asked.set(false);
                drop(pause);
            }
        });
    }
    Staffed {
        shown,
        stands: !shown || !picture.is_empty() || refused.is_some(),
        picture: (*picture).clone(),
        refused: (*refused).clone(),
        pointed,
        analysis: analysis.clone(),
        values: settings.values,
        host: host.clone(),
    }
}

/// The staff; below it what is pointed at, and what lets it sound.
pub(crate) fn staff_place(staff: &Staffed, lit: Option<usize>, sound: Option<Html>) -> Html {
    let (analysis, values) = (&staff.analysis, staff.values);
    let tune = Rc::as_ptr(analysis);
    let at = staff.pointed.at.filter(|_| staff.pointed.tune == tune);
    let told = at.and_then(|at| note_told(analysis, at, values));
    let on_point = {
        let (pointed, analysis, host) =
            (staff.pointed.setter(), analysis.clone(), staff.host.clone());
        Callback::from(move |at: Option<usize>| {
            pointed.set(Pointed { tune: Rc::as_ptr(&analysis), at });
            let told = at.and_then(|at| note_told(&analysis, at, values));
            host.tell_note(&analysis, at, told.as_deref());
        })
    };
    let notes: Rc<[usize]> = (0..analysis.reading.tune.events.len()).collect();
    html! {
        <div class="staff-place">
            if let Some(why) = &staff.refused {
                <p class="mistake" role="alert">{ own::not_loaded(why) }</p>
            }
            <Staff picture={staff.picture.clone()} label={labels::STAFF} {notes} pointed={at} {lit} {on_point} />
            <div class="under-staff">
                { sound.unwrap_or_default() }
                <p class="pointed-said" role="status">
                    { told.unwrap_or_else(|| labels::STAFF_HINT.to_owned()) }
                </p>
            </div>
        </div>
    }
}

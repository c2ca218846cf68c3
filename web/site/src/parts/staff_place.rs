//! The staff under the text. It is drawn after a short pause, so that typing stays quick, and again
//! when the room for it changes.

use crate::analysis::Analysis;
use crate::effects;
use crate::labels;
use crate::state::{Action, Rows};
use crate::view::{StaffView, staff_picture};
use gloo_timers::callback::Timeout;
use modewright_components::Staff;
use modewright_components::player::{Played, Player, Settings};
use modewright_sound::{PerformOptions, Performance};
use std::rc::Rc;
use yew::prelude::*;

/// How long the text must rest before the staff is drawn again, in milliseconds.
const PAUSE: u32 = 120;

#[derive(Properties)]
pub(crate) struct StaffPlaceProps {
    pub(crate) analysis: Rc<Analysis>,
    pub(crate) view: StaffView,
    pub(crate) rows: Rows,
    pub(crate) pointed: Option<usize>,
    pub(crate) sound: Settings,
    pub(crate) act: Callback<Action>,
}

impl PartialEq for StaffPlaceProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.analysis, &other.analysis)
            && self.view == other.view
            && self.rows == other.rows
            && self.pointed == other.pointed
            && self.sound == other.sound
            && self.act == other.act
    }
}

#[component]
pub(crate) fn StaffPlace(props: &StaffPlaceProps) -> Html {
    let node = use_node_ref();
    let picture = use_state(|| AttrValue::Static(""));
    let width = effects::use_width(&node);
    {
        let (picture, analysis, rows) = (picture.setter(), props.analysis.clone(), props.rows);
        let played = props.view.played.clone();
        let path = played.as_ref().map(Rc::as_ptr);
        let asked = (Rc::as_ptr(&props.analysis) as usize, rows, width, path);
        use_effect_with(asked, move |_| {
            let pause = Timeout::new(PAUSE, move || {
                if width > 0 {
                    picture.set(staff_picture(&analysis, rows, played.as_deref(), width).into());
                }
            });
            move || drop(pause)
        });
    }
    let on_point = {
        let act = props.act.clone();
        Callback::from(move |note| act.emit(Action::Point(note)))
    };
    let lit = use_state(|| None::<usize>);
    let perform = use_memo(Rc::as_ptr(&props.analysis) as usize, |_| {
        let analysis = props.analysis.clone();
        Played::from(move |options: PerformOptions| {
            Performance::of(&analysis.reading.tune, &options)
        })
    });
    let on_settings = {
        let act = props.act.clone();
        Callback::from(move |settings| act.emit(Action::Sound(settings)))
    };
    let on_lit = {
        let lit = lit.setter();
        Callback::from(move |note| lit.set(note))
    };
    let words = use_memo((), |()| labels::player());
    html! {
        <div class="staff-place" ref={node}>
            <fieldset class="rows">
                <legend>{ labels::ROWS }</legend>
                { for props.view.rows.iter().map(|(row, name, shown)| {
                    let (act, row, next) = (props.act.clone(), *row, !shown);
                    let onchange = Callback::from(move |_: Event| act.emit(Action::Row(row, next)));
                    html! { <label><input type="checkbox" checked={*shown} {onchange} />{ *name }</label> }
                }) }
            </fieldset>
            <Staff picture={(*picture).clone()} label={labels::STAFF} notes={props.view.notes.clone()}
                pointed={props.pointed} lit={*lit} {on_point} />
            <p class="pointed-said" role="status">
                { props.view.told.clone().unwrap_or_else(|| labels::STAFF_HINT.to_owned()) }
            </p>
            <Player perform={(*perform).clone()} home={props.view.home} last_bar={props.view.last_bar}
                settings={props.sound} {on_settings} {on_lit} words={(*words).clone()} />
        </div>
    }
}

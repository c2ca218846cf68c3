//! The staff under the text. The engine's part draws it after a short pause, so that typing stays
//! quick, and again when the room for it changes.

use crate::analysis::Analysis;
use crate::effects;
use crate::engine::{Part, options, said};
use crate::labels;
use crate::state::{Action, Given, ROWS, Rows};
use crate::view::{PlayedOn, StaffView};
use gloo_timers::callback::Timeout;
use js_sys::Array;
use modewright_components::Staff;
use modewright_components::player::{Played, Player, Settings};
use modewright_sound::{PerformOptions, Performance};
use std::rc::Rc;
use wasm_bindgen::JsValue;
use yew::prelude::*;

/// How long the text must rest before the staff is drawn again, in milliseconds.
const PAUSE: u32 = 120;

#[derive(Properties)]
pub(crate) struct StaffPlaceProps {
    pub(crate) analysis: Rc<Analysis>,
    pub(crate) view: StaffView,
    pub(crate) rows: Rows,
    pub(crate) given: Given,
    pub(crate) pointed: Option<usize>,
    pub(crate) sound: Settings,
    pub(crate) act: Callback<Action>,
}

impl PartialEq for StaffPlaceProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.analysis, &other.analysis)
            && self.view == other.view
            && self.rows == other.rows
            && self.given == other.given
            && self.pointed == other.pointed
            && self.sound == other.sound
            && self.act == other.act
    }
}

/// What the picture of the staff is asked for.
#[derive(Clone, PartialEq)]
struct Asked {
    analysis: usize,
    rows: Rows,
    given: Given,
    played: Option<PlayedOn>,
    width: u32,
    tries: u32,
}

impl Asked {
    fn options(&self) -> JsValue {
        let told = |text: &str| (!text.is_empty()).then(|| JsValue::from_str(text));
        let names = |names: &mut dyn Iterator<Item = &'static str>| -> JsValue {
            names.map(JsValue::from_str).collect::<Array>().into()
        };
        let shown = ROWS.into_iter().filter(|row| self.rows.has(*row));
        let rows = names(&mut shown.map(labels::row));
        let played = self.played.as_ref();
        options([
            ("width", Some(self.width.clamp(240, 1600).into())),
            ("rows", Some(rows)),
            ("mark", Some(names(&mut ["home", "lowest", "highest", "forms"].into_iter()))),
            ("metre", told(self.given.metre)),
            ("pickup", told(self.given.pickup)),
            ("on", played.and_then(|it| told(&it.id))),
            ("style", played.and_then(|it| told(&it.style))),
            ("own", played.and_then(|it| told(&it.own))),
        ])
    }
}

/// The picture of the staff and, where there is none, why.
type Drawn = Result<AttrValue, String>;

/// The engine's picture, asked for when everything has rested; an answer that comes late for an
/// older question is dropped, and the picture before stays until the next is there.
#[hook]
fn use_picture(analysis: &Rc<Analysis>, asked: Asked) -> Drawn {
    let drawn = use_state(|| Ok(AttrValue::Static("")));
    let question = use_mut_ref(|| 0_u32);
    {
        let (drawn, analysis) = (drawn.setter(), analysis.clone());
        use_effect_with(asked, move |asked| {
            *question.borrow_mut() += 1;
            let (this, asked) = (*question.borrow(), asked.clone());
            let pause = (asked.width > 0).then(|| {
                Timeout::new(PAUSE, move || {
                    let values = [analysis.own_text().into(), asked.options()];
                    Part::Engine.ask("sheetSvg", values, move |answer| {
                        if *question.borrow() == this {
                            drawn.set(match answer {
                                Ok(svg) => Ok(svg.as_string().unwrap_or_default().into()),
                                Err(why) => Err(said(&why)),
                            });
                        }
                    });
                })
            });
            move || drop(pause)
        });
    }
    (*drawn).clone()
}

#[component]
pub(crate) fn StaffPlace(props: &StaffPlaceProps) -> Html {
    let node = use_node_ref();
    let width = effects::use_width(&node);
    let tries = use_state(|| 0_u32);
    let asked = Asked {
        analysis: Rc::as_ptr(&props.analysis) as usize,
        rows: props.rows,
        given: props.given,
        played: props.view.played.clone(),
        width,
        tries: *tries,
    };
    let drawn = use_picture(&props.analysis, asked);
    let again = Callback::from(move |_: MouseEvent| tries.set(*tries + 1));
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
            if let Err(why) = &drawn {
                <p class="no-staff" role="status">
                    { why.clone() }
                    <button type="button" onclick={again}>{ labels::instrument::AGAIN }</button>
                </p>
            }
            <Staff picture={drawn.unwrap_or_default()} label={labels::STAFF} notes={props.view.notes.clone()}
                pointed={props.pointed} lit={*lit} {on_point} />
            <p class="pointed-said" role="status">
                { props.view.told.clone().unwrap_or_else(|| labels::STAFF_HINT.to_owned()) }
            </p>
            <Player perform={(*perform).clone()} home={props.view.home} last_bar={props.view.last_bar}
                settings={props.sound} {on_settings} {on_lit} words={(*words).clone()} />
        </div>
    }
}

//! What the engine is asked for the lesson: nothing before the place is near, and again when the
//! tune or the choices have rested for a moment. An answer that comes for an older question is
//! dropped.

use crate::analysis::Analysis;
use crate::engine::{Part, said, set};
use crate::labels;
use crate::lesson::{CHOICES, MARKS};
use crate::state::{Given, ROWS, State};
use gloo_timers::callback::Timeout;
use js_sys::{Array, Object, Reflect};
use modewright_lesson::walk::Walk;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use yew::prelude::*;

/// How long tune and choices must rest, in milliseconds.
const PAUSE: u32 = 300;

/// What the engine wrote.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Printed {
    /// The walk-through; `None` before it is there.
    pub(super) walk: Option<Rc<Walk>>,
    /// The sheet as pictures, a system each.
    pub(super) figure: AttrValue,
    /// What to look up before the tune is published.
    pub(super) open: Vec<String>,
    /// Why there is none.
    pub(super) trouble: Option<String>,
}

#[hook]
pub(super) fn use_printed(
    near: bool,
    analysis: &Rc<Analysis>,
    state: &State,
    tries: u32,
) -> Printed {
    let printed = use_state(Printed::default);
    let question = use_mut_ref(|| 0_u32);
    let played = &state.instrument;
    let played = (played.id.clone(), played.style.clone(), played.own_text.clone());
    let asked =
        (near, Rc::as_ptr(analysis) as usize, state.lesson.choices(), state.given, played, tries);
    {
        let (text, told) = (analysis.own_text(), options(state));
        let (given, printed) = (state.given, printed.setter());
        use_effect_with(asked, move |_| {
            let mine = {
                let mut question = question.borrow_mut();
                *question += 1;
                *question
            };
            let ask = move || {
                let take = move |answer: Result<Printed, JsValue>| {
                    if *question.borrow() == mine {
                        printed.set(answer.unwrap_or_else(|error| Printed {
                            trouble: Some(said(&error)),
                            ..Printed::default()
                        }));
                    }
                };
                print(&text, told.into(), given, take);
            };
            let pause = near.then(|| Timeout::new(PAUSE, ask));
            move || drop(pause)
        });
    }
    (*printed).clone()
}

/// Asks for the walk-through, then for the sheet.
fn print(
    text: &str,
    told: JsValue,
    given: Given,
    take: impl FnOnce(Result<Printed, JsValue>) + 'static,
) {
    let text = JsValue::from_str(text);
    let values = [text.clone(), told.clone()];
    Part::Print.ask("walk", values, move |answer| {
        let markdown = answer.and_then(|answer| Reflect::get(&answer, &"markdown".into()));
        let walk = match markdown {
            Ok(markdown) => Walk::from_markdown(&markdown.as_string().unwrap_or_default()),
            Err(error) => return take(Err(error)),
        };
        // The sheet alone: its words are those of the page.
        set(&told, "words", &"".into());
        let header = [text.clone(), of_text(given).into()];
        Part::Print.ask("sheetHtml", [text, told], move |page| {
            let page = match page {
                Ok(page) => page,
                Err(error) => return take(Err(error)),
            };
            Part::Print.ask("rights", header, move |open| {
                let open = open.map(|open| Array::from(&open)).unwrap_or_default();
                let page = page.as_string().unwrap_or_default();
                let figure = page.find("<figure").zip(page.find("</figure>"));
                let figure = figure.and_then(|(from, to)| page.get(from..to));
                let figure = figure.map(|figure| format!("{figure}</figure>"));
                take(Ok(Printed {
                    walk: Some(Rc::new(walk)),
                    figure: figure.unwrap_or_default().into(),
                    open: open.iter().filter_map(|line| line.as_string()).collect(),
                    trouble: None,
                }));
            });
        });
    });
}

/// The options of everything that is printed.
pub(super) fn options(state: &State) -> Object {
    let (lesson, played) = (&state.lesson, &state.instrument);
    let options = of_text(state.given);
    if !played.id.is_empty() {
        for (name, value) in
            [("on", &played.id), ("own", &played.own_text), ("style", &played.style)]
        {
            if !value.is_empty() {
                set(&options, name, &JsValue::from_str(value));
            }
        }
    }
    let rows = ROWS.into_iter().filter(|row| lesson.rows.has(*row));
    let rows: Array = rows.map(|row| JsValue::from_str(labels::row(row))).collect();
    set(&options, "rows", &rows);
    let marks = MARKS.iter().enumerate().filter(|(at, _)| lesson.marks(*at));
    let marks: Array = marks.map(|(_, name)| JsValue::from_str(name)).collect();
    set(&options, "mark", &marks);
    for choice in CHOICES {
        set(&options, choice.name(), &lesson.word(choice).into());
    }
    options
}

/// The options of a text.
pub(super) fn of_text(given: Given) -> Object {
    let options = Object::new();
    for (name, value) in [("metre", given.metre), ("pickup", given.pickup)] {
        if !value.is_empty() {
            set(&options, name, &value.into());
        }
    }
    options
}

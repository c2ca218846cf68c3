//! What the engine is asked for the lesson: nothing before the place is near, and again when the
//! tune or the choices have rested for a moment. An answer that comes for an older question is
//! dropped.

use crate::analysis::Analysis;
use crate::engine::{Part, said};
use crate::labels;
use crate::lesson::{CHOICES, Lesson, MARKS};
use crate::state::{Given, ROWS};
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
    /// Why there is none.
    pub(super) trouble: Option<String>,
}

#[hook]
pub(super) fn use_printed(
    near: bool,
    analysis: &Rc<Analysis>,
    lesson: &Lesson,
    given: Given,
    tries: u32,
) -> Printed {
    let printed = use_state(Printed::default);
    let question = use_mut_ref(|| 0_u32);
    let asked = (near, Rc::as_ptr(analysis) as usize, lesson.choices(), given, tries);
    {
        let (analysis, lesson, printed) = (analysis.clone(), lesson.clone(), printed.setter());
        use_effect_with(asked, move |_| {
            let mine = {
                let mut question = question.borrow_mut();
                *question += 1;
                *question
            };
            let ask = move || {
                wasm_bindgen_futures::spawn_local(async move {
                    let answer = print(&analysis, &lesson, given).await;
                    if *question.borrow() == mine {
                        printed.set(answer.unwrap_or_else(|error| Printed {
                            trouble: Some(said(&error)),
                            ..Printed::default()
                        }));
                    }
                });
            };
            let pause = near.then(|| Timeout::new(PAUSE, ask));
            move || drop(pause)
        });
    }
    (*printed).clone()
}

async fn print(analysis: &Analysis, lesson: &Lesson, given: Given) -> Result<Printed, JsValue> {
    let text = JsValue::from_str(&analysis.own_text());
    let options = options(lesson, given)?;
    let answer = Part::Print.call("walk", vec![text.clone(), options.clone().into()]).await?;
    let markdown = Reflect::get(&answer, &"markdown".into())?.as_string().unwrap_or_default();
    // The sheet alone: its words are those of the page.
    Reflect::set(&options, &"words".into(), &"".into())?;
    let page = Part::Print.call("sheetHtml", vec![text, options.into()]).await?;
    let page = page.as_string().unwrap_or_default();
    let figure = page
        .find("<figure")
        .zip(page.find("</figure>"))
        .and_then(|(from, to)| page.get(from..to).map(|figure| format!("{figure}</figure>")));
    Ok(Printed {
        walk: Some(Rc::new(Walk::from_markdown(&markdown))),
        figure: figure.unwrap_or_default().into(),
        trouble: None,
    })
}

/// The options of everything that is printed.
pub(super) fn options(lesson: &Lesson, given: Given) -> Result<Object, JsValue> {
    let options = of_text(given)?;
    let set = |name: &str, value: &JsValue| Reflect::set(&options, &name.into(), value);
    let rows = ROWS.into_iter().filter(|row| lesson.rows.has(*row));
    set("rows", &rows.map(|row| JsValue::from_str(labels::row(row))).collect::<Array>())?;
    let marks = MARKS.iter().enumerate().filter(|(at, _)| lesson.marks(*at));
    set("mark", &marks.map(|(_, name)| JsValue::from_str(name)).collect::<Array>())?;
    for choice in CHOICES {
        set(choice.name(), &lesson.word(choice).into())?;
    }
    Ok(options)
}

/// The options of a text.
pub(super) fn of_text(given: Given) -> Result<Object, JsValue> {
    let options = Object::new();
    for (name, value) in [("metre", given.metre), ("pickup", given.pickup)] {
        if !value.is_empty() {
            Reflect::set(&options, &name.into(), &value.into())?;
        }
    }
    Ok(options)
}

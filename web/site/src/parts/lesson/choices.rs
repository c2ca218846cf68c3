//! What the lesson shows.

use crate::analysis::Analysis;
use crate::labels::{self, lesson as said};
use crate::lesson::{CHOICES, Choice, Lesson, LessonAction, MARKS};
use crate::state::{Action, ROWS};
use modewright_core::MetreKind;
use modewright_core::tune::MarkKind;
use modewright_sheet::RowKind;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

pub(super) fn choices(analysis: &Analysis, lesson: &Lesson, act: &Callback<Action>) -> Html {
    let tune = &analysis.reading.tune;
    let sung = tune.marks.iter().any(|mark| matches!(mark.kind, MarkKind::Lyric { .. }));
    let rows = ROWS.into_iter().filter(|row| match row {
        RowKind::Words => sung,
        RowKind::Fingering | RowKind::Bellows => false,
        RowKind::Degree | RowKind::Solfa => analysis.key().is_some(),
        RowKind::Note | RowKind::Count => true,
    });
    let kind = tune.metre.kind();
    let counted = |choice: &Choice| match choice {
        Choice::Simple => kind == MetreKind::Simple,
        Choice::Compound => kind == MetreKind::Compound,
        Choice::Uneven => kind == MetreKind::Irregular,
        _ => true,
    };
    let tick = |name: &'static str, ticked: bool, action: LessonAction| {
        let act = act.clone();
        let onchange = move |_: Event| act.emit(Action::Lesson(action.clone()));
        html! { <label><input type="checkbox" checked={ticked} {onchange} />{ name }</label> }
    };
    html! {
        <div class="lesson-choices" role="group" aria-label={said::CHOICES}>
            <fieldset class="rows">
                <legend>{ labels::ROWS }</legend>
                { for rows.map(|row| {
                    let shown = lesson.rows.has(row);
                    tick(labels::row(row), shown, LessonAction::Row(row, !shown))
                }) }
            </fieldset>
            <fieldset class="rows">
                <legend>{ said::MARKED }</legend>
                { for MARKS.iter().enumerate().map(|(at, name)| {
                    tick(name, lesson.marks(at), LessonAction::Mark(at, !lesson.marks(at)))
                }) }
            </fieldset>
            <div class="selects">
                { for CHOICES.into_iter().filter(counted).map(|choice| select(choice, lesson, act)) }
            </div>
        </div>
    }
}

fn select(choice: Choice, lesson: &Lesson, act: &Callback<Action>) -> Html {
    let onchange = {
        let act = act.clone();
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            let at = select.and_then(|select| usize::try_from(select.selected_index()).ok());
            if let Some(at) = at {
                act.emit(Action::Lesson(LessonAction::Choose(choice, at)));
            }
        })
    };
    html! {
        <label class="select">
            <span>{ said::choice(choice) }</span>
            <select {onchange}>
                { for said::options(choice).iter().enumerate().map(|(at, name)| html! {
                    <option selected={at == lesson.chosen(choice)}>{ *name }</option>
                }) }
            </select>
        </label>
    }
}

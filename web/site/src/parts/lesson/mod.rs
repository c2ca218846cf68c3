//! The last place: what a tutor prints, saves and sends.

mod asked;
mod choices;
mod passage;
mod saves;
mod share;
mod walk;

use crate::analysis::Analysis;
use crate::browser::{print_lesson, use_near};
use crate::labels::{self, lesson as said};
use crate::lesson::{Choice, LessonAction};
use crate::passages::told;
use crate::state::{Action, Origin, State};
use asked::{Printed, use_printed};
use choices::choices;
use modewright_lesson::words::rights;
use saves::Saves;
use share::Share;
use std::rc::Rc;
use walk::walk;
use yew::prelude::*;

#[derive(Properties)]
pub(crate) struct LessonPlaceProps {
    pub(crate) analysis: Rc<Analysis>,
    pub(crate) state: UseReducerHandle<State>,
    /// Whether the device takes the reader's words.
    pub(crate) is_kept: bool,
    pub(crate) act: Callback<Action>,
}

impl PartialEq for LessonPlaceProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.analysis, &other.analysis)
            && self.state == other.state
            && self.is_kept == other.is_kept
            && self.act == other.act
    }
}

#[component]
pub(crate) fn LessonPlace(props: &LessonPlaceProps) -> Html {
    let LessonPlaceProps { analysis, state, is_kept, act } = props;
    let node = use_node_ref();
    let near = use_near(&node);
    let (printed, again) = use_printed(near, analysis, &state.lesson, state.given);
    let on_paper = format!("on-{}", state.lesson.word(Choice::Paper));
    let has_notes = analysis.reading.tune.soundings().next().is_some();
    html! {
        <section class={classes!("lesson-place", on_paper)} aria-labelledby="lesson" ref={node}>
            <h2 id="lesson" tabindex="-1">{ labels::LESSON }</h2>
            if has_notes {
                { filled(analysis, state, &printed, *is_kept, &again, act) }
            } else {
                <p class="aside">{ said::EMPTY }</p>
            }
        </section>
    }
}

fn filled(
    analysis: &Rc<Analysis>,
    state: &UseReducerHandle<State>,
    printed: &Printed,
    is_kept: bool,
    again: &Callback<MouseEvent>,
    act: &Callback<Action>,
) -> Html {
    let lesson = &state.lesson;
    let on = |action: LessonAction| {
        let act = act.clone();
        Callback::from(move |_: MouseEvent| act.emit(Action::Lesson(action.clone())))
    };
    let open = match state.origin {
        Origin::Demo(_) => Vec::new(),
        _ => rights(&analysis.reading.tune.header),
    };
    html! {
        <>
            <p class="aside">{ said::PURPOSE }</p>
            { choices(analysis, lesson, act) }
            <div class="deeds">
                <button type="button" disabled={printed.walk.is_none()} onclick={|_| print_lesson()}>{ said::PRINT }</button>
                <button type="button" disabled={!lesson.can_undo()} onclick={on(LessonAction::Undo)}>{ said::UNDO }</button>
            </div>
            <Saves analysis={analysis.clone()} state={state.clone()} walk={printed.walk.clone()} />
            <Share analysis={analysis.clone()} state={state.clone()} />
            if !open.is_empty() {
                <div class="rights" role="note" aria-label={said::RIGHTS}>
                    <h3>{ said::RIGHTS }</h3>
                    <ul>{ for open.into_iter().map(|line| html! { <li>{ line }</li> }) }</ul>
                </div>
            }
            if !is_kept { <p class="refused" role="alert">{ said::NOT_KEPT }</p> }
            <div role="status">
                if let Some(trouble) = &printed.trouble {
                    <p class="trouble">{ trouble }</p>
                    <button type="button" onclick={again}>{ said::AGAIN }</button>
                } else if printed.walk.is_none() {
                    <p class="aside">{ said::WRITING }</p>
                }
            </div>
            if let Some(known) = &printed.walk {
                <article class="paper" aria-label={known.title.clone()}>
                    <h3 class="paper-title">{ &known.title }</h3>
                    <div class="sheets">{ Html::from_html_unchecked(printed.figure.clone()) }</div>
                    { walk(told(known, lesson.edits()), act) }
                </article>
            }
        </>
    }
}

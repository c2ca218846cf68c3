//! The last place: what a tutor prints, saves and sends.

mod asked;
mod choices;
mod deeds;
mod saves;
mod share;
mod walk;

use crate::analysis::Analysis;
use crate::browser::use_near;
use crate::kept::write_link;
use crate::labels::{self, lesson as said};
use crate::lesson::Choice;
use crate::parts::tags::{button, of, says, tag};
use crate::passages::told;
use crate::state::{Action, Origin, State};
use asked::{Printed, use_printed};
use choices::choices;
use deeds::Deeds;
use saves::saves;
use share::{mark, share};
use std::rc::Rc;
use walk::walk;
use yew::prelude::*;

/// The place. A hook of the page rather than a component, because each component costs the page
/// some thousand bytes.
#[hook]
pub(crate) fn use_lesson_place(
    analysis: &Rc<Analysis>,
    state: &UseReducerHandle<State>,
    // Whether the device takes the reader's words.
    is_kept: bool,
    act: &Callback<Action>,
) -> Html {
    let node = use_node_ref();
    let near = use_near(&node);
    let tries = use_state(|| 0_u32);
    let printed = use_printed(near, analysis, state, *tries);
    let status = use_state(String::new);
    // A link or code, and for a link what it was made of.
    let (shown, held) = (use_state(String::new), use_state(String::new));
    let copied = use_state(String::new);
    use_effect_with((*shown).clone(), |shown| {
        if !shown.is_empty() {
            mark();
        }
    });
    let deeds = Deeds {
        analysis: analysis.clone(),
        state: state.clone(),
        walk: printed.walk.clone(),
        act: act.clone(),
        tries,
        status: status.setter(),
        shown: shown.clone(),
        held: held.setter(),
        copied: copied.setter(),
    };
    let deeds = Rc::new(deeds);
    let onclick = {
        let deeds = deeds.clone();
        Callback::from(move |event: MouseEvent| deeds.click(&event))
    };
    let onchange = {
        let deeds = deeds.clone();
        Callback::from(move |event: Event| deeds.change(&event))
    };
    let oninput = Callback::from(move |event: InputEvent| deeds.input(&event));
    // A link that holds another state than the page is a link no more.
    let is_stale = !held.is_empty() && **held != *write_link(state);
    let shown = if is_stale { "" } else { shown.as_str() };
    let inside = if analysis.reading.tune.soundings().next().is_some() {
        vec![
            says("p", "aside", said::PURPOSE),
            choices(analysis, state),
            of(
                "div",
                "deeds",
                vec![
                    button(said::PRINT, "print", printed.walk.is_some()),
                    button(said::UNDO, "undo", state.lesson.can_undo()),
                ],
            ),
            saves(&status),
            share(shown, &copied),
            reminder(&printed, state),
            if is_kept { Html::default() } else { says("p", "refused", said::NOT_KEPT) },
            waiting(&printed),
            paper(&printed, state),
        ]
    } else {
        vec![says("p", "aside", said::EMPTY)]
    };
    let on_paper = format!("lesson-place on-{}", state.lesson.word(Choice::Paper));
    html! {
        <section class={on_paper} aria-labelledby="lesson" ref={node} {onclick} {onchange} {oninput}>
            <h2 id="lesson" tabindex="-1">{ labels::LESSON }</h2>
            { inside }
        </section>
    }
}

/// What to look up before the tune is published.
fn reminder(printed: &Printed, state: &State) -> Html {
    let open = &printed.open;
    if open.is_empty() || matches!(state.origin, Origin::Demo(_)) {
        return Html::default();
    }
    let lines = open.iter().map(|line| says("li", "", line)).collect();
    let parts = vec![says("h3", "", said::RIGHTS), of("ul", "", lines)];
    tag("div", &["class", "role", "aria-label"], &["rights", "note", said::RIGHTS], parts)
}

/// What is said while there is no lesson yet.
fn waiting(printed: &Printed) -> Html {
    let parts = match (&printed.trouble, &printed.walk) {
        (Some(trouble), _) => {
            vec![says("p", "trouble", trouble), button(said::AGAIN, "again", true)]
        }
        (None, None) => vec![says("p", "aside", said::WRITING)],
        _ => Vec::new(),
    };
    tag("div", &["role"], &["status"], parts)
}

/// Sheet and walk-through.
fn paper(printed: &Printed, state: &State) -> Html {
    let Some(known) = &printed.walk else { return Html::default() };
    let parts = vec![
        says("h3", "paper-title", &known.title),
        of("div", "sheets", vec![Html::from_html_unchecked(printed.figure.clone())]),
        walk(told(known, state.lesson.edits())),
    ];
    let title = if known.title.is_empty() { labels::LESSON } else { &known.title };
    tag("article", &["class", "aria-label"], &["paper", title], parts)
}

//! The page put together.

use crate::analysis::Analysis;
use crate::effects::{self, Files};
use crate::parts;
use crate::state::{Action, State};
use crate::{asking, browser, labels, view, words_kept};
use std::rc::Rc;
use yew::prelude::*;

impl Reducible for State {
    type Action = Action;

    fn reduce(self: Rc<Self>, action: Action) -> Rc<Self> {
        Rc::new(self.after(action))
    }
}

/// Starts the page in the place that the document keeps for it.
pub(crate) fn start() {
    let place = effects::document().and_then(|document| document.get_element_by_id("page"));
    if let Some(place) = place {
        // What the document says while it loads makes room for the page.
        place.set_inner_html("");
        yew::Renderer::<App>::with_root(place).render();
    }
}

#[component]
fn App() -> Html {
    let state = use_reducer(effects::first);
    effects::use_keeping(&state);
    let analysis = use_memo(
        (state.text.clone(), state.defaults.clone(), state.chosen, state.given),
        |(text, defaults, chosen, given)| Analysis::of(text, defaults, *chosen, *given),
    );
    let page = view::view(&analysis, &state);
    let demos = use_memo((), |()| view::demos());
    let node = use_node_ref();
    let act = {
        let dispatcher = state.dispatcher();
        Callback::from(move |action| dispatcher.dispatch(action))
    };
    asking::use_engine(&analysis, &state.instrument, state.given, &act);
    let files = Files::new(act.clone());
    let is_kept = words_kept::use_words_kept(state.lesson.all(), &act);
    {
        let act = act.clone();
        use_effect_with((), move |()| browser::take_link(&act));
    }
    {
        let act = act.clone();
        browser::use_window_event("hashchange", move |_| browser::take_link(&act));
    }
    let lesson = parts::use_lesson_place(&analysis, &state, is_kept, &act);
    let over = use_state(|| false);
    let ondragover = {
        let over = over.clone();
        Callback::from(move |event: DragEvent| {
            if effects::brings_file(&event) {
                event.prevent_default();
                over.set(true);
            }
        })
    };
    let ondragleave = {
        let over = over.clone();
        Callback::from(move |event: DragEvent| {
            if effects::leaves_page(&event) {
                over.set(false);
            }
        })
    };
    let ondrop = {
        let (over, files) = (over.clone(), files.clone());
        Callback::from(move |event: DragEvent| {
            over.set(false);
            if effects::brings_file(&event) {
                event.prevent_default();
                files.open_dropped(&event);
            }
        })
    };
    html! {
        <div class="page" {ondragover} {ondragleave} {ondrop}>
            if *over { <p class="drop" role="status">{ labels::DROP }</p> }
            <header class="top">
                <h1>{ labels::NAME }</h1>
                <p>{ labels::PURPOSE }</p>
            </header>
            <main>
                <section class="tune" aria-labelledby="tune">
                    <h2 id="tune" tabindex="-1">{ labels::TUNE }</h2>
                    { parts::tools(&state, &demos, &files, &act) }
                    <p class="refused" role="alert">{ page.refused.clone().unwrap_or_default() }</p>
                    { parts::tune_list(page.list.as_ref(), &state.search, &act) }
                    { parts::field(&state.text, &analysis, &page, &node, &act) }
                    { parts::given(&analysis, &state, &act) }
                </section>
                { parts::verdict(&page.verdict) }
                <div class="about-text">
                    { parts::about_text(&state.text, &page, &node) }
                    if let Some(view) = &page.staff {
                        <parts::StaffPlace analysis={analysis.clone()} view={view.clone()} rows={state.rows}
                            given={state.given} pointed={state.pointed} sound={state.sound} act={act.clone()} />
                    }
                </div>
                { parts::wheel_place(&page, &act) }
                <section class="mode" aria-labelledby="mode">
                    <h2 id="mode" tabindex="-1">{ labels::MODE }</h2>
                    { parts::mode(&page, &act) }
                </section>
                <parts::InstrumentPlace analysis={analysis.clone()} text={state.text.clone()}
                    chosen={state.instrument.clone()} act={act.clone()} />
                { lesson }
                <footer>
                    <p>{ labels::RIGHTS }</p>
                    <nav class="book" aria-label={labels::BOOK}>
                        <p>{ labels::BOOK }{ ":" }</p>
                        <ul>
                            { for labels::CHAPTERS.into_iter().map(|(chapter, name)| html! {
                                <li><a href={format!("book/{chapter}.html")}>{ name }</a></li>
                            }) }
                        </ul>
                    </nav>
                </footer>
            </main>
        </div>
    }
}

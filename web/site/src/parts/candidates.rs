//! The other candidates with their chances.

use crate::labels;
use crate::state::Action;
use crate::view::Page;
use modewright_components::Chances;
use yew::prelude::*;

pub(crate) fn candidates(page: &Page, act: &Callback<Action>) -> Html {
    if page.chances.is_empty() {
        return Html::default();
    }
    let on_choose = {
        let (act, keys) = (act.clone(), page.candidates.clone());
        Callback::from(move |place: usize| {
            if let Some(key) = keys.get(place) {
                act.emit(Action::Turn(*key));
            }
        })
    };
    html! {
        <div class="candidates">
            <h3>{ labels::CHANCES }</h3>
            <p class="aside">{ labels::CHANCES_HINT }</p>
            <Chances bars={page.chances.clone()} title={labels::CHANCES} chosen={page.candidate} {on_choose} />
        </div>
    }
}

//! The walk-through, passage by passage.

use super::passage::PassagePlace;
use crate::labels::lesson as said;
use crate::lesson::{Edit, LessonAction};
use crate::passages::Told;
use crate::state::Action;
use yew::prelude::*;

pub(super) fn walk((told, gone): (Told, Vec<Edit>), act: &Callback<Action>) -> Html {
    html! {
        <div class="walk">
            { for told.into_iter().map(|(heading, passages)| html! {
                <section key={heading.clone()}>
                    <h4>{ &heading }</h4>
                    { for passages.into_iter().enumerate().map(|(at, passage)| {
                        let (key, step) = (passage.place.clone(), passage.is_step.then_some(at + 1));
                        let name = said::passage(&heading, at + 1);
                        html! { <PassagePlace {key} {name} {step} {passage} act={act.clone()} /> }
                    }) }
                </section>
            }) }
            if !gone.is_empty() {
                <section class="gone">
                    <h4>{ said::GONE }</h4>
                    <p class="aside">{ said::GONE_HINT }</p>
                    { for gone.into_iter().map(|Edit { place, now, .. }| {
                        let act = act.clone();
                        html! {
                            <div class="gone-words">
                                <p>{ now }</p>
                                <button type="button" onclick={move |_| act.emit(Action::Lesson(LessonAction::TakeBack(place.clone())))}>{ said::LET_GO }</button>
                            </div>
                        }
                    }) }
                </section>
            }
        </div>
    }
}

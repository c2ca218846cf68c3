//! The verdict in one line, always in view.

use crate::view::VerdictView;
use yew::prelude::*;

pub(crate) fn verdict(verdict: &VerdictView) -> Html {
    html! {
        <div class={classes!("verdict", verdict.kind)} role="status">
            <p class="verdict-line">{ &verdict.line }</p>
            if let Some(sure) = &verdict.sure { <p class="sure">{ sure }</p> }
        </div>
    }
}

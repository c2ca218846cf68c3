//! The verdict in one line, always in view.

use crate::view::VerdictView;
use yew::prelude::*;

#[derive(Clone, PartialEq, Properties)]
pub(crate) struct VerdictProps {
    pub(crate) verdict: VerdictView,
}

#[component]
pub(crate) fn Verdict(props: &VerdictProps) -> Html {
    let verdict = &props.verdict;
    html! {
        <div class={classes!("verdict", verdict.kind)} role="status">
            <p class="verdict-line">{ &verdict.line }</p>
            if let Some(sure) = &verdict.sure { <p class="sure">{ sure }</p> }
        </div>
    }
}

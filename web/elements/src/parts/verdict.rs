//! The verdict on a tune.

use modewright_components::analysis::Analysis;
use modewright_lesson::answer::verdict_name;
use yew::prelude::*;

/// The verdict in a line, and how sure it is.
pub(crate) fn verdict(analysis: &Analysis, line: bool, sure: bool) -> Html {
    let said = &analysis.words;
    html! {
        <div class={classes!("verdict", verdict_name(analysis.finding.verdict))} role="status">
            if line { <p class="verdict-line">{ &said.verdict }</p> }
            if sure {
                if let Some(sure) = &said.sure { <p class="sure">{ sure }</p> }
            }
        </div>
    }
}

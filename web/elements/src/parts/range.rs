//! How low and how high a tune goes.

use super::heading;
use modewright_components::analysis::Analysis;
use modewright_components::view::range;
use modewright_components::{labels, range_picture};
use yew::prelude::*;

/// The picture and its words; nothing for a tune without notes.
pub(crate) fn range_place(analysis: &Analysis, level: u8) -> Html {
    let Some(range) = range(analysis) else { return Html::default() };
    html! {
        <div class="range">
            { heading(level, labels::RANGE) }
            { range_picture::picture(&range.range, range.home, &range.words) }
            <dl>
                { for range.lines.iter().map(|(name, line)| html! {
                    <div><dt>{ *name }</dt><dd>{ line }</dd></div>
                }) }
            </dl>
        </div>
    }
}

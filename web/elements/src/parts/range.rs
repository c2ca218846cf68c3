//! How low and how high a tune goes.

use super::heading;
use modewright_components::RangePicture;
use modewright_components::analysis::Analysis;
use modewright_components::labels;
use modewright_components::view::range;
use yew::prelude::*;

/// The picture and its words; nothing for a tune without notes.
pub(crate) fn range_place(analysis: &Analysis, level: u8) -> Html {
    let Some(range) = range(analysis) else { return Html::default() };
    html! {
        <div class="range">
            { heading(level, labels::RANGE) }
            <RangePicture range={range.range} home={range.home} words={range.words.clone()} />
            <dl>
                { for range.lines.iter().map(|(name, line)| html! {
                    <div><dt>{ *name }</dt><dd>{ line }</dd></div>
                }) }
            </dl>
        </div>
    }
}

//! The walk through a tune.

use super::heading;
use modewright_components::analysis::Analysis;
use modewright_lesson::walk::{Paragraph, Values, WalkOptions, Wording, walk};
use yew::prelude::*;

/// The walk, section by section.
pub(crate) fn walk_place(analysis: &Analysis, values: Values, level: u8) -> Html {
    let options = WalkOptions { values, ..WalkOptions::default() };
    let tune = &analysis.reading.tune;
    let walk = walk(tune, &analysis.finding, &Wording::english(), &options);
    html! {
        <div class="walk">
            { for walk.sections.iter().map(|section| {
                let (steps, told): (Vec<&Paragraph>, Vec<&Paragraph>) =
                    section.paragraphs.iter().partition(|paragraph| paragraph.is_step);
                html! {
                    <>
                        if !section.heading.is_empty() { { heading(level, &section.heading) } }
                        { for told.into_iter().map(|paragraph| html! {
                            <p>
                                if let Some(label) = &paragraph.label { <b>{ label }{ ". " }</b> }
                                { &paragraph.text }
                            </p>
                        }) }
                        if !steps.is_empty() {
                            <ol>{ for steps.into_iter().map(|step| html! { <li>{ &step.text }</li> }) }</ol>
                        }
                    </>
                }
            }) }
        </div>
    }
}

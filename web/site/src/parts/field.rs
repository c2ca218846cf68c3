//! The text field. A copy of the text lies under it and carries the marks; the two share one
//! cell, so that they always line up and the copy makes the field as high as its text.

use crate::analysis::Analysis;
use crate::effects::{caret, go_to};
use crate::labels;
use crate::marks::MarkKind;
use crate::state::Action;
use crate::view::{Page, note_at};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

/// The field itself.
pub(crate) fn field(
    text: &Rc<str>,
    analysis: &Rc<Analysis>,
    page: &Page,
    node: &NodeRef,
    act: &Callback<Action>,
) -> Html {
    // A click into the text points at the note that stands there.
    let onclick = {
        let (act, text, analysis) = (act.clone(), text.clone(), analysis.clone());
        Callback::from(move |event: MouseEvent| {
            let field = event.target().and_then(|t| t.dyn_into::<HtmlTextAreaElement>().ok());
            let byte = field.and_then(|field| caret(&field, &text));
            act.emit(Action::Point(byte.and_then(|byte| note_at(&analysis, byte))));
        })
    };
    let oninput = {
        let act = act.clone();
        Callback::from(move |event: InputEvent| {
            let field = event.target().and_then(|t| t.dyn_into::<HtmlTextAreaElement>().ok());
            if let Some(field) = field {
                act.emit(Action::Type(field.value()));
            }
        })
    };
    let described = if page.problems.is_empty() { None } else { Some("problems") };
    html! {
            <div class="field">
                <div class="field-grid">
                    <div class="copy" aria-hidden="true">
                        { for page.pieces.iter().map(|piece| {
                            let piece_text = text.get(piece.range.clone()).unwrap_or_default().to_owned();
                            if piece.kinds.is_empty() {
                                return html! { <>{ piece_text }</> };
                            }
                            let class = piece.kinds.iter().copied().map(class).collect::<Classes>();
                            html! { <mark {class} data-at={piece.range.start.to_string()}>{ piece_text }</mark> }
                        }) }
                        { "\u{200b}" }
                    </div>
                    <textarea ref={node.clone()} value={text.to_string()} {oninput} {onclick}
                        aria-label={labels::FIELD} placeholder={labels::FIELD_HINT} aria-describedby={described}
                        autocomplete="off" autocapitalize="off" autocorrect="off" spellcheck="false" rows="4" />
                </div>
            </div>
    }
}

fn class(kind: MarkKind) -> &'static str {
    match kind {
        MarkKind::Reason => "reason",
        MarkKind::Note => "note",
        MarkKind::Warning => "warning",
        MarkKind::Error => "error",
    }
}

/// What there is to say about the text: that it is invented, and the problems in words, each
/// leading to its place.
pub(crate) fn about_text(text: &Rc<str>, page: &Page, node: &NodeRef) -> Html {
    html! {
        <>
            if page.invented { <p class="invented">{ labels::INVENTED }</p> }
            if !page.problems.is_empty() { { problems(text, page, node) } }
        </>
    }
}

fn problems(text: &Rc<str>, page: &Page, node: &NodeRef) -> Html {
    html! {
        <div class="problems" id="problems">
            <h3>{ labels::PROBLEMS }</h3>
            <ul>
                { for page.problems.iter().map(|problem| {
                    let (field, text, at) = (node.clone(), text.clone(), problem.at);
                    let onclick = Callback::from(move |_: MouseEvent| go_to(&field, &text, at));
                    html! {
                        <li class={class(problem.kind)}>
                            <button type="button" class="place" {onclick}>{ &problem.place }</button>
                            <span class="message">{ &problem.message }</span>
                            if !problem.hint.is_empty() { <span class="hint">{ &problem.hint }</span> }
                        </li>
                    }
                }) }
            </ul>
            if page.more_problems > 0 { <p>{ labels::more_problems(page.more_problems) }</p> }
        </div>
    }
}

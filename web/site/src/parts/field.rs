//! The text field. A copy of the text lies under it and carries the marks; the two share one
//! cell, so that they always line up and the copy makes the field as high as its text.

use crate::effects::go_to;
use crate::labels;
use crate::marks::MarkKind;
use crate::state::Action;
use crate::view::Page;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

#[derive(Clone, PartialEq, Properties)]
pub(crate) struct FieldProps {
    pub(crate) text: Rc<str>,
    pub(crate) page: Rc<Page>,
    pub(crate) act: Callback<Action>,
}

#[component]
pub(crate) fn Field(props: &FieldProps) -> Html {
    let field = use_node_ref();
    let page = &props.page;
    let oninput = {
        let act = props.act.clone();
        Callback::from(move |event: InputEvent| {
            let field = event.target().and_then(|t| t.dyn_into::<HtmlTextAreaElement>().ok());
            if let Some(field) = field {
                act.emit(Action::Type(field.value()));
            }
        })
    };
    let described = if page.problems.is_empty() { None } else { Some("problems") };
    html! {
        <>
            <div class="field">
                <div class="field-grid">
                    <div class="copy" aria-hidden="true">
                        { for page.pieces.iter().map(|piece| {
                            let text = props.text.get(piece.range.clone()).unwrap_or_default().to_owned();
                            if piece.kinds.is_empty() {
                                return html! { <>{ text }</> };
                            }
                            let class = piece.kinds.iter().copied().map(class).collect::<Classes>();
                            html! { <mark {class} data-at={piece.range.start.to_string()}>{ text }</mark> }
                        }) }
                        { "\u{200b}" }
                    </div>
                    <textarea ref={field.clone()} value={props.text.to_string()} {oninput}
                        aria-label={labels::FIELD} placeholder={labels::FIELD_HINT} aria-describedby={described}
                        autocomplete="off" autocapitalize="off" autocorrect="off" spellcheck="false" rows="4" />
                </div>
            </div>
            if page.invented { <p class="invented">{ labels::INVENTED }</p> }
            <Problems page={page.clone()} field={field} text={props.text.clone()} />
        </>
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

#[derive(Clone, PartialEq, Properties)]
struct ProblemsProps {
    page: Rc<Page>,
    field: NodeRef,
    text: Rc<str>,
}

/// The problems in words; each leads to its place.
#[component]
fn Problems(props: &ProblemsProps) -> Html {
    let page = &props.page;
    if page.problems.is_empty() {
        return Html::default();
    }
    html! {
        <div class="problems" id="problems">
            <h3>{ labels::PROBLEMS }</h3>
            <ul>
                { for page.problems.iter().map(|problem| {
                    let (field, text, at) = (props.field.clone(), props.text.clone(), problem.at);
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

//! The walk through a tune, from a part that is loaded for the first of them.

use super::heading;
use crate::host::Host;
use crate::labels;
use modewright_lesson::walk::Values;
use modewright_lesson::words::Advice;
use std::rc::Rc;
use yew::prelude::*;

/// A walk that is asked for.
pub(crate) struct Walking {
    wanted: bool,
    said: Option<Rc<Result<Vec<String>, Advice>>>,
}

impl Walking {
    /// Whether it takes the room that it will take.
    pub(crate) const fn is_ready(&self) -> bool {
        !self.wanted || self.said.is_some()
    }
}

/// The walk through a text; the one before stays until the next is there.
#[hook]
pub(crate) fn use_walk(text: &Rc<str>, values: Values, host: &Host, wanted: bool) -> Walking {
    let said = use_state(|| None);
    let asked = use_mut_ref(|| 0_u32);
    {
        let (said, host, american) = (said.setter(), host.clone(), values == Values::American);
        use_effect_with((text.clone(), american, wanted), move |(text, _, _)| {
            *asked.borrow_mut() += 1;
            if wanted {
                let this = *asked.borrow();
                host.walk(text, american, move |walk| {
                    if *asked.borrow() == this {
                        said.set(Some(Rc::new(walk)));
                    }
                });
            }
        });
    }
    Walking { wanted, said: (*said).clone() }
}

/// The walk, section by section.
pub(crate) fn walk_place(walking: &Walking, level: u8) -> Html {
    let said = match walking.said.as_deref().filter(|_| walking.wanted) {
        None => return Html::default(),
        Some(Err(why)) => {
            return html! { <p class="mistake" role="alert">{ labels::not_loaded(why) }</p> };
        }
        Some(Ok(said)) => said,
    };
    let mut shown = Vec::new();
    let mut steps = Vec::new();
    let list = |steps: &mut Vec<Html>, shown: &mut Vec<Html>| {
        if !steps.is_empty() {
            shown.push(html! { <ol>{ std::mem::take(steps) }</ol> });
        }
    };
    for words in said.chunks_exact(3) {
        let [what, label, text] = words else { continue };
        match what.as_str() {
            "s" => {
                steps.push(html! { <li>{ text }</li> });
                continue;
            }
            "h" => {
                list(&mut steps, &mut shown);
                shown.push(heading(level, text));
            }
            _ if label.is_empty() => shown.push(html! { <p>{ text }</p> }),
            _ => shown.push(html! { <p><b>{ label }{ ". " }</b>{ text }</p> }),
        }
    }
    list(&mut steps, &mut shown);
    html! { <div class="walk">{ shown }</div> }
}

//! The parts of the elements.

mod ask;
mod range;
mod staff;
mod tune;
mod verdict;
mod walk;
mod wheel;

pub(crate) use ask::Ask;
pub(crate) use tune::Tune;
pub(crate) use wheel::WheelPlace;

use yew::prelude::*;

/// A heading of the level that the page asks for.
fn heading(level: u8, words: &str) -> Html {
    html! { <p class="heading" role="heading" aria-level={level.to_string()}>{ words }</p> }
}

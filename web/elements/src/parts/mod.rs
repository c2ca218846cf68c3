//! The parts of the elements.

mod ask;
mod chances;
mod hear;
mod problems;
mod range;
mod staff;
mod verdict;
mod walk;
mod wheel;

pub(crate) use ask::{Asked, ask_box, show_wheel};
pub(crate) use chances::chances;
pub(crate) use hear::use_hear;
pub(crate) use problems::problems;
pub(crate) use range::range_place;
pub(crate) use staff::{staff_place, use_staff};
pub(crate) use verdict::verdict;
pub(crate) use walk::{use_walk, walk_place};
pub(crate) use wheel::{use_turned, wheel_place};

use yew::prelude::*;

/// A heading of the level that the page asks for.
pub(crate) fn heading(level: u8, words: &str) -> Html {
    html! { <p class="heading" role="heading" aria-level={level.to_string()}>{ words }</p> }
}

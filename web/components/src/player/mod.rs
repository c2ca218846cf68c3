//! A tune that can be heard: how it is played, and the note that sounds.
//!
//! Nothing sounds before the reader asks for it; it starts quiet; Escape ends it.

mod component;
mod controls;
mod queue;
mod settings;
mod speaker;

pub use component::{Played, Player, PlayerProps};
pub use controls::PlayerWords;
pub use queue::{Item, Queue, same_place};
pub use settings::Settings;
pub use speaker::{QUIET, Speaker};

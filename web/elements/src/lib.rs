//! Custom elements for any page: a wheel, a tune, a box to ask in, a lesson.
//!
//! The elements themselves are a small script (`static/elements.js`): it watches for them, loads
//! this program once for all of them, and calls [`mount`](mount::mount) with a place in each one's shadow root.
//! What is shown there are the page's own components; what an element is asked for stands in its
//! attributes ([`settings`]), its tune in its own text, and what the reader does with it goes out
//! as events ([`host`]).
//!
//! There are two programs, a feature each: `elements`, without which nothing can be shown, and
//! `lesson`, which the script loads when something is to sound or a walk is to be told.

#[cfg(feature = "elements")]
mod app;
#[cfg(feature = "elements")]
pub mod host;
#[cfg(feature = "elements")]
pub mod labels;
#[cfg(feature = "lesson")]
pub mod lesson;
#[cfg(feature = "elements")]
pub mod mount;
#[cfg(feature = "elements")]
pub mod pace;
#[cfg(feature = "elements")]
mod parts;
#[cfg(feature = "elements")]
pub mod settings;
pub mod sound;
#[cfg(feature = "elements")]
pub mod text;

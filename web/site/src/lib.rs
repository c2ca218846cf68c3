//! The page: a tune goes in; its mode, its range and the wheel come out.
//!
//! Everything happens on the reader's own machine. [`state`] holds what the reader has done and
//! one pure reducer; [`analysis`] asks the engine; [`view`] is a plain function from both to
//! what is shown. Storage, files and sound are effects and live in hooks. Words about music come
//! from the lesson crate, labels of the page from [`labels`].

mod app;
mod asking;
mod browser;
mod effects;
mod engine;
pub mod instrument;
pub mod kept;
pub mod labels;
pub mod lesson;
pub mod link;
pub mod made;
pub mod marks;
mod parts;
pub mod passages;
pub mod state;
pub mod view;
mod words_kept;

pub use modewright_components::{analysis, book};

/// Starts the page in a browser's document.
pub fn run() {
    app::start();
}

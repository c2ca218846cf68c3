//! Reads and writes melodies: ABC 2.1, plain letters, MusicXML and Standard MIDI Files into a
//! [`Tune`](modewright_core::Tune), and all but letters out of it.
//!
//! A reader never gives up: it carries on after a mistake and reports every one with a stable
//! code, its line and its column. What a problem is called to a learner is told by the lesson
//! crate.

pub mod abc;
pub mod instrument;
pub mod letters;
pub mod limits;
#[cfg(feature = "midi")]
pub mod midi;
#[cfg(feature = "musicxml")]
pub mod musicxml;
pub mod names;
#[cfg(any(feature = "musicxml", feature = "midi"))]
pub mod notation;
mod piece;
mod problem;
mod read;
mod reading;
mod report;
pub mod source;
mod transpose;

pub use problem::{Problem, ProblemKind, Severity};
pub use read::read;
pub use reading::{ReadOptions, Reading};
pub use transpose::transpose;

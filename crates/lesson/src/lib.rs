//! Words for people, and the shape of every answer.
//!
//! The engine finds; this crate says it. [`answer`] holds the types that the command prints with
//! `--json`, the package returns and the page shows: one shape for all. [`words`] turns keys,
//! ranges, evidence and problems into sentences for a learner. [`report`] lays a whole answer
//! out, and [`demo`] holds the invented tunes that everything is shown on.

pub mod answer;
pub mod ask;
#[cfg(all(feature = "musicxml", feature = "midi"))]
pub mod convert;
pub mod demo;
pub mod moving;
pub mod report;
pub mod walk;
pub mod words;

//! The npm package. It reads options, calls the engine and gives its answers as plain objects, in
//! the shapes of `modewright_lesson::answer`: what the command prints with `--json`.
//!
//! Five entries, each a program of its own that is built with one feature: `main` (what a tune is,
//! and where it lies on an instrument), `instruments` (instruments of one's own, fingerings,
//! pictures, tunes moved to other keys), `print` (walk-through and sheets), `files` (files of other
//! programs) and `sound`. A sixth, `page`, is main and instruments with the sheet as SVG: what the
//! page loads after its first answer. What cannot be done is thrown as an `Error` with `code`,
//! `hint`, `option`, `line` and `column`.

#![cfg_attr(
    not(all(
        feature = "main",
        feature = "instruments",
        feature = "print",
        feature = "files",
        feature = "sound"
    )),
    allow(dead_code, reason = "each entry uses a part of what they share")
)]
#![allow(clippy::missing_errors_doc, reason = "what is thrown is told once, above")]

mod options;
#[cfg(any(feature = "instruments", feature = "print"))]
mod own;
mod plain;
mod refused;
#[cfg(any(feature = "main", feature = "print"))]
mod settings;
mod text;

#[cfg(feature = "files")]
pub mod files;
#[cfg(feature = "main")]
pub mod find;
#[cfg(any(feature = "main", feature = "instruments"))]
pub mod fit;
#[cfg(feature = "instruments")]
pub mod instruments;
#[cfg(feature = "instruments")]
pub mod moving;
#[cfg(feature = "pace")]
pub mod pace;
#[cfg(feature = "instruments")]
pub mod picture;
#[cfg(feature = "print")]
pub mod print;
#[cfg(feature = "main")]
pub mod scale;
#[cfg(any(feature = "page", feature = "print"))]
pub mod sheet;
#[cfg(feature = "sound")]
pub mod sound;

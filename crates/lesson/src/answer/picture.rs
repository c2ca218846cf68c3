//! The answers of `instrumentList` and `instrumentPicture`.

use super::{FitInstrument, SCHEMA};
use modewright_core::instrument::Instrument;
use serde::Serialize;

/// Instruments without their notes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct InstrumentListAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// The instruments, family by family.
    pub instruments: Vec<FitInstrument>,
}

impl InstrumentListAnswer {
    /// Lists instruments.
    #[must_use]
    pub fn new<'a>(instruments: impl IntoIterator<Item = &'a Instrument>) -> Self {
        let instruments = instruments.into_iter().map(FitInstrument::new).collect();
        Self { schema: SCHEMA, instruments }
    }
}

/// A picture with what its signs mean.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PictureAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// The picture, as SVG to be put into a page.
    pub svg: String,
    /// The whole of it in a few words.
    pub title: String,
    /// What its signs mean, a sentence each.
    pub legend: Vec<String>,
}

impl PictureAnswer {
    /// Puts a picture into its shape.
    #[must_use]
    pub fn new(svg: String, title: String, legend: Vec<String>) -> Self {
        Self { schema: SCHEMA, svg, title, legend }
    }
}

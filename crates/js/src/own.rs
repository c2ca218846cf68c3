//! Instruments of one's own.

use crate::options::Asked;
use crate::refused::Refused;
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::{self, InstrumentError};
use modewright_lesson::words;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** Instruments of your own: JSON as a text, or the object (or list) that it stands for. */
export type OwnInstruments = string | object;
"#;

/// The instruments of one's own.
pub(crate) fn own(asked: &Asked) -> Result<Vec<Instrument>, Refused> {
    match asked.json("own")? {
        Some(json) => Ok(instrument::read(&json)?),
        None => Ok(Vec::new()),
    }
}

impl From<InstrumentError> for Refused {
    fn from(error: InstrumentError) -> Self {
        let place = Some((error.line, error.column));
        Self { place, ..Self::new(error.kind.code(), words::instrument_error(&error)) }
    }
}

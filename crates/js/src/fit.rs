//! How a tune lies on instruments: `instrumentList`, `fit`. Instruments of one's own are for the
//! entry `instruments`, so that `main` holds no reader of them.

use crate::options::Asked;
use crate::plain::plain;
use crate::refused::{LISTS, Refused};
use crate::text::{TUNE, Text};
use modewright_core::find::find;
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::builtin;
use modewright_lesson::answer::{FitAnswer, InstrumentListAnswer};
use modewright_lesson::ask;
use modewright_lesson::words;
use wasm_bindgen::prelude::*;

#[cfg(not(feature = "instruments"))]
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { FitAnswer, InstrumentListAnswer } from "./answers.js";
/** Options of `fit`. */
export interface FitOptions extends TuneOptions {
  /** Instruments by id or name. Those of your own are for `fit` of "modewright/instruments". */
  on: string | string[];
}
"#;

#[cfg(feature = "instruments")]
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { FitAnswer, InstrumentListAnswer } from "./answers.js";
/** Options of `fit`. One of `on` and `own` is needed. */
export interface FitOptions extends TuneOptions {
  /** Instruments by id or name; without it, all of your own. */
  on?: string | string[];
  /** Instruments of your own. */
  own?: OwnInstruments;
}
"#;

/// The instruments that are built in, without their notes: quick to make, for a choice.
#[wasm_bindgen(js_name = instrumentList, unchecked_return_type = "InstrumentListAnswer")]
pub fn instrument_list() -> Result<JsValue, JsValue> {
    plain(&InstrumentListAnswer::new(builtin::all()))
}

/// Ranks the keys and octaves in which a tune lies on instruments: an answer for each.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "FitAnswer[]")]
pub fn fit(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "FitOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[TUNE, ON])?;
    let instruments = several(&asked)?;
    if instruments.is_empty() {
        return Err(Refused::new("no-instrument", words::no_instrument()).into());
    }
    let text = Text::of(text, &asked)?;
    let tune = text.one(&asked)?.tune;
    let finding = find(&tune);
    let of = |it| FitAnswer::new(&text.source, &tune, &finding, it, builtin::all());
    plain(&instruments.iter().map(of).collect::<Vec<FitAnswer>>())
}

/// The options that name instruments.
pub(crate) const ON: &[&str] = if cfg!(feature = "instruments") { &["on", "own"] } else { &["on"] };

/// The instruments that are asked for by name, built in or of one's own.
pub(crate) fn several(asked: &Asked) -> Result<Vec<Instrument>, Refused> {
    let named = asked.texts("on")?.unwrap_or_default();
    let named: Vec<&str> = named.iter().map(String::as_str).collect();
    #[cfg(feature = "instruments")]
    let own = crate::own::own(asked)?;
    #[cfg(not(feature = "instruments"))]
    let own = Vec::new();
    Ok(ask::instruments("on", &own, &named, LISTS)?)
}

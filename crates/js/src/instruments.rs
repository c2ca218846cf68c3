//! Instruments: `instruments`, `checkInstruments`, `fingering`.

use crate::options::{Asked, json};
use crate::own::own;
use crate::plain::plain;
use crate::refused::{LISTS, Refused};
use crate::text::{TUNE, Text};
use modewright_core::fingering::Options;
use modewright_formats::instrument::{self, builtin};
use modewright_lesson::answer::{FingeringAnswer, InstrumentsAnswer};
use modewright_lesson::ask;
use modewright_lesson::words;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { FingeringAnswer, InstrumentsAnswer } from "./answers.js";
/** Options of `fingering`. One of `on` and `own` is needed. */
export interface FingeringOptions extends TuneOptions {
  /** The instrument by its id or name. */
  on?: string;
  /** Instruments of your own; with one alone, `on` can be left out. */
  own?: OwnInstruments;
  /** Move the tune first: to this home note, like "E" or "E dorian". */
  to?: string;
  /** Move the tune first: by semitones, or by an interval like "M2" or "-P4". */
  by?: number | string;
  /** The manner of playing, where the instrument offers several. */
  style?: string;
  /** Take ways that no public source confirms as readily as others. */
  unconfirmed?: boolean;
  /** Add the chord notes that the free hand has to long finals. */
  harmony?: boolean;
}
"#;

/// The instruments that are built in, or those that are named.
#[wasm_bindgen(unchecked_return_type = "InstrumentsAnswer")]
pub fn instruments(
    #[wasm_bindgen(unchecked_optional_param_type = "string | string[]")] names: &JsValue,
) -> Result<JsValue, JsValue> {
    let object = js_sys::Object::new();
    js_sys::Reflect::set(&object, &"names".into(), names)?;
    let asked = Asked::of(&object, &[&["names"]])?;
    let Some(named) = asked.texts("names")? else {
        return plain(&InstrumentsAnswer::new(builtin::all()));
    };
    let named: Vec<&str> = named.iter().map(String::as_str).collect();
    let found = ask::instruments("names", &[], &named, LISTS).map_err(Refused::from)?;
    plain(&InstrumentsAnswer::new(&found))
}

/// Reads instruments of your own, so that they can be looked at. What is wrong with them is thrown
/// with its line and column.
///
/// @param own JSON as a text, or the object or list that it stands for.
#[wasm_bindgen(js_name = checkInstruments, unchecked_return_type = "InstrumentsAnswer")]
pub fn check_instruments(
    #[wasm_bindgen(unchecked_param_type = "OwnInstruments")] own: &JsValue,
) -> Result<JsValue, JsValue> {
    let read = instrument::read(&json("own", own)?).map_err(Refused::from)?;
    plain(&InstrumentsAnswer::new(&read))
}

/// Says which button, hole, string or lever plays each note of a tune.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "FingeringAnswer")]
pub fn fingering(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "FingeringOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    const KNOWN: &[&str] = &["on", "own", "to", "by", "style", "unconfirmed", "harmony"];
    let asked = Asked::of(options, &[TUNE, KNOWN])?;
    let named = asked.text("on")?;
    let instrument =
        ask::instrument("on", &own(&asked)?, named.as_deref(), LISTS).map_err(Refused::from)?;
    let (to, by, style) = (asked.text("to")?, asked.spoken("by")?, asked.text("style")?);
    let style = ask::style(&instrument, style.as_deref()).map_err(Refused::from)?;
    let ask = ask::FingeringAsk {
        instrument: &instrument,
        options: Options { style, unconfirmed: asked.flag("unconfirmed")? },
        aim: ask::aim(to.as_deref(), by.as_deref()).map_err(Refused::from)?,
        harmony: asked.flag("harmony")?,
    };
    let text = Text::of(text, &asked)?;
    let reading = text.one(&asked)?;
    let answer = ask::fingered(reading.tune, &ask, |tune| {
        FingeringAnswer::new(&text.source, tune, &reading.problems)
    });
    plain(&answer.map_err(|why| Refused::new(why.code(), words::unmoved(&why)))?)
}

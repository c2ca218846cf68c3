//! What a tune is: `read`, `find`, `count`.

use crate::options::Asked;
use crate::plain::plain;
use crate::refused::Refused;
use crate::settings::{COUNT, count as count_words};
use crate::text::{TEXT, TUNE, Text};
use modewright_core::count::Detail;
use modewright_core::find::{Given, find_given};
use modewright_formats::Reading;
use modewright_lesson::answer::{CountAnswer, FindAnswer, ReadAnswer};
use modewright_lesson::ask::given;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { CountAnswer, FindAnswer, ReadAnswer } from "./answers.js";
/** What is known of the answer. */
export interface Given {
  /** You know the home note, like "D" or "F#": the mode is judged given it. */
  home?: string;
  /** You know the mode, like "dorian": home is judged given it. */
  mode?: string;
}
/** Options of `find`. */
export interface FindOptions extends TuneOptions, Given {}
/** Options of `findAll`. */
export interface FindAllOptions extends TextOptions, Given {}
/** Options of `count`. */
export interface CountOptions extends TuneOptions, CountWords {
  /** Say every division of the shortest notes, not whole beats alone. */
  full?: boolean;
}
"#;

const GIVEN: &[&str] = &["home", "mode"];

/// Reads a tune of a text: its notes, its range, and what is odd about the text.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "ReadAnswer")]
pub fn read(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "TuneOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[TUNE])?;
    let text = Text::of(text, &asked)?;
    plain(&ReadAnswer::new(&text.source, &text.one(&asked)?))
}

/// Finds home note, mode and range of a tune, with the reasons.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "FindAnswer")]
pub fn find(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "FindOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[TUNE, GIVEN])?;
    let text = Text::of(text, &asked)?;
    plain(&found(&text.source, &text.one(&asked)?, known(&asked)?))
}

/// The same for every tune of a text.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = findAll, unchecked_return_type = "FindAnswer[]")]
pub fn find_all(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "FindAllOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[TEXT, GIVEN])?;
    let (text, given) = (Text::of(text, &asked)?, known(&asked)?);
    let answers: Vec<FindAnswer> =
        text.all().map(|reading| found(&text.source, &reading, given)).collect();
    plain(&answers)
}

fn known(asked: &Asked) -> Result<Given, Refused> {
    Ok(given(asked.text("home")?.as_deref(), asked.text("mode")?.as_deref())?)
}

fn found(source: &str, reading: &Reading, given: Given) -> FindAnswer {
    let finding = find_given(&reading.tune, given);
    FindAnswer::new(source, &reading.tune, &finding, &reading.problems)
}

/// Counts a tune: the word that is said under every note.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "CountAnswer")]
pub fn count(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "CountOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[TUNE, COUNT, &["full"]])?;
    let detail = if asked.flag("full")? { Detail::Full } else { Detail::Beats };
    let words = count_words(&asked, detail)?;
    let text = Text::of(text, &asked)?;
    let reading = text.one(&asked)?;
    plain(&CountAnswer::new(&text.source, &reading.tune, words, &reading.problems))
}

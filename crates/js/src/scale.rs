//! Scales.

use crate::plain::plain;
use crate::refused::Refused;
use crate::text::string;
use modewright_lesson::answer::ScaleAnswer;
use modewright_lesson::ask::scale as asked_scale;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { ScaleAnswer } from "./answers.js";
"#;

/// A scale: its notes, its signature, and the modes related to it.
///
/// @param name A home note and a mode, like "E dorian", "Bb major" or "F#m".
#[wasm_bindgen(unchecked_return_type = "ScaleAnswer")]
pub fn scale(
    #[wasm_bindgen(unchecked_param_type = "string")] name: &JsValue,
) -> Result<JsValue, JsValue> {
    let answer: Result<ScaleAnswer, _> = asked_scale("name", &string(name)?);
    plain(&answer.map_err(Refused::from)?)
}

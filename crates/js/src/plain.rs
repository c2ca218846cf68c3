//! Answers as plain objects.

use serde::Serialize;
use serde_wasm_bindgen::Serializer;
use wasm_bindgen::prelude::*;

/// The plain object of an answer: what `JSON.parse` would make of it.
pub(crate) fn plain(answer: &impl Serialize) -> Result<JsValue, JsValue> {
    Ok(answer.serialize(&Serializer::json_compatible())?)
}

//! The entry `files`: files of other programs into ABC, and back.

use crate::options::Asked;
use crate::plain::plain;
use crate::refused::Refused;
use crate::text::{TEXT, TUNE, Text, read_options};
use js_sys::Uint8Array;
use modewright_core::Tune;
use modewright_formats::source::{SourceError, Tunes};
use modewright_lesson::answer::FileAnswer;
use modewright_lesson::convert::{Format, bytes, read_for};
use modewright_lesson::words;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { FileAnswer } from "./answers.js";
"#;

/// Reads the bytes of a file as ABC, whatever it holds: MusicXML, plain or compressed, MIDI, ABC
/// or letters. What it is shows in what it holds.
///
/// @param file The bytes of the file.
#[wasm_bindgen(js_name = readFile, unchecked_return_type = "FileAnswer")]
pub fn read_file(
    #[wasm_bindgen(unchecked_param_type = "Uint8Array | ArrayBuffer")] file: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "TextOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[TEXT])?;
    let source = asked.text("source")?.unwrap_or_else(|| "-".to_owned());
    let options = read_options(&asked)?;
    let file = if let Some(array) = file.dyn_ref::<Uint8Array>() {
        array.to_vec()
    } else if file.is_instance_of::<js_sys::ArrayBuffer>() {
        Uint8Array::new(file).to_vec()
    } else {
        return Err(Refused::kind("file", "the bytes of a file").into());
    };
    let answer = FileAnswer::new(&source, Tunes::new(file.as_slice()), &options);
    plain(&answer.map_err(|error| refused(&error))?)
}

fn refused(error: &SourceError) -> Refused {
    let place = match error {
        SourceError::Refused { line, .. } => Some((*line, 1)),
        SourceError::Io(_) => None,
    };
    Refused { place, ..Refused::new(error.code(), words::source_error(error)) }
}

/// A tune of a text as ABC, written anew.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = toAbc, unchecked_return_type = "string")]
pub fn to_abc(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "TuneOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let written = written(text, options, Format::Abc)?;
    Ok(String::from_utf8_lossy(&written).into_owned().into())
}

/// A tune of a text as MusicXML.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = toMusicXml, unchecked_return_type = "string")]
pub fn to_musicxml(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "TuneOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let written = written(text, options, Format::MusicXml)?;
    Ok(String::from_utf8_lossy(&written).into_owned().into())
}

/// A tune of a text as compressed MusicXML.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = toMxl, unchecked_return_type = "Uint8Array")]
pub fn to_mxl(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "TuneOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    Ok(Uint8Array::from(written(text, options, Format::Packed)?.as_slice()).into())
}

/// A tune of a text as a Standard MIDI File.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = toMidi, unchecked_return_type = "Uint8Array")]
pub fn to_midi(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "TuneOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    Ok(Uint8Array::from(written(text, options, Format::Midi)?.as_slice()).into())
}

fn written(text: &JsValue, options: &JsValue, format: Format) -> Result<Vec<u8>, Refused> {
    let asked = Asked::of(options, &[TUNE])?;
    let text = Text::of(text, &asked)?;
    let tune: Tune = read_for(&text.one_text(&asked)?, text.options()).tune;
    Ok(bytes(&[(tune, Vec::new())], format))
}

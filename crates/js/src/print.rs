//! The entry `print`: the walk through a tune, and its sheet as HTML and PDF.

use crate::options::Asked;
use crate::plain::plain;
use crate::refused::Refused;
use crate::sheet::Printed;
use crate::text::{TUNE, Text};
use modewright_lesson::answer::WalkAnswer;
use modewright_lesson::walk::{Walk, WalkOptions, Wording, walk as walk_through};
use modewright_lesson::words::{self, Advice};
use modewright_sheet::{Part, html, missing, pdf};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { WalkAnswer } from "./answers.js";
/** Printed pages, and what their font could not print. */
export interface PdfAnswer {
  /** The document. */
  bytes: Uint8Array;
  /** Characters that are boxes in it, because its font has no such letters. */
  missing: string[];
  /** That in words, and a way out; `null` where nothing is missing. */
  problem: { message: string; hint: string } | null;
}
"#;

/// The walk through a tune: the reader's own where one was given.
fn walked(printed: &Printed) -> Walk {
    if let Some(edited) = &printed.edited {
        return Walk::from_markdown(edited);
    }
    let Printed { values, names, count, .. } = *printed;
    let options = WalkOptions { values, names, count, awkward: printed.awkward.clone() };
    walk_through(&printed.tune, &printed.finding, &Wording::english(), &options)
}

/// Tells a tune bar by bar, and gives the same as Markdown to edit.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "WalkAnswer")]
pub fn walk(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "PrintOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    plain(&WalkAnswer::new(&walked(&Printed::of(text, options)?)))
}

/// What the text of a tune leaves open about whose it is, to be looked up before it is published.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "string[]")]
pub fn rights(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "TuneOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[TUNE])?;
    let tune = Text::of(text, &asked)?.one(&asked)?.tune;
    plain(&words::rights(&tune.header))
}

/// Sheet and walk-through as one page of HTML, to print.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = sheetHtml, unchecked_return_type = "string")]
pub fn sheet_html(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "PrintOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let printed = Printed::of(text, options)?;
    let walk = walked(&printed);
    let parts: Vec<Part> = walk.sections.iter().map(Part::from).collect();
    Ok(html(&printed.sheet()?, &parts).into())
}

/// The sheet of a tune as a PDF document.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = sheetPdf, unchecked_return_type = "PdfAnswer")]
pub fn sheet_pdf(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "PrintOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    #[derive(serde::Serialize)]
    struct Problem {
        message: String,
        hint: String,
    }
    #[derive(serde::Serialize)]
    struct Answer {
        missing: Vec<char>,
        problem: Option<Problem>,
    }
    let sheet = Printed::of(text, options)?.sheet()?;
    let bytes = pdf(&sheet).map_err(|error| {
        let advice = Advice { message: error.to_string(), hint: String::new() };
        Refused::new("pdf-not-written", advice)
    })?;
    let missing: Vec<char> = missing(&sheet).into_iter().collect();
    let problem = (!missing.is_empty()).then(|| {
        let Advice { message, hint } = words::no_letters(&missing);
        Problem { message, hint }
    });
    let answer = plain(&Answer { missing, problem })?;
    let bytes = js_sys::Uint8Array::from(bytes.as_slice());
    js_sys::Reflect::set(&answer, &"bytes".into(), &bytes)?;
    Ok(answer)
}

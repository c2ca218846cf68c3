//! The entry `print`: the walk through a tune, and its sheet as SVG, HTML and PDF.

use crate::options::Asked;
use crate::plain::plain;
use crate::refused::Refused;
use crate::settings::{COUNT, count, own};
use crate::text::{TUNE, Text};
use modewright_core::count::Detail;
use modewright_core::find::find;
use modewright_core::fingering::{self, plan};
use modewright_lesson::answer::WalkAnswer;
use modewright_lesson::ask;
use modewright_lesson::walk::{Walk, WalkOptions, Wording, walk as walk_through};
use modewright_lesson::words::{self, Advice};
use modewright_sheet::{
    Paper, Part, Played, Request, Sheet, USUAL_ROWS, engrave, html, missing, pdf, svg,
};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { WalkAnswer } from "./answers.js";
/** Options of everything that is printed of a tune. */
export interface PrintOptions extends TuneOptions, CountWords {
  /** Rows under the notes, from the top down. A row that has nothing to say is left out. */
  rows?: ("count" | "degree" | "note" | "solfa" | "fingering" | "bellows" | "words")[];
  /** Notes marked by a shape and a word. */
  mark?: ("home" | "lowest" | "highest")[];
  /** The paper; "phone" is one long picture. */
  paper?: "a4" | "letter" | "phone";
  /** Instead of a paper: one long picture, so many pixels wide, from 240 to 1600. */
  width?: number;
  /** The learner's instrument, by id or name. */
  on?: string;
  /** Instruments of your own; with one alone, `on` can be left out. */
  own?: OwnInstruments;
  /** The manner of playing, where the instrument offers several. */
  style?: string;
  /** Names of note values. */
  values?: "british" | "american";
  /** Names of notes. */
  names?: "letters" | "german" | "fixed" | "movable";
  /** A walk-through that you have edited, as Markdown: its words are taken. */
  words?: string;
}
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

const PRINT: &[&str] =
    &["rows", "mark", "paper", "width", "on", "own", "style", "values", "names", "words"];

/// What is printed of a tune.
struct Printed {
    sheet: Option<Sheet>,
    walk: Option<Walk>,
}

/// What of it is wanted.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Wanted {
    Sheet,
    Walk,
    Both,
}

fn print(text: &JsValue, options: &JsValue, wanted: Wanted) -> Result<Printed, Refused> {
    let asked = Asked::of(options, &[TUNE, COUNT, PRINT])?;
    let (named, own) = (asked.text("on")?, own(&asked)?);
    let is_named = named.is_some() || !own.is_empty();
    let instrument = is_named.then(|| ask::instrument("on", &own, named.as_deref())).transpose()?;
    let style = asked.text("style")?;
    let style = match &instrument {
        Some(instrument) => ask::style(instrument, style.as_deref())?,
        None => 0,
    };
    let count = count(&asked, Detail::Beats)?;
    let names = asked.choice("names")?.unwrap_or_default();
    let values = asked.choice("values")?.unwrap_or_default();
    let width = asked.whole("width", Paper::PIXELS.0, Paper::PIXELS.1)?;
    let paper = match width {
        Some(width) => Paper::screen(width),
        None => asked.choice("paper")?.unwrap_or_default(),
    };
    let request = Request {
        paper,
        rows: asked.choices("rows")?.unwrap_or_else(|| USUAL_ROWS.to_vec()),
        marked: asked.choices("mark")?.unwrap_or_default(),
        names,
        count,
        ..Request::default()
    };
    let edited = asked.text("words")?;
    let text = Text::of(text, &asked)?;
    let tune = text.one(&asked)?.tune;
    let finding = find(&tune);
    let how = fingering::Options { style, ..fingering::Options::default() };
    let plan = instrument.as_ref().map(|it| plan(&tune, it, how));
    let walk = match edited {
        Some(edited) => Walk::from_markdown(&edited),
        None if wanted == Wanted::Sheet => Walk::default(),
        None => {
            let awkward = plan.as_ref().map_or_else(Vec::new, fingering::Plan::awkward);
            let options = WalkOptions { values, names, count, awkward };
            walk_through(&tune, &finding, &Wording::english(), &options)
        }
    };
    let request = Request {
        key: finding.best().map(|best| best.key),
        played: instrument.as_ref().zip(plan.as_ref()).map(|(it, plan)| Played::of(it, plan)),
        ..request
    };
    let engraved = || engrave(&tune, &request.options(&tune));
    Ok(Printed {
        sheet: (wanted != Wanted::Walk).then(engraved),
        walk: (wanted != Wanted::Sheet).then_some(walk),
    })
}

impl Printed {
    fn sheet(self) -> Sheet {
        self.sheet.unwrap_or_default()
    }
}

/// Tells a tune bar by bar, and gives the same as Markdown to edit.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "WalkAnswer")]
pub fn walk(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "PrintOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let printed = print(text, options, Wanted::Walk)?;
    plain(&WalkAnswer::new(&printed.walk.unwrap_or_default()))
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

/// The sheet of a tune as a picture in SVG.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = sheetSvg, unchecked_return_type = "string")]
pub fn sheet_svg(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "PrintOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    Ok(svg(&print(text, options, Wanted::Sheet)?.sheet()).into())
}

/// Sheet and walk-through as one page of HTML, to print.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = sheetHtml, unchecked_return_type = "string")]
pub fn sheet_html(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "PrintOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let mut printed = print(text, options, Wanted::Both)?;
    let walk = printed.walk.take().unwrap_or_default();
    let parts: Vec<Part> = walk.sections.iter().map(Part::from).collect();
    Ok(html(&printed.sheet(), &parts).into())
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
    let sheet = print(text, options, Wanted::Sheet)?.sheet();
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

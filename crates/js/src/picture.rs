//! What a place for instruments needs beside `fit` and `fingering`: `whoPlays`,
//! `instrumentPicture`.

use crate::fit::{ON, several};
use crate::options::Asked;
use crate::own::own;
use crate::plain::plain;
use crate::refused::{LISTS, Refused};
use crate::text::{TUNE, Text};
use modewright_core::find::find;
use modewright_core::fingering::{Options, plan};
use modewright_lesson::answer::{PictureAnswer, WhoAnswer};
use modewright_lesson::ask;
use modewright_sheet::picture::{picture, svg};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { PictureAnswer, WhoAnswer } from "./answers.js";
/** Options of `instrumentPicture`. One of `on` and `own` is needed. */
export interface PictureOptions extends TuneOptions {
  /** The instrument by its id or name. */
  on?: string;
  /** Instruments of your own; with one alone, `on` can be left out. */
  own?: OwnInstruments;
  /** The manner of playing, where the instrument offers several. */
  style?: string;
}
"#;

/// Which of some instruments play a tune where it stands.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = whoPlays, unchecked_return_type = "WhoAnswer")]
pub fn who_plays(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "FitOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[TUNE, ON])?;
    let instruments = several(&asked)?;
    let tune = Text::of(text, &asked)?.one(&asked)?.tune;
    plain(&WhoAnswer::new(&tune, &find(&tune), &instruments))
}

/// An instrument as a picture, with the notes of a tune marked where they are played.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = instrumentPicture, unchecked_return_type = "PictureAnswer")]
pub fn instrument_picture(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "PictureOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[TUNE, &["on", "own", "style"]])?;
    let named = asked.text("on")?;
    let instrument =
        ask::instrument("on", &own(&asked)?, named.as_deref(), LISTS).map_err(Refused::from)?;
    let style = ask::style(&instrument, asked.text("style")?.as_deref()).map_err(Refused::from)?;
    let tune = Text::of(text, &asked)?.one(&asked)?.tune;
    let path = plan(&tune, &instrument, Options { style, ..Options::default() });
    let home = find(&tune).best().map(|best| best.key.home);
    let drawing = picture(&instrument, &path, home);
    plain(&PictureAnswer::new(svg(&drawing), drawing.title, drawing.legend))
}

//! Tunes in another key: `transpose`.

use crate::options::Asked;
use crate::own::own;
use crate::plain::plain;
use crate::refused::{LISTS, Refused};
use crate::text::string;
use modewright_formats::ReadOptions;
use modewright_lesson::answer::TransposeAnswer;
use modewright_lesson::ask::{aim, instrument};
use modewright_lesson::moving::{Aim, Wish};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { TransposeAnswer } from "./answers.js";
/** Options of `transpose`: where to, and for which instrument. */
export interface TransposeOptions {
  /** The home note to move to, like "E" or "E dorian"; a mode must be the tune's own. */
  to?: string;
  /** How far to move: semitones, or an interval like "M2" or "-P4". */
  by?: number | string;
  /** The instrument that is to play it; without `to` and `by`, to where it lies best. */
  for?: string;
  /** Instruments of your own, of which `for` may name one. */
  own?: OwnInstruments;
  /** Take notes that the instrument does not have into another octave, each marked. */
  fold?: boolean;
}
"#;

/// Moves every tune of a text to another key or octave, or to where an instrument plays it. The
/// mode is kept; everything but keys, notes and chord signs stays as it is.
///
/// @param text ABC, or letters, which come out as ABC.
#[wasm_bindgen(unchecked_return_type = "TransposeAnswer")]
pub fn transpose(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_param_type = "TransposeOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[&["to", "by", "for", "own", "fold"]])?;
    let (to, by, named) = (asked.text("to")?, asked.spoken("by")?, asked.text("for")?);
    let aim = aim(to.as_deref(), by.as_deref()).map_err(Refused::from)?;
    let own = own(&asked)?;
    // Where nothing is said of a place, the instrument says it, and one must be named.
    let wanted = named.is_some() || !own.is_empty() || aim.is_none();
    let instrument = wanted.then(|| instrument("for", &own, named.as_deref(), LISTS)).transpose();
    let instrument = instrument.map_err(Refused::from)?;
    let wish = Wish {
        aim: aim.unwrap_or(Aim::Best),
        instrument: instrument.as_ref(),
        fold: asked.flag("fold")?,
    };
    plain(&TransposeAnswer::new(&string(text)?, &ReadOptions::default(), &wish))
}

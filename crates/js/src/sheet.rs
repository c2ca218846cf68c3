//! The sheet of a tune as SVG, and what is asked of everything that is printed of it.

use crate::options::Asked;
use crate::own::own;
use crate::refused::{LISTS, Refused};
use crate::settings::{COUNT, count};
use crate::text::{TUNE, Text};
use modewright_core::Tune;
use modewright_core::count::{CountOptions, Detail};
use modewright_core::find::{Finding, find};
use modewright_core::fingering::{self, plan};
use modewright_lesson::ask;
use modewright_lesson::walk::Values;
use modewright_lesson::words::NoteNames;
use modewright_sheet::{Paper, Played, Request, Sheet, USUAL_ROWS, engrave, svg};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** Options of everything that is printed of a tune. */
export interface PrintOptions extends TuneOptions, CountWords {
  /** Rows under the notes, from the top down. A row that has nothing to say is left out. */
  rows?: ("count" | "degree" | "note" | "solfa" | "fingering" | "bellows" | "words")[];
  /** Notes marked by a shape and a word. */
  mark?: ("home" | "lowest" | "highest" | "forms")[];
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
"#;

const PRINT: &[&str] =
    &["rows", "mark", "paper", "width", "on", "own", "style", "values", "names", "words"];

/// A tune as it is printed, with all that was said about it.
pub(crate) struct Printed {
    pub(crate) tune: Tune,
    pub(crate) finding: Finding,
    /// The notes that are awkward on the instrument.
    pub(crate) awkward: Vec<usize>,
    pub(crate) names: NoteNames,
    pub(crate) values: Values,
    pub(crate) count: CountOptions,
    /// A walk-through that was edited, as Markdown.
    pub(crate) edited: Option<String>,
    request: Request,
}

impl Printed {
    pub(crate) fn of(text: &JsValue, options: &JsValue) -> Result<Self, Refused> {
        let asked = Asked::of(options, &[TUNE, COUNT, PRINT])?;
        let (named, own) = (asked.text("on")?, own(&asked)?);
        let is_named = named.is_some() || !own.is_empty();
        let instrument =
            is_named.then(|| ask::instrument("on", &own, named.as_deref(), LISTS)).transpose()?;
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
        let rows = asked.choices("rows")?.unwrap_or_else(|| USUAL_ROWS.to_vec());
        let marked = asked.choices("mark")?.unwrap_or_default();
        let edited = asked.text("words")?;
        let tune = Text::of(text, &asked)?.one(&asked)?.tune;
        let finding = find(&tune);
        let how = fingering::Options { style, ..fingering::Options::default() };
        let plan = instrument.as_ref().map(|it| plan(&tune, it, how));
        let awkward = plan.as_ref().map_or_else(Vec::new, fingering::Plan::awkward);
        let played = instrument.as_ref().zip(plan.as_ref()).map(|(it, plan)| Played::of(it, plan));
        let key = finding.best().map(|best| best.key);
        #[allow(clippy::needless_update, reason = "the entry print has a field more")]
        let request =
            Request { paper, rows, marked, names, count, key, played, ..Request::default() };
        drop(plan);
        Ok(Self { tune, finding, awkward, names, values, count, edited, request })
    }

    pub(crate) fn sheet(&self) -> Result<Sheet, Refused> {
        if let Some(advice) = Sheet::too_long(&self.tune) {
            return Err(Refused::new("sheet-too-large", advice));
        }
        Ok(engrave(&self.tune, &self.request.options(&self.tune)))
    }
}

/// The sheet of a tune as a picture in SVG.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(js_name = sheetSvg, unchecked_return_type = "string")]
pub fn sheet_svg(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "PrintOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    Ok(svg(&Printed::of(text, options)?.sheet()?).into())
}

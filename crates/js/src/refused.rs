//! What cannot be done, as an error of JavaScript.

use js_sys::{Error, Reflect};
use modewright_lesson::ask::Refusal;
use modewright_lesson::words::{self, Advice};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** What is thrown where something cannot be done. */
export interface ModewrightError extends Error {
  name: "ModewrightError";
  /** A stable code in kebab case. */
  code: string;
  /** A way out. */
  hint: string;
  /** The option that is wrong. */
  option: string | null;
  /** The line in the text or in the instrument's JSON, from 1. */
  line: number | null;
  /** The column in the line, from 1. */
  column: number | null;
}
"#;

/// What lists all instruments.
pub(crate) const LISTS: &str = "instrumentList()";

/// Something that cannot be done.
#[derive(Debug)]
pub(crate) struct Refused {
    pub code: &'static str,
    pub advice: Advice,
    pub option: Option<&'static str>,
    pub place: Option<(u32, u32)>,
}

impl Refused {
    /// Something that cannot be done, with no place.
    pub(crate) fn new(code: &'static str, advice: Advice) -> Self {
        Self { code, advice, option: None, place: None }
    }

    /// A value of an option that is of another kind.
    pub(crate) fn kind(option: &'static str, expected: &str) -> Self {
        let advice = words::option_of_another_kind(option, expected);
        Self { option: Some(option), ..Self::new("wrong-kind", advice) }
    }
}

impl From<Refusal> for Refused {
    fn from(refusal: Refusal) -> Self {
        let Refusal { option, code, advice } = refusal;
        let message = format!("{option}: {}", advice.message);
        Self { option: Some(option), ..Self::new(code, Advice { message, ..advice }) }
    }
}

impl From<Refused> for JsValue {
    fn from(refused: Refused) -> Self {
        let error = Error::new(&refused.advice.message);
        error.set_name("ModewrightError");
        let set = |name: &str, value: JsValue| {
            // A new object takes every field.
            let _ = Reflect::set(&error, &name.into(), &value);
        };
        set("code", refused.code.into());
        set("hint", refused.advice.hint.into());
        set("option", refused.option.map_or(Self::NULL, Self::from));
        set("line", refused.place.map_or(Self::NULL, |(line, _)| line.into()));
        set("column", refused.place.map_or(Self::NULL, |(_, column)| column.into()));
        error.into()
    }
}

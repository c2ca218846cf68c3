//! Options that several entries share.

use crate::options::Asked;
use crate::refused::Refused;
use modewright_core::count::{CountOptions, Detail, System};
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** The words of counting. */
export interface CountWords {
  /** Words for beats that divide into two. */
  simple?: "quarters" | "halves";
  /** Words for jigs, whose beats divide into three. */
  compound?: "parts" | "la-li" | "la-li-ta" | "and-a";
  /** Words for metres of uneven beats. */
  uneven?: "beats" | "parts";
}
"#;

/// The options of counting.
pub(crate) const COUNT: &[&str] = &["simple", "compound", "uneven"];

/// How bars are counted.
pub(crate) fn count(asked: &Asked, detail: Detail) -> Result<CountOptions, Refused> {
    let system = System {
        simple: asked.choice("simple")?.unwrap_or_default(),
        compound: asked.choice("compound")?.unwrap_or_default(),
        uneven: asked.choice("uneven")?.unwrap_or_default(),
    };
    Ok(CountOptions { system, detail })
}

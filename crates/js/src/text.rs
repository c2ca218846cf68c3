//! Tunes from the text of a call.

use crate::options::Asked;
use crate::refused::Refused;
use modewright_formats::source::{TuneText, split};
use modewright_formats::{ReadOptions, Reading, read};
use modewright_lesson::ask::TextAsk;
use modewright_lesson::words;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** What a text of letters cannot tell itself, and which tune is meant. */
export interface TextOptions {
  /** The voice to read, where the text has several; the first one otherwise. */
  voice?: string;
  /** The part of a score or the track of a MIDI file, by name or number. */
  part?: string;
  /** The metre of letters: "6/8". */
  metre?: string;
  /** The length of the pickup of letters, as a fraction of a whole note: "1/8". */
  pickup?: string;
  /** What the answers name as their source; "-" otherwise. */
  source?: string;
}
/** The same, where one tune of a text is asked about. */
export interface TuneOptions extends TextOptions {
  /** Which tune of a text with several: its place, from 1. */
  tune?: number;
}
"#;

/// The options of a text.
pub(crate) const TEXT: &[&str] = &["voice", "part", "metre", "pickup", "source"];
/// The same, where one tune is asked about.
pub(crate) const TUNE: &[&str] = &["voice", "part", "metre", "pickup", "source", "tune"];

/// The text of a call with what is said of it.
pub(crate) struct Text {
    pub source: String,
    text: String,
    options: ReadOptions,
}

impl Text {
    /// Takes a text and the options of it.
    pub(crate) fn of(text: &JsValue, asked: &Asked) -> Result<Self, Refused> {
        let text = string(text)?;
        let source = asked.text("source")?.unwrap_or_else(|| "-".to_owned());
        Ok(Self { source, text, options: read_options(asked)? })
    }

    /// All tunes.
    pub(crate) fn all(&self) -> impl Iterator<Item = Reading> + '_ {
        split(&self.text).map(|tune| read(&tune, &self.options))
    }

    /// The tune that is meant. A text of blanks is a tune without notes.
    pub(crate) fn one(&self, asked: &Asked) -> Result<Reading, Refused> {
        Ok(read(&self.one_text(asked)?, &self.options))
    }

    /// What a reader is told.
    pub(crate) const fn options(&self) -> &ReadOptions {
        &self.options
    }

    /// The text of the tune that is meant.
    pub(crate) fn one_text(&self, asked: &Asked) -> Result<TuneText, Refused> {
        let place = asked.whole("tune", 1, u32::MAX)?.unwrap_or(1) as usize;
        let mut tunes = split(&self.text);
        if let Some(found) = tunes.nth(place - 1) {
            return Ok(found);
        }
        let count = split(&self.text).count();
        if (place, count) == (1, 0) {
            return Ok(TuneText::default());
        }
        let advice = words::no_such_tune(&self.source, place, count);
        Err(Refused { option: Some("tune"), ..Refused::new("no-such-tune", advice) })
    }
}

/// What a reader is told.
pub(crate) fn read_options(asked: &Asked) -> Result<ReadOptions, Refused> {
    let (voice, part) = (asked.text("voice")?, asked.spoken("part")?);
    let (metre, pickup) = (asked.text("metre")?, asked.text("pickup")?);
    let ask = TextAsk {
        voice: voice.as_deref(),
        part: part.as_deref(),
        metre: metre.as_deref(),
        pickup: pickup.as_deref(),
    };
    Ok(ask.options()?)
}

/// A value that is a text.
pub(crate) fn string(text: &JsValue) -> Result<String, Refused> {
    text.as_string().ok_or_else(|| Refused::kind("text", "a text"))
}

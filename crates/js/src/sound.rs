//! The entry `sound`: a tune or scales as samples, with the time of each note, and as a file.

use crate::options::Asked;
use crate::plain::plain;
use crate::refused::Refused;
use crate::text::{TUNE, Text};
use js_sys::{Float32Array, Reflect, Uint8Array};
use modewright_core::find::find;
use modewright_lesson::ask;
use modewright_lesson::words;
use modewright_sound::{PerformOptions, Performance, RATE, SoundError, Voice, compare, render};
use serde::Serialize;
use wasm_bindgen::prelude::*;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
/** What a tune is played with. */
export interface VoiceOptions {
  /** A plucked string or a free reed. */
  timbre?: "plucked" | "reed";
}
/** How a tune is played. */
export interface SoundOptions extends TuneOptions, VoiceOptions {
  /** Beats a minute, from 1 to 1000; the page's own speed otherwise. */
  tempo?: number;
  /** Bars of clicks before the tune: 0, 1 or 2; 1 otherwise. */
  count_in?: number;
  /** Play what stands on the page once, without its repeats. */
  once?: boolean;
  /** The speed in hundredths of that, from 40 to 200. */
  percent?: number;
  /** The first bar to play, by its number; played once, with `to_bar`. */
  from_bar?: number;
  /** The last bar to play. */
  to_bar?: number;
  /** Let the clicks go on under the tune, a click a beat. */
  click?: boolean;
  /** Let the home note sound low under the tune. */
  drone?: boolean;
}
/** What is heard, and when. Times are in seconds from the beginning. */
export interface SoundAnswer {
  /** The samples, between -1 and 1, of one channel. */
  samples: Float32Array;
  /** Samples a second. */
  rate: number;
  /** How long it all lasts. */
  seconds: number;
  /** The notes in the order in which they begin. */
  notes: SoundNote[];
  /** The clicks: of the count-in, and under the tune where they go on. */
  clicks: SoundClick[];
}
/** A note that is heard. */
export interface SoundNote {
  /** The written note, counted from 0 over notes and rests; `null` for a note of a scale. */
  index: number | null;
  /** When it begins. */
  start: number;
  /** How long it is held. */
  length: number;
  /** Its sounding place on the MIDI scale. */
  midi: number;
}
/** A click. */
export interface SoundClick {
  /** When it falls. */
  at: number;
  /** Whether it is the first of a bar. */
  first: boolean;
}
"#;

const VOICE: &[&str] = &["timbre"];
const SOUND: &[&str] =
    &["tempo", "count_in", "once", "percent", "from_bar", "to_bar", "click", "drone"];

#[derive(Serialize)]
struct Answer {
    rate: u32,
    seconds: f64,
    notes: Vec<Note>,
    clicks: Vec<Click>,
}

#[derive(Serialize)]
struct Note {
    index: Option<usize>,
    start: f64,
    length: f64,
    midi: i32,
}

#[derive(Serialize)]
struct Click {
    at: f64,
    first: bool,
}

/// A tune as samples, with the time of each note.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "SoundAnswer")]
pub fn play(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "SoundOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let (performance, timbre) = tune(text, options)?;
    answer(&performance, timbre)
}

/// A tune as a WAV file.
///
/// @param text ABC, or letters as people type them.
#[wasm_bindgen(unchecked_return_type = "Uint8Array")]
pub fn wav(
    #[wasm_bindgen(unchecked_param_type = "string")] text: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "SoundOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let (performance, timbre) = tune(text, options)?;
    let file = modewright_sound::wav(&render(&performance, timbre));
    Ok(Uint8Array::from(file.as_slice()).into())
}

/// Scales one after the other, each up and down over a drone of its home, to compare by ear.
///
/// @param names Scales, like "E dorian" and "E minor".
#[wasm_bindgen(js_name = compareScales, unchecked_return_type = "SoundAnswer")]
pub fn compare_scales(
    #[wasm_bindgen(unchecked_param_type = "string[]")] names: &JsValue,
    #[wasm_bindgen(unchecked_optional_param_type = "VoiceOptions")] options: &JsValue,
) -> Result<JsValue, JsValue> {
    let asked = Asked::of(options, &[VOICE])?;
    let timbre = voice(&asked)?;
    let object = js_sys::Object::new();
    Reflect::set(&object, &"names".into(), names)?;
    let names = Asked::of(&object, &[&["names"]])?.texts("names")?.unwrap_or_default();
    let keys: Result<Vec<_>, _> = names.iter().map(|name| ask::key("names", name)).collect();
    answer(&compare(&keys.map_err(Refused::from)?), timbre)
}

fn voice(asked: &Asked) -> Result<Voice, Refused> {
    let Some(word) = asked.text("timbre")? else { return Ok(Voice::default()) };
    let found = Voice::WORDS.iter().find(|(name, _)| *name == word);
    found.map(|(_, voice)| *voice).ok_or_else(|| {
        let words: Vec<&str> = Voice::WORDS.iter().map(|(name, _)| *name).collect();
        let advice = words::not_a_choice(&word, &words);
        Refused { option: Some("timbre"), ..Refused::new("not-a-choice", advice) }
    })
}

fn tune(text: &JsValue, options: &JsValue) -> Result<(Performance, Voice), Refused> {
    let asked = Asked::of(options, &[TUNE, VOICE, SOUND])?;
    let timbre = voice(&asked)?;
    let first = asked.whole("from_bar", 0, u32::MAX)?;
    let last = asked.whole("to_bar", 0, u32::MAX)?;
    let mut options = PerformOptions {
        per_minute: asked.whole("tempo", 1, 1000)?,
        percent: asked.whole("percent", 40, 200)?.unwrap_or(100),
        count_in: asked.whole("count_in", 0, 2)?.unwrap_or(1),
        repeats: !asked.flag("once")?,
        bars: (first.is_some() || last.is_some())
            .then(|| (first.unwrap_or(0), last.unwrap_or(u32::MAX))),
        click: asked.flag("click")?,
        drone: None,
    };
    let tune = Text::of(text, &asked)?.one(&asked)?.tune;
    if asked.flag("drone")? {
        options.drone = find(&tune).best().map(|best| best.key.home.pitch_class());
    }
    let performance = Performance::of(&tune, &options).map_err(|error| match error {
        SoundError::TooLong => {
            let minutes = Performance::LONGEST / 60_000_000_000;
            Refused::new("sound-too-long", words::too_long(minutes))
        }
        SoundError::NoTempo => Refused::new("no-tempo", words::no_tempo()),
    })?;
    if let Some((first, last)) = options.bars
        && performance.notes.is_empty()
    {
        let highest = tune.bars.iter().map(|bar| bar.number).max().unwrap_or(0);
        let advice = words::no_such_bars(first, last.min(highest), highest);
        return Err(Refused::new("no-such-bars", advice));
    }
    Ok((performance, timbre))
}

fn answer(performance: &Performance, timbre: Voice) -> Result<JsValue, JsValue> {
    let notes = performance.notes.iter().map(|note| Note {
        index: note.event,
        start: seconds(note.start),
        length: seconds(note.length),
        midi: note.midi,
    });
    let clicks = performance.clicks.iter();
    let answer = plain(&Answer {
        rate: RATE,
        seconds: seconds(performance.length),
        notes: notes.collect(),
        clicks: clicks.map(|it| Click { at: seconds(it.at), first: it.first }).collect(),
    })?;
    let samples = Float32Array::from(render(performance, timbre).as_slice());
    Reflect::set(&answer, &"samples".into(), &samples)?;
    Ok(answer)
}

/// Seconds of nanoseconds; exact to the digit up to a hundred days.
#[expect(clippy::cast_precision_loss, reason = "a quarter of an hour at most")]
fn seconds(nanoseconds: u64) -> f64 {
    nanoseconds as f64 / 1e9
}

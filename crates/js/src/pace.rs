//! Reading and finding alone, without the objects of answers, for `cargo xtask bench`: no part of
//! the package.

use modewright_core::find::find;
use modewright_formats::source::{TuneText, split};
use modewright_formats::{ReadOptions, read};
use wasm_bindgen::prelude::wasm_bindgen;

/// Reads all tunes of a text and finds their modes, so many times over; gives how many notes and
/// rests they had, which shows that it was done.
#[must_use]
#[wasm_bindgen]
pub fn passes(text: &str, count: u32) -> f64 {
    let tunes: Vec<TuneText> = split(text).collect();
    let mut events = 0.0;
    for _ in 0..count {
        for tune in &tunes {
            let reading = read(std::hint::black_box(tune), &ReadOptions::default());
            std::hint::black_box(find(&reading.tune));
            events += f64::from(u32::try_from(reading.tune.events.len()).unwrap_or(u32::MAX));
        }
    }
    events
}

//! The first notes of an invented tune, when they sound, and its length as sound.
//!
//! `cargo run -p modewright-sound --example listen`

use modewright_formats::{ReadOptions, read, source::split};
use modewright_sound::{PerformOptions, Performance, Voice, render, wav};
use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    let abc =
        "X:1\nT:Low Water Step\nM:3/4\nL:1/4\nQ:1/4=100\nK:Edor\nE F G | B A G | F D D | E3 |]\n";
    for text in split(abc) {
        let tune = read(&text, &ReadOptions::default()).tune;
        let played = Performance::of(&tune, &PerformOptions::default())
            .map_err(|error| format!("{error:?}"))?;
        for note in played.notes.iter().take(4) {
            println!("{:>6} ms: {}", note.start / 1_000_000, note.midi);
        }
        println!("{} bytes of sound", wav(&render(&played, Voice::Plucked)).len());
    }
    Ok(())
}

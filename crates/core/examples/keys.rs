//! A small tour of the theory: one home, two modes, and the tune that tells them apart.
//!
//! `cargo run -p modewright-core --example keys`

use modewright_core::find::find;
use modewright_core::tune::{Sound, Span, TuneBuilder};
use modewright_core::{Key, Length, Mode};
use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    let home = "E".parse()?;
    for mode in [Mode::Aeolian, Mode::Dorian] {
        let key = Key::new(home, mode);
        let notes: Vec<String> = key.scale()?.iter().map(ToString::to_string).collect();
        println!("{key}: {}, signature {}", notes.join(" "), key.signature()?.fifths());
    }
    // An invented tune, note by note: C sharp says which of the two it is.
    let mut builder = TuneBuilder::new();
    for note in ["E4", "G4", "B4", "C#5", "B4", "A4", "F#4", "D4", "E4", "B4", "G4", "E4"] {
        builder.event(Sound::Note(note.parse()?), Length::CROTCHET, Span::default())?;
    }
    let finding = find(&builder.finish());
    let best = finding.best().ok_or("no answer")?;
    println!("found: {}, {:.2}", best.key, best.chance.as_f64());
    Ok(())
}

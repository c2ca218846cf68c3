//! An invented tune from letters to ABC, MusicXML and MIDI.
//!
//! `cargo run -p modewright-formats --example convert`

use modewright_formats::{ReadOptions, abc, midi, musicxml, read, source::split};

fn main() {
    let message = "Low Water Step\n\nE F# G | B A G | F# D D | E";
    for text in split(message) {
        let reading = read(&text, &ReadOptions::default());
        println!("{}", abc::write(&reading.tune));
        println!("{} bytes of MusicXML", musicxml::write(&reading.tune, &[]).len());
        println!("{} bytes of MIDI", midi::write(&reading.tune, midi::FileType::Single).len());
        for problem in &reading.problems {
            println!("line {}: {}", problem.line, problem.kind);
        }
    }
}

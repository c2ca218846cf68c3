//! Writes every tune of the files that are named in every format and reads it again: the tune must
//! be the same. `cargo xtask` calls it with the tune books.

use modewright_core::{Length, Tune};
use modewright_formats::source::{Splitter, TuneText};
use modewright_formats::{ReadOptions, abc, midi, musicxml, notation::notatable, read};
use modewright_tests::{difference, in_score, plain};
use std::path::Path;
use std::process::ExitCode;

/// Tunes that are told of one by one; the rest are counted.
const TOLD: usize = 10;

fn main() -> ExitCode {
    let mut tally = Tally::default();
    for file in std::env::args().skip(1) {
        let bytes = std::fs::read(&file).unwrap_or_else(|error| panic!("{file}: {error}"));
        for text in Splitter::new(bytes.as_slice()).filter_map(Result::ok) {
            let tune = read(&text, &ReadOptions::default()).tune;
            let name = format!("{file} X:{}", tune.header.number.as_deref().unwrap_or_default());
            tally.tune(&name, &tune);
        }
    }
    println!("{} tunes, {} not the same again", tally.tunes, tally.changed);
    if tally.tunes > 0 && tally.changed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

#[derive(Default)]
struct Tally {
    tunes: usize,
    changed: usize,
}

impl Tally {
    fn tune(&mut self, name: &str, tune: &Tune) {
        self.tunes += 1;
        let written = abc::write(tune);
        let again = abc::read(&TuneText::abc(written.as_str()), &ReadOptions::default()).tune;
        self.compare(name, "ABC", &plain(tune), &plain(&again));
        let score = TuneText::musicxml(musicxml::write(tune, &[]));
        let again = musicxml::read(&score, &ReadOptions::default()).tune;
        if !tune.events.is_empty() {
            self.compare(name, "MusicXML", &in_score(&notatable(tune)), &in_score(&again));
        }
        self.heard(name, tune);
    }

    /// What MIDI keeps: sounding pitch, beginning and length of every note as it is played.
    fn heard(&mut self, name: &str, tune: &Tune) {
        let file = midi::write(tune, midi::FileType::Parallel);
        let again = midi::read(&TuneText::midi(file), &ReadOptions::default()).tune;
        if heard(tune) != heard(&again) {
            self.changed += 1;
            if self.changed <= TOLD {
                println!("{name}: changed by MIDI");
            }
        }
    }

    fn compare(&mut self, name: &str, format: &str, tune: &Tune, again: &Tune) {
        let Some(difference) = difference(tune, again) else { return };
        self.changed += 1;
        if self.changed <= TOLD {
            let name = Path::new(name).file_name().map_or(name.into(), |n| n.to_string_lossy());
            println!("{name}: changed by {format}\n{difference}");
        }
    }
}

/// Height, beginning after the first note, and length of every note as it is played.
fn heard(tune: &Tune) -> Vec<(i16, Length, Length)> {
    let mut notes: Vec<(i16, Length, Length)> = Vec::new();
    let (mut now, mut tied) = (Length::ZERO, None);
    for bar in tune.play_order() {
        for event in tune.events_of(bar) {
            if let Some(pitch) = event.sound.pitch() {
                let key = pitch.midi() + tune.sounding_shift;
                match notes.last_mut() {
                    Some(last) if tied == Some(pitch) => {
                        last.2 = last.2.plus(event.length).expect("a length");
                    }
                    _ => notes.push((key, now, event.length)),
                }
            }
            tied = event.sound.pitch().filter(|_| event.tied);
            now = now.plus(event.length).expect("a time");
        }
    }
    let first = notes.first().map_or(Length::ZERO, |n| n.1);
    for note in &mut notes {
        note.1 = note.1.minus(first).expect("after the first");
    }
    notes
}

//! Writes tunes as scores and MIDI files, each beside what a reader must find in it:
//! `write_files FOLDER EVERY FILE...` takes every so-manieth tune of the files. The Python script
//! `read_files.py` reads the folder.

use modewright_core::tune::KeyForm;
use modewright_core::{Length, Mode, Tune};
use modewright_formats::notation::{Row, notatable};
use modewright_formats::source::Tunes;
use modewright_formats::{ReadOptions, midi, musicxml, read};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;

fn main() {
    let mut words = std::env::args().skip(1);
    let folder = words.next().expect("a folder");
    let every: usize = words.next().and_then(|n| n.parse().ok()).expect("a number");
    fs::create_dir_all(&folder).expect("the folder");
    let mut count = 0;
    for file in words {
        let bytes = fs::read(&file).unwrap_or_else(|error| panic!("{file}: {error}"));
        for text in Tunes::new(bytes.as_slice()).filter_map(Result::ok) {
            count += 1;
            let tune = read(&text, &ReadOptions::default()).tune;
            if count % every == 0 && !tune.events.is_empty() {
                write(Path::new(&folder), count, &tune);
            }
        }
    }
}

fn write(folder: &Path, number: usize, tune: &Tune) {
    let path = |ending: &str| folder.join(format!("{number:05}.{ending}"));
    // A row under the notes: each says its place.
    let places = (0..tune.events.len()).map(|place| place.to_string()).collect();
    let score = musicxml::write(tune, &[Row { name: ROW.to_owned(), texts: places }]);
    let save = |ending: &str, bytes: &[u8]| fs::write(path(ending), bytes).expect("a file");
    save("mxl", &musicxml::pack(&score));
    save("musicxml", score.as_bytes());
    save("mid", &midi::write(tune, midi::FileType::Parallel));
    save("json", wanted(tune).to_string().as_bytes());
}

/// The name of the row, for the reader.
const ROW: &str = "place";

/// What a reader must find.
fn wanted(tune: &Tune) -> Value {
    let written = notatable(tune);
    let octave = i32::from(written.clef.octave);
    let notes: Vec<Value> = written
        .events
        .iter()
        .zip(1..)
        .map(|(event, next)| {
            let pitch = event.sound.pitch();
            let follows = written.events.get(next).and_then(|next| next.sound.pitch());
            let tied = event.tied && pitch.is_some() && follows == pitch;
            let name = pitch.map(|p| format!("{}{}", p.spelling(), i32::from(p.octave()) + octave));
            json!([name, crotchets(event.length), tied])
        })
        .collect();
    let key = tune.key().copied().unwrap_or_default();
    let plain = key.key().filter(|k| k.signature().ok() == key.signature());
    let mode = plain.map(|k| match k.mode {
        Mode::Ionian => "major",
        Mode::Aeolian => "minor",
        other => other.name(),
    });
    json!({
        "notes": notes,
        "fifths": key.signature().filter(|_| key.form != KeyForm::None).map(modewright_core::Signature::fifths),
        "home": plain.map(|k| k.home.to_string()),
        "mode": mode,
        "pickup": tune.bars.first().is_some_and(|bar| bar.number == 0),
        "heard": heard(tune),
        "row": (0..tune.events.len()).map(|place| place.to_string()).collect::<Vec<_>>(),
    })
}

/// A length in crotchets, as a fraction.
fn crotchets(length: Length) -> String {
    length.times(4, 1).expect("a length").to_string()
}

/// Height, beginning after the first and length of every note as it is played.
fn heard(tune: &Tune) -> Vec<Value> {
    let mut notes: Vec<(Length, Length, i16)> = Vec::new();
    let (mut now, mut tied) = (Length::ZERO, None);
    for bar in tune.play_order() {
        for event in tune.events_of(bar) {
            if let Some(pitch) = event.sound.pitch() {
                match notes.last_mut().filter(|_| tied == Some(pitch)) {
                    Some(last) => last.1 = last.1.plus(event.length).expect("a length"),
                    None => notes.push((now, event.length, pitch.midi() + tune.sounding_shift)),
                }
            }
            tied = event.sound.pitch().filter(|_| event.tied);
            now = now.plus(event.length).expect("a time");
        }
    }
    let first = notes.first().map_or(Length::ZERO, |note| note.0);
    let after = |at: Length| at.minus(first).expect("after the first");
    notes.iter().map(|n| json!([n.2, crotchets(after(n.0)), crotchets(n.1)])).collect()
}

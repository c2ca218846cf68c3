//! Whole tunes moved, against an independent toolkit: `tests/reference/music21-moves.json`.

#![expect(clippy::unwrap_used, reason = "helpers of tests, where a panic is the answer")]

use modewright_core::transpose::Transposition;
use modewright_core::tune::{Sound, Span, TuneBuilder};
use modewright_core::{Interval, Length, Tune};
use modewright_formats::{ReadOptions, abc, source::TuneText};
use modewright_tests::json;

fn tune(notes: &str) -> Tune {
    let mut builder = TuneBuilder::new();
    for name in notes.split(' ') {
        let note = Sound::Note(name.parse().unwrap());
        builder.event(note, Length::QUAVER, Span::default()).unwrap();
    }
    builder.finish()
}

fn names(tune: &Tune) -> String {
    let names: Vec<String> =
        tune.events.iter().filter_map(|e| Some(e.sound.pitch()?.to_string())).collect();
    names.join(" ")
}

#[test]
fn every_note_goes_where_the_toolkit_puts_it() {
    let data = json("reference/music21-moves.json");
    let tunes = data["tunes"].as_array().unwrap();
    assert!(tunes.len() >= 10);
    let mut count = 0;
    for entry in tunes {
        let notes = entry["notes"].as_str().unwrap();
        let old = tune(notes);
        for (name, wanted) in entry["moves"].as_object().unwrap() {
            let by: Interval = name.parse().unwrap();
            let wanted = wanted.as_str().unwrap();
            let moved = Transposition::by_interval(by).apply(&old).unwrap();
            assert_eq!(names(&moved), wanted, "{} by {name}", entry["title"]);
            // The same through text: written as ABC, moved there, and read again.
            let text = TuneText::abc(abc::write(&old));
            let by = Transposition::by_interval(by);
            let moved = abc::transpose(&text, &ReadOptions::default(), &by).unwrap();
            assert_eq!(names(&moved.reading.tune), wanted, "{} by {name}", entry["title"]);
            count += notes.split(' ').count();
        }
    }
    println!("{count} notes");
    assert!(count > 10_000, "only {count} notes were compared");
}

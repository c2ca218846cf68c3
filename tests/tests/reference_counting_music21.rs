//! The count against an independent toolkit: the beat of every note of
//! `tests/reference/counting/music21.json`.

#![expect(clippy::unwrap_used, reason = "helpers of tests, where a panic is the answer")]

use modewright_core::count::{Compound, Count, CountOptions, Detail, Syllable, System, count};
use modewright_core::tune::{BarLine, BarStyle, Sound, Span, TuneBuilder};
use modewright_core::{Length, Metre, Tune};
use modewright_tests::json;
use serde_json::Value;

fn length(text: &Value) -> Length {
    text.as_str().unwrap().parse().unwrap()
}

/// A tune of one pitch in the rhythm of the bars.
fn tune(metre: Metre, bars: &[Value]) -> Tune {
    let mut builder = TuneBuilder::new();
    builder.metre(metre);
    for bar in bars {
        for note in bar.as_array().unwrap() {
            let sound = Sound::Note("A4".parse().unwrap());
            builder.event(sound, length(&note[0]), Span::default()).unwrap();
        }
        let style = BarStyle::Single;
        builder.bar_line(BarLine { style, ..BarLine::default() }, Span::default());
    }
    builder.finish()
}

/// The fraction of a beat that a syllable stands for; `None` for what has no word.
fn fraction(syllable: Syllable) -> Option<&'static str> {
    Some(match syllable {
        Syllable::Number(_) => "0",
        Syllable::E => "1/4",
        Syllable::And | Syllable::Ta => "1/2",
        Syllable::A => "3/4",
        Syllable::La => "1/3",
        Syllable::Li => "2/3",
        Syllable::To => "1/6",
        Syllable::Ti => "5/6",
        Syllable::Between => return None,
    })
}

/// The beat that a note falls on and how far into it, as music21 has it. It feels 3/8 in one,
/// where we count three (both are usual, by speed): its one beat is cut into three here.
fn beat(metre: &str, note: &Value) -> (u32, String) {
    let beat = u32::try_from(note[1].as_u64().unwrap()).unwrap();
    let inside = length(&note[2]);
    if metre != "3/8" {
        return (beat, inside.to_string());
    }
    let thirds = inside.times(3, 1).unwrap();
    let whole = thirds.numerator() / thirds.denominator();
    let rest = thirds.minus(Length::new(whole, 1).unwrap()).unwrap();
    (3 * (beat - 1) + whole + 1, rest.to_string())
}

#[test]
fn every_note_falls_on_the_same_beat() {
    let data = json("reference/counting/music21.json");
    let system = System { compound: Compound::LaLi, ..System::default() };
    let mut compared = 0;
    let mut wordless = 0;
    for (name, bars) in data["tunes"].as_object().unwrap() {
        let bars = bars.as_array().unwrap();
        let tune = tune(name.parse().unwrap(), bars);
        for detail in [Detail::Beats, Detail::Full] {
            let counted = count(&tune, CountOptions { system, detail });
            assert_eq!(counted.len(), bars.len(), "{name}");
            for (bar, wanted) in counted.iter().zip(bars) {
                let mut number = 0;
                let mut notes = wanted.as_array().unwrap().iter();
                for Count { syllable, struck, .. } in &bar.events {
                    if let Syllable::Number(beat) = syllable {
                        number = *beat;
                    }
                    if !struck {
                        continue;
                    }
                    let (beat, inside) = beat(name, notes.next().unwrap());
                    // A beat that is held is said before what is struck inside it, so the last
                    // number is the beat of the note.
                    assert_eq!(number, beat, "{name}: {}", bar.text());
                    match fraction(*syllable) {
                        Some(found) => assert_eq!(found, inside, "{name}: {}", bar.text()),
                        None => wordless += 1,
                    }
                    compared += 1;
                }
                assert!(notes.next().is_none(), "{name}: {}", bar.text());
            }
        }
    }
    assert!(compared > 2000, "{compared}");
    assert!(wordless * 20 < compared, "{wordless} of {compared}");
}

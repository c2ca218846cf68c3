//! Where tunes lie on instruments: the cases of `tests/reference/fit-cases.json`.

#![expect(clippy::unwrap_used, reason = "helpers of tests, where a panic is the answer")]

use modewright_core::fit::{Awkwardness, Candidate, Verdict, fit};
use modewright_core::instrument::Instrument;
use modewright_core::tune::{Sound, Span, TuneBuilder, WrittenKey};
use modewright_core::{Key, Length, Pitch, Tune};
use modewright_formats::instrument::builtin;
use modewright_tests::json;
use serde_json::Value;

fn word(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("no text: {value}"))
}

fn tune(key: Key, notes: &str) -> Tune {
    let mut builder = TuneBuilder::new();
    builder.key(WrittenKey::from_key(key));
    for name in notes.split(' ') {
        let note = Sound::Note(name.parse().unwrap());
        builder.event(note, Length::CROTCHET, Span::default()).unwrap();
    }
    builder.finish()
}

fn names(pitches: impl Iterator<Item = Pitch>) -> String {
    let names: Vec<String> = pitches.map(|p| p.to_string()).collect();
    names.join(" ")
}

fn agrees(candidate: &Candidate, wanted: &Value, id: &str) {
    let missing = names(candidate.missing.iter().map(|m| m.pitch));
    let awkward = names(candidate.awkward.iter().map(|a| a.pitch));
    if let Some(unbent) = wanted["unbent"].as_str() {
        // Without bends these are missing; a bent reed is an awkward way to have one.
        let bent = candidate.awkward.iter().filter(|a| a.why == Awkwardness::Bend);
        let all = candidate.missing.iter().map(|m| m.pitch).chain(bent.map(|a| a.pitch));
        let mut all: Vec<Pitch> = all.collect();
        all.sort_unstable();
        assert_eq!(names(all.into_iter()), unbent, "{id}");
        return;
    }
    assert_eq!(missing, word(&wanted["missing"]), "{id}, missing");
    assert_eq!(awkward, word(&wanted["awkward"]), "{id}, awkward");
}

#[test]
fn twelve_tunes_lie_where_they_should() {
    let data = json("reference/fit-cases.json");
    let cases = data["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 12);
    for case in cases {
        let id = word(&case["id"]);
        let instrument = builtin::find(word(&case["instrument"])).unwrap();
        let key: Key = word(&case["key"]).parse().unwrap();
        let found = fit(&tune(key, word(&case["notes"])), instrument, Some(key));
        agrees(found.as_written().unwrap(), &case["as_written"], id);
        for wanted in case["moves"].as_array().unwrap() {
            let by = i16::try_from(wanted["by"].as_i64().unwrap()).unwrap();
            let there = found.candidates.iter().find(|c| c.by.semitones() == by);
            let there = there.unwrap_or_else(|| panic!("{id}: {by} is not among the heights"));
            agrees(there, wanted, id);
            assert_eq!(there.key.unwrap().to_string(), word(&wanted["key"]), "{id}");
        }
        if case["as_written"]["missing"] == "" {
            assert_eq!(found.verdict(), Verdict::AsWritten, "{id}");
        }
        if case["without_half_frets"] == true {
            assert!(without_half_frets(instrument, &found.notes), "{id}");
        }
    }
}

/// Whether every note has a way that uses no half fret.
fn without_half_frets(instrument: &Instrument, notes: &[modewright_core::fit::TuneNote]) -> bool {
    notes.iter().all(|note| {
        let ways = instrument.note(note.pitch.midi()).map_or(&[][..], |note| &note.ways);
        ways.iter().any(|way| way.fret.is_some_and(|fret| !fret.half))
    })
}

//! The limits: one list in code, in `tests/fixtures/limits.json` and in `DEVELOPERS.md`; and those
//! that no text for the command reaches, at the limit and one past it.

use modewright_core::instrument::Instrument;
use modewright_core::tune::TuneBuilder;
use modewright_core::{Metre, Tune};
use modewright_formats::source::{TuneText, Tunes};
use modewright_formats::{ReadOptions, abc, instrument, limits, midi, musicxml, read};
use modewright_sheet::{Options, Row, Sheet, engrave};
use modewright_sound::{PerformOptions, Performance, SoundError};
use modewright_tests::{json, text};
use serde_json::Value;
use std::collections::BTreeMap;

fn entries() -> Vec<Value> {
    let list = json("fixtures/limits.json");
    ["cases", "others"]
        .iter()
        .flat_map(|name| list[name].as_array().expect("a list").clone())
        .collect()
}

fn limit(id: &str) -> usize {
    let all = entries();
    let entry = all.iter().find(|entry| entry["id"] == id).unwrap_or_else(|| panic!("no {id}"));
    usize::try_from(entry["limit"].as_u64().expect("a number")).expect("a size")
}

#[test]
fn the_list_is_that_of_the_code() {
    let code: BTreeMap<&str, u64> = [
        ("TUNE_BYTES", limits::TUNE_BYTES as u64),
        ("NUMBER_IN_LENGTH", limits::NUMBER_IN_LENGTH.into()),
        ("CHORD_NOTES", limits::CHORD_NOTES as u64),
        ("PLAY_ORDER_PARTS", limits::PLAY_ORDER_PARTS as u64),
        ("PLAY_ORDER_DEPTH", limits::PLAY_ORDER_DEPTH as u64),
        ("TUPLET_NOTES", limits::TUPLET_NOTES.into()),
        ("BARS_OF_REST", limits::BARS_OF_REST.into()),
        ("VOICES", limits::VOICES as u64),
        ("PROBLEMS", limits::PROBLEMS as u64),
        ("SCORE_BYTES", limits::SCORE_BYTES),
        ("SCORE_NODES", limits::SCORE_NODES.into()),
        ("TAG_ATTRIBUTES", limits::TAG_ATTRIBUTES as u64),
        ("SCORE_NAMESPACES", limits::SCORE_NAMESPACES as u64),
        ("DIVISIONS", limits::DIVISIONS.into()),
        ("MIDI_BYTES", limits::MIDI_BYTES),
        ("MIDI_BARS", limits::MIDI_BARS as u64),
        ("INSTRUMENT_BYTES", limits::INSTRUMENT_BYTES as u64),
        ("INSTRUMENT_SIZES", limits::INSTRUMENT_SIZES as u64),
    ]
    .into();
    let mut listed = BTreeMap::new();
    for entry in entries() {
        if let Some(constant) = entry["constant"].as_str() {
            listed.insert(constant.to_owned(), entry["limit"].as_u64().expect("a number"));
        }
    }
    let code: BTreeMap<String, u64> = code.into_iter().map(|(k, v)| (k.to_owned(), v)).collect();
    assert_eq!(listed, code);
    // Every constant of the module is in the table above.
    let module = text("../crates/formats/src/limits.rs");
    assert_eq!(module.matches("\npub const ").count(), code.len());
    for (id, held) in [
        ("notes", TuneBuilder::MAX_EVENTS),
        ("played-bars", Tune::MAX_PLAYED_BARS),
        ("metre-parts", Metre::MAX_GROUPS),
        ("ways", Instrument::MAX_WAYS),
        ("sheet-notes", Sheet::MAX_NOTES),
        ("sheet-title", Sheet::MAX_TITLE),
        ("sheet-rows", Options::MAX_ROWS),
        ("sound-minutes", usize::try_from(Performance::LONGEST / 60_000_000_000).expect("minutes")),
    ] {
        assert_eq!(limit(id), held, "{id}");
    }
}

#[test]
fn the_list_is_told_to_developers() {
    let page = text("../DEVELOPERS.md");
    for entry in entries() {
        let (what, limit) =
            (entry["what"].as_str().expect("words"), entry["limit"].as_u64().expect("a number"));
        let row = match (what.strip_suffix(", bytes"), what.strip_suffix(", minutes")) {
            (Some(what), _) => format!("| {what} | {} MiB |", limit >> 20),
            (_, Some(what)) => format!("| {what} | {limit} minutes |"),
            _ => format!("| {what} | {} |", spaced(limit)),
        };
        assert!(page.contains(&row), "DEVELOPERS.md has no row {row}");
    }
}

/// A number with blanks between thousands.
fn spaced(number: u64) -> String {
    let digits = number.to_string();
    let mut out = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i).is_multiple_of(3) {
            out.push(' ');
        }
        out.push(digit);
    }
    out
}

fn codes(bytes: &[u8]) -> Vec<&'static str> {
    let mut codes = Vec::new();
    for text in Tunes::new(bytes) {
        match text {
            Ok(text) => {
                let reading = read(&text, &ReadOptions::default());
                codes.extend(reading.problems.iter().map(|problem| problem.kind.code()));
            }
            Err(error) => codes.push(error.code()),
        }
    }
    codes
}

fn tune(text: impl Into<String>) -> Tune {
    abc::read(&TuneText::abc(text.into()), &ReadOptions::default()).tune
}

#[test]
fn midi_files() {
    // Bars of 4/4, two to a note: what is played has fewer bars than the file.
    let bars = |count: usize| {
        let notes = "C2|".repeat(count / 2) + &"C|".repeat(count % 2);
        midi::write(&tune(format!("X:1\nM:4/4\nL:1/1\nK:C\n{notes}")), midi::FileType::Single)
    };
    let most = limit("midi-bars");
    assert!(!codes(&bars(most)).contains(&"midi-too-long"));
    assert!(codes(&bars(most + 1)).contains(&"midi-too-long"));
    let filled = |bytes: usize| {
        let mut file = bars(4);
        file.resize(bytes, 0);
        codes(&file)
    };
    assert!(!filled(limit("midi-bytes")).contains(&"xml-too-large"));
    assert_eq!(filled(limit("midi-bytes") + 1), ["xml-too-large"]);
}

#[test]
fn packed_scores() {
    let most = limit("score-bytes");
    let score = musicxml::write(&tune("X:1\nK:C\nCDEF|\n"), &[]);
    let filled = |bytes: usize| {
        codes(&musicxml::pack(&format!("{score}{}", " ".repeat(bytes - score.len()))))
    };
    assert_eq!(filled(most), Vec::<&str>::new());
    assert_eq!(filled(most + 1), ["xml-too-large"]);
}

#[test]
fn elements_attributes_and_namespaces() {
    let score = |attributes: &str, inside: &str| {
        let text = format!(
            "<score-partwise version=\"4.0\"{attributes}><part id=\"P1\"><measure number=\"1\"><note>\
             <pitch><step>D</step><octave>4</octave></pitch><duration>4</duration></note>{inside}\
             </measure></part></score-partwise>"
        );
        codes(text.as_bytes())
    };
    // Some elements are the score's own.
    let most = limit("score-nodes");
    assert_eq!(score("", &"<a/>".repeat(most - 20)), Vec::<&str>::new());
    assert_eq!(score("", &"<a/>".repeat(most)), ["xml-too-many-elements"]);
    let many = |count: usize| (0..count).map(|i| format!(" a{i}=''")).collect::<String>();
    let most = limit("tag-attributes");
    assert_eq!(score("", &format!("<b{}/>", many(most))), Vec::<&str>::new());
    assert_eq!(score("", &format!("<b{}/>", many(most + 1))), ["xml-not-well-formed"]);
    let spaces =
        |count: usize| (0..count).map(|i| format!(" xmlns:a{i}='b{i}'")).collect::<String>();
    let most = limit("score-namespaces");
    assert_eq!(score(&spaces(most), ""), Vec::<&str>::new());
    assert_eq!(score(&spaces(most + 1), ""), ["xml-not-well-formed"]);
}

#[test]
fn voices_and_play_orders() {
    let most = limit("voices");
    let voices = |count: usize| {
        let text: String = (0..count).map(|i| format!("V:{i}\nCDEF|\n")).collect();
        abc::read(&TuneText::abc(format!("X:1\nK:C\n{text}")), &ReadOptions::default()).voices.len()
    };
    assert_eq!((voices(most), voices(most + 1)), (most, most));
    let most = limit("play-order-depth");
    let order = |deep: usize| {
        tune(format!("X:1\nP:{}A{}\nK:C\nP:A\nCDEF|\n", "(".repeat(deep), ")".repeat(deep)))
            .part_order
            .len()
    };
    assert_eq!(order(most), 1);
    assert!(order(most + 9) <= 1);
}

#[test]
fn instruments() {
    let ways = |count: usize| {
        let ways = vec!["{}"; count].join(",");
        let text = format!(
            "{{\"format\": 1, \"id\": \"a\", \"name\": \"a\", \"notes\": \
             [{{\"pitch\": \"A3\", \"ways\": [{ways}]}}]}}"
        );
        instrument::read(&text).map(|it| it.len()).map_err(|error| error.kind.code())
    };
    let most = limit("ways");
    assert_eq!(ways(most), Ok(1));
    assert_eq!(ways(most + 1), Err("too-many-ways"));
}

#[test]
fn sound_and_sheets() {
    let seconds = |count: usize| {
        let tune = tune(format!("X:1\nM:4/4\nL:1/4\nQ:1/4=60\nK:C\n{}", "CDEF|".repeat(count / 4)));
        Performance::of(&tune, &PerformOptions { count_in: 0, ..PerformOptions::default() })
            .map(|p| p.length)
    };
    let most = limit("sound-minutes") * 60;
    assert!(seconds(most).is_ok());
    assert_eq!(seconds(most + 4), Err(SoundError::TooLong));
    let title = |letters: usize| {
        engrave(&tune(format!("X:1\nT:{}\nK:C\nC|\n", "b".repeat(letters))), &Options::default())
            .title
            .len()
    };
    let most = limit("sheet-title");
    assert_eq!((title(most), title(most + 1)), (most, most));
    let rows = |count: usize| {
        let tune = tune("X:1\nK:C\nC|\n");
        let row = Row { label: "x".into(), cells: vec![modewright_sheet::Cell::Text("1".into())] };
        engrave(&tune, &Options { rows: vec![row; count], ..Options::default() })
    };
    let most = limit("sheet-rows");
    assert_ne!(rows(most - 1), rows(most));
    assert_eq!(rows(most), rows(most + 1));
}

#[test]
fn unfolding() {
    let most = limit("played-bars");
    for (bars, played) in [(most, most), (most + 1, most)] {
        assert_eq!(tune(format!("X:1\nK:C\n{}", "C8|".repeat(bars))).play_order().len(), played);
    }
}

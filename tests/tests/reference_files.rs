//! Files of other programs against the values of the standards: `reference/musicxml-cases.json`
//! and the tables of `reference/midi`.

#![expect(clippy::unwrap_used, reason = "helpers of tests, where a panic is the answer")]

use modewright_core::tune::Tempo;
use modewright_core::{Length, Pitch, Tune};
use modewright_formats::source::TuneText;
use modewright_formats::{ReadOptions, Reading, abc, midi, musicxml};
use modewright_tests::{json, table};
use serde_json::Value;

fn abc_tune(text: &str) -> Tune {
    abc::read(&TuneText::abc(text), &ReadOptions::default()).tune
}

fn score(case: &Value) -> Reading {
    let measures: String =
        case["measures"].as_array().unwrap().iter().map(|m| m.as_str().unwrap()).collect();
    let defaults =
        case["defaults"].as_str().map_or(String::new(), |d| format!("<defaults>{d}</defaults>"));
    let text = format!(
        "<score-partwise version=\"4.0\">{defaults}<part-list><score-part id=\"P1\">\
         <part-name>M</part-name></score-part></part-list><part id=\"P1\">{measures}</part>\
         </score-partwise>"
    );
    musicxml::read(&TuneText::musicxml(text), &ReadOptions::default())
}

fn numbers(value: &Value) -> Vec<i64> {
    value.as_array().unwrap().iter().map(|n| n.as_i64().unwrap()).collect()
}

/// Checks what a case says about its reading; gives how many things that were.
fn check(case: &Value, reading: &Reading) -> usize {
    let id = case["id"].as_str().unwrap();
    let tune = &reading.tune;
    let key = tune.key().unwrap();
    let said = case.as_object().unwrap();
    let mut checked = 0;
    for (what, wanted) in said {
        checked += 1;
        match what.as_str() {
            "key" => {
                let found = key.key().map(|k| k.to_string());
                assert_eq!(found.as_deref(), wanted.as_str(), "{id}");
            }
            "fifths" => {
                let found = key.signature().map(|s| i64::from(s.fifths()));
                assert_eq!(found, wanted.as_i64(), "{id}");
            }
            "alters" => {
                let steps = modewright_core::Step::ALL.into_iter();
                let altered = steps.filter(|s| key.alter(*s).semitones() != 0);
                let names: Vec<String> = altered.map(|s| format!("{s}{}", key.alter(s))).collect();
                assert_eq!(Some(names.join(" ").as_str()), wanted.as_str(), "{id}");
            }
            "notes" => {
                let notes = tune.events.iter().filter_map(|e| Some((e.sound.pitch()?, e.length)));
                let words: Vec<String> = notes.map(|(p, l)| format!("{p} {l}")).collect();
                assert_eq!(Some(words.join(" ").as_str()), wanted.as_str(), "{id}");
            }
            "sounds" => {
                let words: Vec<String> =
                    tune.soundings().map(|s| format!("{} {}", s.pitch, s.length)).collect();
                assert_eq!(Some(words.join(" ").as_str()), wanted.as_str(), "{id}");
            }
            "midi" => {
                let heard: Vec<i64> = tune
                    .soundings()
                    .map(|s| i64::from(s.pitch.midi() + tune.sounding_shift))
                    .collect();
                assert_eq!(heard, numbers(wanted), "{id}");
            }
            "bars" => {
                let bars: Vec<i64> = tune.bars.iter().map(|b| b.number.into()).collect();
                assert_eq!(bars, numbers(wanted), "{id}");
            }
            "played" => {
                let played: Vec<i64> =
                    tune.play_order().iter().map(|&b| i64::try_from(b).unwrap()).collect();
                assert_eq!(played, numbers(wanted), "{id}");
            }
            "shift" => assert_eq!(Some(i64::from(tune.sounding_shift)), wanted.as_i64(), "{id}"),
            "problems" => {
                let codes = reading.problems.iter().map(|p| p.kind.code());
                let codes: Vec<&str> = codes.filter(|c| *c != "bar-length").collect();
                let wanted: Vec<&str> =
                    wanted.as_array().unwrap().iter().map(|c| c.as_str().unwrap()).collect();
                assert_eq!(codes, wanted, "{id}");
            }
            "id" | "mark" | "about" | "measures" | "defaults" => checked -= 1,
            other => panic!("{id}: {other} is not checked"),
        }
    }
    checked
}

#[test]
fn every_case_of_musicxml() {
    let data = json("reference/musicxml-cases.json");
    let cases = data["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 63);
    for case in cases {
        let checked = check(case, &score(case));
        assert!(checked > 0, "{} checks nothing", case["id"]);
    }
}

/// Bytes as a table writes them: `FF 59 02 00 00`.
fn bytes(text: &str) -> Vec<u8> {
    text.split(' ').map(|byte| u8::from_str_radix(byte, 16).unwrap()).collect()
}

fn holds(file: &[u8], wanted: &[u8]) -> bool {
    file.windows(wanted.len()).any(|window| window == wanted)
}

/// A file with one event before its only note.
fn with_event(event: &[u8], key: u8) -> TuneText {
    let mut track = vec![0];
    track.extend_from_slice(event);
    track.extend_from_slice(&[0, 0x90, key, 80, 0x83, 0x60, 0x80, key, 0, 0, 0xff, 0x2f, 0]);
    let mut file = b"MThd\0\0\0\x06\0\0\0\x01\x01\xe0MTrk".to_vec();
    file.extend_from_slice(&u32::try_from(track.len()).unwrap().to_be_bytes());
    file.extend(track);
    TuneText::midi(file)
}

fn midi_tune(text: &TuneText) -> Tune {
    midi::read(text, &ReadOptions::default()).tune
}

#[test]
fn midi_keys() {
    for row in table("reference/midi/keys.csv") {
        let event = bytes(&row["bytes"]);
        let (home, mode) = row["signature"].split_once(' ').unwrap();
        let sign = if mode == "minor" { "m" } else { "" };
        let tune = abc_tune(&format!("X:1\nL:1/4\nK:{home}{sign}\nG|\n"));
        for kind in [midi::FileType::Single, midi::FileType::Parallel] {
            assert!(holds(&midi::write(&tune, kind), &event), "{row:?}");
        }
        let again = midi_tune(&with_event(&event, 60));
        let key = again.key().unwrap();
        assert_eq!(key.signature(), tune.key().unwrap().signature(), "{row:?}");
        assert_eq!(key.home, None, "major or minor is a hint and no home");
    }
}

#[test]
fn midi_metres() {
    for row in table("reference/midi/metres.csv") {
        let event = bytes(&row["bytes"]);
        let tune = abc_tune(&format!("X:1\nM:{}\nK:C\nG|\n", row["metre"]));
        assert!(holds(&midi::write(&tune, midi::FileType::Single), &event), "{row:?}");
        assert_eq!(midi_tune(&with_event(&event, 60)).metre.to_string(), row["metre"]);
    }
    // Without a word it is 4/4.
    assert_eq!(midi_tune(&with_event(&[0xff, 1, 0], 60)).metre.to_string(), "4/4");
}

#[test]
fn midi_speeds() {
    for row in table("reference/midi/tempos.csv") {
        let event = bytes(&row["bytes"]);
        let count = &row["crotchets_per_minute"];
        let tune = abc_tune(&format!("X:1\nQ:1/4={count}\nK:C\nG|\n"));
        assert!(holds(&midi::write(&tune, midi::FileType::Single), &event), "{row:?}");
        let wanted = Tempo {
            beat: vec![Length::CROTCHET],
            per_minute: Some(count.parse().unwrap()),
            words: None,
        };
        assert_eq!(midi_tune(&with_event(&event, 60)).tempo, Some(wanted));
    }
}

#[test]
fn midi_notes() {
    for row in table("reference/midi/notes.csv") {
        let pitch: Pitch = row["note"].parse().unwrap();
        let number: u8 = row["midi"].parse().unwrap();
        assert_eq!(pitch.midi(), i16::from(number));
        let tune = midi_tune(&with_event(&[0xff, 1, 0], number));
        assert_eq!(tune.soundings().next().unwrap().pitch.midi(), i16::from(number));
    }
}

#[test]
fn a_score_that_says_g_major_and_ends_on_a() {
    // X23: the file's key and that of the notes are both reported.
    let tune = abc_tune(
        "X:1\nM:4/4\nL:1/8\nK:G\nA2AB c2BA|G2GA B2AG|A2AB c2d2|e2dB A4|e2ed c2BA|G2GA B2d2|\
         e2dc B2AG|A4 A4|]\n",
    );
    let score = musicxml::write(&tune, &[]);
    assert!(score.contains("<fifths>1</fifths>\n          <mode>major</mode>"));
    let read = musicxml::read(&TuneText::musicxml(score), &ReadOptions::default());
    let finding = modewright_core::find::find(&read.tune);
    let answer =
        modewright_lesson::answer::FindAnswer::new("-", &read.tune, &finding, &read.problems);
    let answer = serde_json::to_value(answer).unwrap();
    assert_eq!((&answer["home"], &answer["mode"]), (&"A".into(), &"dorian".into()));
    assert_eq!(
        (&answer["written"]["home"], &answer["agrees"]),
        (&"G".into(), &"same_notes".into())
    );
}

#[test]
fn what_midi_round_trips_must_keep() {
    // M01: A Dorian keeps its one sharp.
    let dorian = abc_tune("X:1\nM:2/4\nL:1/8\nK:Ador\nAc^FA|\n");
    let file = midi::write(&dorian, midi::FileType::Single);
    assert!(holds(&file, &[0xff, 0x59, 2, 1]));
    // M02: the file starts with the pickup, and its metre is the tune's.
    let pickup = abc_tune("X:1\nM:3/4\nL:1/4\nK:C\nG|c2G|\n");
    let file = midi::write(&pickup, midi::FileType::Single);
    assert!(holds(&file, &[0xff, 0x58, 4, 3, 2]));
    assert!(holds(&file, &[0, 0x90, 67, 80]));
    // M03: a tie is one note; M04: repeats are played out; M05: triplets have whole ticks.
    let sounds = |music: &str| -> Vec<String> {
        let tune = abc_tune(&format!("X:1\nM:2/4\nL:1/8\nK:C\n{music}\n"));
        let again = midi_tune(&TuneText::midi(midi::write(&tune, midi::FileType::Single)));
        again.soundings().map(|s| format!("{} {}", s.pitch, s.length)).collect()
    };
    assert_eq!(sounds("C2D2-|D4|"), ["C4 1/4", "D4 3/4"]);
    assert_eq!(sounds("|:C4|1D4:|2E4|]"), ["C4 1/2", "D4 1/2", "C4 1/2", "E4 1/2"]);
    assert_eq!(sounds("(3CDE F2|"), ["C4 1/12", "D4 1/12", "E4 1/12", "F4 1/4"]);
    let ticks = u16::from_be_bytes([file[12], file[13]]);
    assert_eq!(ticks % 3, 0);
    // M06: a note-on without strength ends its note.
    let mut silent = with_event(&[0xff, 1, 0], 60);
    let at = silent.bytes.windows(2).position(|w| w == [0x80, 60]).unwrap();
    silent.bytes[at] = 0x90;
    assert_eq!(midi_tune(&silent).soundings().next().unwrap().length, Length::CROTCHET);
    // M07: names are found again from the key.
    for (key, name) in [("G", "F#4"), ("Db", "Gb4")] {
        let tune = abc_tune(&format!("X:1\nK:{key}\n{}|\n", if key == "G" { "F" } else { "G" }));
        let again = midi_tune(&TuneText::midi(midi::write(&tune, midi::FileType::Single)));
        assert_eq!(again.soundings().next().unwrap().pitch.to_string(), name);
    }
}

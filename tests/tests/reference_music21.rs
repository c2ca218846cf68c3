//! The theory against an independent toolkit: every value of `tests/reference/music21.json`.
//!
//! The version, the licence and the shape of the data stand in that file.

#![expect(clippy::unwrap_used, reason = "helpers of tests, where a panic is the answer")]

use modewright_core::{Interval, Key, Mode, Pitch, Spelling, Step};
use modewright_tests::json;
use serde_json::Value;

fn data() -> Value {
    json("reference/music21.json")
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("no list: {value}"))
}

fn word(value: &Value) -> &str {
    value.as_str().unwrap_or_else(|| panic!("no text: {value}"))
}

fn number(value: &Value) -> i64 {
    value.as_i64().unwrap_or_else(|| panic!("no number: {value}"))
}

fn pitch(value: &Value) -> Pitch {
    word(value).parse().unwrap()
}

#[test]
fn scales_and_their_degrees() {
    let data = data();
    let scales = list(&data["scales"]);
    assert_eq!(scales.len(), 105);
    for row in scales {
        let mode: Mode = word(&row[2]).parse().unwrap();
        let key = Key::new(word(&row[1]).parse().unwrap(), mode);
        assert_eq!(i64::from(key.signature().unwrap().fifths()), number(&row[0]), "{key}");
        let notes: Vec<String> = key.scale().unwrap().iter().map(ToString::to_string).collect();
        assert_eq!(notes.join(" "), word(&row[3]), "{key}");
        for (step, degree) in Step::ALL.into_iter().zip(list(&row[4])) {
            assert_eq!(i64::from(key.degree_of(step)), number(degree), "{key}: {step}");
        }
    }
}

#[test]
fn intervals() {
    let data = data();
    let mut count = 0;
    for row in list(&data["intervals"]) {
        let low = pitch(&row[0]);
        for entry in list(&row[1]) {
            let high = pitch(&entry[0]);
            let interval = high - low;
            assert_eq!(interval.to_string(), word(&entry[1]), "{low} up to {high}");
            assert_eq!(i64::from(interval.steps()), number(&entry[2]), "{low} up to {high}");
            assert_eq!(i64::from(interval.semitones()), number(&entry[3]), "{low} up to {high}");
            assert_eq!(word(&entry[1]).parse(), Ok(interval));
            assert_eq!(low.transpose(interval), Ok(high));
            assert_eq!(high.transpose(-interval), Ok(low));
            count += 1;
        }
    }
    println!("{count} intervals");
    assert!(count > 1000, "only {count} intervals were compared");
}

#[test]
fn transpositions_up_and_down() {
    let data = data();
    let moves: Vec<Interval> =
        list(&data["moves"]).iter().map(|name| word(name).parse().unwrap()).collect();
    let rows = list(&data["transpositions"]);
    assert_eq!((moves.len(), rows.len()), (24, 35));
    for row in rows {
        let from = pitch(&row[0]);
        for (direction, sign) in [(&row[1], 1), (&row[2], -1)] {
            assert_eq!(list(direction).len(), moves.len());
            for (to, &by) in list(direction).iter().zip(&moves) {
                let by = if sign < 0 { -by } else { by };
                // The toolkit stops at triple accidentals, we do not.
                if to.is_null() {
                    let alter = from.transpose(by).unwrap().spelling().alter.semitones();
                    assert!(alter.abs() > 3, "{from} by {by}");
                } else {
                    assert_eq!(from.transpose(by), Ok(pitch(to)), "{from} by {by}");
                }
            }
        }
    }
}

#[test]
fn relatives_and_parallels_of_major_and_minor() {
    let data = data();
    let mode = |name: &Value| match word(name) {
        "major" => Mode::Ionian,
        "minor" => Mode::Aeolian,
        other => panic!("{other}"),
    };
    let rows = list(&data["relatives"]);
    assert_eq!(rows.len(), 30);
    for row in rows {
        let home: Spelling = word(&row[0]).parse().unwrap();
        let key = Key::new(home, mode(&row[1]));
        assert_eq!(i64::from(key.fifths()), number(&row[2]), "{key}");
        let relative = Key::new(word(&row[3]).parse().unwrap(), mode(&row[4]));
        assert!(key.relatives().unwrap().contains(&relative), "{key}: {relative}");
        let other = if key.mode == Mode::Ionian { Mode::Aeolian } else { Mode::Ionian };
        let parallel = key.parallels().into_iter().find(|p| p.key.mode == other).unwrap();
        let fifths = parallel.key.signature().ok().map(|s| i64::from(s.fifths()));
        assert_eq!(fifths, row[5].as_i64(), "{key}");
    }
}

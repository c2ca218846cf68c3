//! Every row of `tests/reference/abc-cases.json`: the ABC music standard 2.1, rule by rule.
//!
//! A row that disagrees is a finding: the reader is mended, or the row says in `decision` why we
//! read it otherwise.

use modewright_core::tune::{KeyForm, MarkKind, Place, Syllable};
use modewright_core::{Alter, Spelling, Step, Tune};
use modewright_formats::source::split;
use modewright_formats::{ReadOptions, Reading, abc};
use modewright_tests::json;
use serde_json::{Map, Value, json};

#[test]
fn every_case_reads_as_the_standard_says() {
    let cases = json("reference/abc-cases.json");
    let mut wrong = Vec::new();
    let mut checked = 0;
    for case in cases.as_array().expect("an array of cases") {
        for check in case["checks"].as_array().expect("checks") {
            let text = check["abc"].as_str().expect("abc text");
            let tunes: Vec<_> = split(text).collect();
            let which = check["tune"].as_u64().unwrap_or(1);
            let which = usize::try_from(which).expect("a small number") - 1;
            let readings: Vec<Reading> =
                tunes.iter().map(|t| abc::read(t, &ReadOptions::default())).collect();
            for (key, wanted) in check["expect"].as_object().expect("expectations") {
                let found = look(key, &readings, which, wanted);
                checked += 1;
                if &found != wanted {
                    wrong.push(format!(
                        "{} {key}: wanted {wanted}, found {found}\n  in {text:?}",
                        case["id"].as_str().unwrap_or_default()
                    ));
                }
            }
        }
    }
    assert!(checked > 1000, "only {checked} values were checked");
    assert!(wrong.is_empty(), "{} of {checked} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

/// What a reading says under a key of `expect`, in the shape of the file.
fn look(key: &str, readings: &[Reading], which: usize, wanted: &Value) -> Value {
    let reading = &readings[which];
    let tune = &reading.tune;
    match key {
        "tunes" => json!(readings.len()),
        "titles" => readings.iter().map(|r| json!(r.tune.header.titles.first())).collect(),
        "key" => written_key(tune, wanted),
        "unit" => json!(tune.unit.map(slashed)),
        "metre" => json!(tune.metre.to_string()),
        "tempo" => tune.tempo.as_ref().map_or(Value::Null, |t| {
            let beats: Vec<String> = t.beat.iter().map(|b| slashed(*b)).collect();
            json!({"beats": beats, "per_minute": t.per_minute, "text": t.words})
        }),
        "clef" => json!(tune.clef.to_string()),
        "sounding_shift" => json!(tune.sounding_shift),
        "pitches" => tune.events.iter().map(|e| json!(name(e.sound))).collect(),
        "lengths" => tune.events.iter().map(|e| json!(slashed(e.length))).collect(),
        "sounding" => {
            tune.soundings().map(|s| json!([s.pitch.to_string(), slashed(s.length)])).collect()
        }
        "bars" => json!(tune.bars.len()),
        "bar_numbers" => tune.bars.iter().map(|b| json!(b.number)).collect(),
        "play_order" => json!(tune.play_order()),
        "played" => {
            let bars = tune.play_order();
            let events = bars.iter().flat_map(|&b| tune.events_of(b));
            events.map(|e| json!(name(e.sound))).collect()
        }
        "parts" => json!(tune.part_order.concat()),
        "lyrics" => lyrics(tune),
        "voices" => json!(reading.voices),
        "voice_read" => json!(reading.voice),
        "grace" => json!(
            marks(tune, |m| match m {
                MarkKind::Grace { notes, .. } => Some(notes.len()),
                _ => None,
            })
            .into_iter()
            .sum::<usize>()
        ),
        "slurs" => json!(marks(tune, |m| matches!(m, MarkKind::SlurStart).then_some(())).len()),
        "chord_symbols" => json!(marks(tune, |m| match m {
            MarkKind::ChordSign(text) => Some(text.clone()),
            _ => None,
        })),
        "annotations" => json!(marks(tune, |m| match m {
            MarkKind::Text { place, text } => Some(format!("{}{text}", sign(*place))),
            _ => None,
        })),
        "decorations" => json!(marks(tune, |m| match m {
            MarkKind::Sign(name) => Some(name.clone()),
            _ => None,
        })),
        "problems" => reading.problems.iter().map(|p| json!(p.kind.code())).collect(),
        "no_problems" => {
            let codes: Vec<&str> = reading.problems.iter().map(|p| p.kind.code()).collect();
            if codes.is_empty() { json!(true) } else { json!(codes) }
        }
        other => panic!("the reference has a key that is not checked: {other}"),
    }
}

fn marks<T>(tune: &Tune, pick: impl Fn(&MarkKind) -> Option<T>) -> Vec<T> {
    tune.marks.iter().filter_map(|m| pick(&m.kind)).collect()
}

fn name(sound: modewright_core::tune::Sound) -> String {
    sound.pitch().map_or_else(|| "z".to_owned(), |p| p.to_string())
}

/// A length with a slash in any case: `1/1`.
fn slashed(length: modewright_core::Length) -> String {
    format!("{}/{}", length.numerator(), length.denominator())
}

const fn sign(place: Place) -> char {
    match place {
        Place::Above => '^',
        Place::Below => '_',
        Place::Left => '<',
        Place::Right => '>',
        Place::Free => '@',
    }
}

fn written_key(tune: &Tune, wanted: &Value) -> Value {
    let Some(key) = tune.key() else { return Value::Null };
    let altered = |naturals: bool| -> Map<String, Value> {
        Step::ALL
            .into_iter()
            .filter(|s| key.alter(*s) != Alter::NATURAL || naturals && *s == Step::G)
            .map(|s| {
                let alter = key.alter(s).to_string();
                let sign = if alter.is_empty() { "=".to_owned() } else { alter };
                (s.to_string(), json!(sign))
            })
            .collect()
    };
    let mut said = json!({
        "home": key.home.map(|h: Spelling| h.to_string()),
        "mode": key.mode.map(|m| m.to_string()),
        "signature": altered(false),
    });
    if wanted.get("printed").is_some() {
        said["printed"] = match key.form {
            KeyForm::PipesMarked => json!(altered(true)),
            _ => json!({}),
        };
    }
    said
}

fn lyrics(tune: &Tune) -> Value {
    let verses = tune.marks.iter().filter_map(|m| match &m.kind {
        MarkKind::Lyric { verse, .. } => Some(usize::from(*verse) + 1),
        _ => None,
    });
    let count = verses.max().unwrap_or(0);
    let notes = tune.events.iter().enumerate().filter(|(_, e)| e.sound.pitch().is_some());
    let notes: Vec<usize> = notes.map(|(i, _)| i).collect();
    let mut lines = vec![vec![Value::Null; notes.len()]; count];
    for mark in &tune.marks {
        if let MarkKind::Lyric { verse, syllable } = &mark.kind {
            let text = match syllable {
                Syllable::Held => "_".to_owned(),
                Syllable::Text { text, hyphen: true } if text != "-" => format!("{text}-"),
                Syllable::Text { text, .. } => text.clone(),
            };
            let place = notes.iter().position(|&i| i == mark.event).expect("a note");
            lines[usize::from(*verse)][place] = json!(text);
        }
    }
    json!(lines)
}

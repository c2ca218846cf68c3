//! Instruments and fingerings: their shapes against the JSON Schemas, their words against
//! `tests/golden`.

use modewright_core::Interval;
use modewright_core::find::find;
use modewright_core::fingering::{Options, harmony, plan};
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::{InstrumentError, builtin, read as read_instruments};
use modewright_formats::{ReadOptions, read, source::split};
use modewright_lesson::answer::{FingeredTune, FingeringAnswer, InstrumentsAnswer};
use modewright_lesson::{demo, report, words};
use modewright_tests::{golden, json};
use serde_json::{Value, json};
use std::fmt::Write;

fn check(schema: &str, values: impl IntoIterator<Item = (String, Value)>) {
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler
        .add_resource(schema, json(&format!("schema/{schema}")))
        .expect("a schema of ours is JSON");
    let index = compiler.compile(schema, &mut schemas).expect("a schema of ours compiles");
    for (name, value) in values {
        if let Err(error) = schemas.validate(&value, index) {
            panic!("{name}\n{error:#}");
        }
    }
}

fn fits(schema: &str, value: &Value) -> bool {
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler
        .add_resource(schema, json(&format!("schema/{schema}")))
        .expect("a schema of ours is JSON");
    let index = compiler.compile(schema, &mut schemas).expect("a schema of ours compiles");
    schemas.validate(value, index).is_ok()
}

fn fingered(text: &str, it: &Instrument, options: Options) -> (FingeringAnswer, report::Report) {
    let tune = split(text).next().unwrap_or_default();
    let reading = read(&tune, &ReadOptions::default());
    let plan = plan(&reading.tune, it, options);
    let home = find(&reading.tune).best().map(|best| best.key);
    let added = home.map(|home| harmony(&reading.tune, it, &plan, home, options));
    let of = FingeredTune {
        tune: &reading.tune,
        instrument: it,
        options,
        plan: &plan,
        harmony: added.as_deref().unwrap_or_default(),
        home,
        moved: Interval::UNISON,
    };
    let answer = FingeringAnswer::new("test", &of, &reading.problems);
    (answer, report::fingering(&of, &reading.problems))
}

fn plain(report: &report::Report) -> String {
    let mut text = format!("{}\n{}\n", report.title, report.verdict);
    for section in &report.sections {
        writeln!(text, "[{}]", section.heading).expect("a string takes text");
        for line in &section.lines {
            writeln!(text, "  {line}").expect("a string takes text");
        }
    }
    text
}

#[test]
fn every_built_in_file_has_the_shape_that_the_schema_describes() {
    let values = builtin::FILES
        .iter()
        .map(|(name, text)| ((*name).to_owned(), serde_json::from_str(text).unwrap()));
    check("instrument.json", values);
    // The schema and the reader agree on what is no instrument.
    let voice = json!({"format": 1, "id": "mine", "name": "mine", "range": ["A3", "D5"]});
    assert!(fits("instrument.json", &voice));
    assert!(read_instruments(&voice.to_string()).is_ok());
    for (field, value) in [
        ("format", json!(2)),
        ("id", json!("My Voice")),
        ("range", json!(["A3"])),
        ("range", json!(["A3", "H5"])),
        ("colour", json!("red")),
        ("liked", json!([8])),
        ("certainty", json!("sure")),
        ("notes", json!([{"pitch": "A3", "ways": []}])),
        ("buttons", json!([{"button": 0, "push": "A3"}])),
        ("buttons", json!([{"button": 1}])),
        ("sizes", json!([])),
        ("frets", json!([{"fret": "six", "semitones": 6}])),
    ] {
        let mut wrong = voice.clone();
        wrong[field] = value;
        if field == "frets" {
            wrong["strings"] = json!(["A3"]);
        }
        assert!(!fits("instrument.json", &wrong), "{wrong}");
        assert!(read_instruments(&wrong.to_string()).is_err(), "{wrong}");
    }
}

#[test]
fn answers_have_the_shape_that_the_schemas_say() {
    let all = InstrumentsAnswer::new(builtin::all());
    check("instruments.json", [("all".to_owned(), serde_json::to_value(all).unwrap())]);
    let texts = ["", "X:1\nK:D\n", "D E F# G A B c# d"];
    let texts = || demo::TUNES.iter().map(|demo| demo.abc).chain(texts);
    let answers = builtin::all().iter().flat_map(|it| {
        texts().map(move |text| {
            let options = Options { style: it.styles.len() - 1, unconfirmed: false };
            let (answer, _) = fingered(text, it, options);
            (format!("{} {text:?}", it.id), serde_json::to_value(answer).unwrap())
        })
    });
    check("fingering.json", answers);
}

#[test]
fn an_unconfirmed_way_is_never_the_default() {
    for it in builtin::all() {
        for demo in demo::TUNES {
            let (answer, _) = fingered(demo.abc, it, Options::default());
            for note in &answer.notes {
                let Some(certainty) = note.certainty else { continue };
                assert_ne!(certainty, "doubtful", "{} {}", it.id, note.pitch);
                if note.standing == Some("usual, unconfirmed") {
                    let pitch: modewright_core::Pitch = note.pitch.parse().unwrap();
                    let ways = &it.note(pitch.midi()).unwrap().ways;
                    assert!(ways.iter().all(|way| !way.certainty.is_published()), "{}", it.id);
                    // A key or a voice has no sign that a mark could stand behind.
                    let sign = note.sign.as_ref().unwrap();
                    assert!(sign.is_empty() || sign.ends_with('*'), "{}", it.id);
                }
            }
        }
    }
}

#[test]
fn instruments_read_as_they_did() {
    let all: Vec<&Instrument> = builtin::all().iter().collect();
    let mut text = plain(&report::instruments(&all));
    let mut families: Vec<&str> = Vec::new();
    for it in all {
        if !families.contains(&it.family.as_str()) {
            families.push(&it.family);
            writeln!(text, "\n{}", plain(&report::instrument(it))).unwrap();
        }
    }
    golden("instruments.txt", &text);
}

#[test]
fn fingerings_read_as_they_did() {
    let tune = |id: &str| demo::TUNES.iter().find(|demo| demo.id == id).unwrap().abc;
    let mut text = String::new();
    for (id, on, style) in [
        ("boathouse-welcome", "anglo-20-c-g", 0),
        ("boathouse-welcome", "anglo-20-c-g", 1),
        ("boathouse-welcome", "melodeon-d-g", 0),
        ("boathouse-welcome", "melodeon-d-g", 1),
        ("two-lights-at-the-bar", "english-concertina-48", 0),
        ("two-lights-at-the-bar", "lever-harp-34", 0),
        ("ebb-at-lantern-quay", "tin-whistle-d", 0),
        ("the-mooring-lamp", "harmonica-c", 0),
        ("the-mooring-lamp", "fiddle", 0),
        ("tide-over-the-slipway", "highland-pipes", 0),
        ("keel-on-the-shingle", "voice-soprano", 0),
    ] {
        let it = builtin::find(on).unwrap();
        let options = Options { style, unconfirmed: false };
        writeln!(text, "{}", plain(&fingered(tune(id), it, options).1)).unwrap();
    }
    let fiddle = builtin::find("fiddle").unwrap();
    for odd in ["", "X:1\nK:D\n", "X:1\nK:C\nC,,8|c'''8|\n", "X:1\nK:D\nD4-|D4|\n"] {
        writeln!(text, "{odd:?}\n{}", plain(&fingered(odd, fiddle, Options::default()).1)).unwrap();
    }
    golden("fingerings.txt", &text);
}

/// One example of each kind of mistake: what it is made of, and its message.
#[test]
fn mistakes_in_a_file_are_told_with_their_place_and_a_way_out() {
    let size = |more: &str| {
        format!(
            "{{\"format\": 1, \"range\": [\"A3\", \"D5\"],\n \"sizes\": [\n  {{\"id\": \"a\", \"name\": \"A\"{more}}}]}}"
        )
    };
    let with =
        |more: &str| format!("{{\"format\": 1, \"id\": \"mine\", \"name\": \"mine\",\n {more}}}");
    let sizes = |count: usize| {
        let list: Vec<String> =
            (0..count).map(|i| format!("{{\"id\": \"a{i}\", \"name\": \"a\"}}")).collect();
        format!("{{\"format\": 1, \"range\": [\"A3\", \"D5\"], \"sizes\": [{}]}}", list.join(", "))
    };
    let ways = vec!["{}"; 33].join(", ");
    let texts = [
        "x".repeat(modewright_formats::instrument::MAX_BYTES + 1),
        String::new(),
        "{\"format\": 1,}".to_owned(),
        "[1, 2]".to_owned(),
        with("\"colour\": \"red\""),
        with("\"notes\": [{\"pitch\": \"A3\", \"ways\": [{\"hand\": \"both\"}]}]"),
        with("\"name\": \"twice\""),
        with("\"buttons\": [{\"row\": 0}]"),
        with("\"buttons\": [{\"row\": 256, \"button\": 1}]"),
        with("\"written_to_sounding\": 1.5"),
        with("\"range\": [\"A3\", \"D5\", null]"),
        with("\"strings\": \"A3\""),
        "{\"id\": \"mine\"}".to_owned(),
        "{\"format\": 1, \"name\": \"mine\"}".to_owned(),
        "{\"format\": 7}".to_owned(),
        "{\"format\": 1, \"id\": \"My Voice\"}".to_owned(),
        "{\"format\": 1, \"range\": [\"A3\", \"D5\"], \"sizes\": [{\"id\": \"a\", \"name\": \"a\"},\n {\"id\": \"a\", \"name\": \"b\"}]}".to_owned(),
        with("\"range\": [\"A3\",\n  \"H5\"]"),
        with("\"rows\": [{\"key\": \"H\"}]"),
        with("\"rows\": [{}]"),
        with("\"buttons\": [{\"button\": 1}]"),
        size(", \"shift\": \"up\""),
        with("\"strings\": [\"A3\"], \"frets\": [{\"fret\": \"six\", \"semitones\": 6}]"),
        with("\"liked\": [9]"),
        with("\"holes\": [{\"name\": \"all\", \"count\": 3}], \"notes\": [{\"pitch\": \"A3\", \"ways\": [{\"holes\": \"XXz\"}]}]"),
        with("\"holes\": [{\"name\": \"all\", \"count\": 3}], \"notes\": [{\"pitch\": \"A3\", \"ways\": [{\"holes\": \"XX\"}]}]"),
        with("\"buttons\": [{\"row\": 2, \"button\": 1, \"push\": \"A3\"}]"),
        with("\"notes\": [{\"pitch\": \"A3\", \"ways\": [{\"string\": 0}]}]"),
        with("\"strings\": [\"A3\"], \"string_names\": []"),
        with("\"buttons\": [{\"button\": 0, \"push\": \"A3\"}]"),
        with("\"range\": [\"A3\", \"D15\"]"),
        with("\"range\": [\"A3\", \"D14\"]"),
        with("\"range\": [\"A3\", \"D9\"], \"written_to_sounding\": 12"),
        with("\"range\": [\"D5\", \"A3\"]"),
        with("\"buttons\": [{\"button\": 1, \"push\": \"A3\", \"push_bends\": [\"B3\"]}]"),
        with("\"remarks\": []"),
        with("\"notes\": [{\"pitch\": \"A3\", \"ways\": []}]"),
        with(&format!("\"notes\": [{{\"pitch\": \"A3\", \"ways\": [{ways}]}}]")),
        sizes(65),
        size(", \"sizes\": []"),
        size(", \"shift\": \"P4\", \"range\": [\"C4\", \"C5\"]"),
    ];
    let mut told = String::new();
    let mut codes: Vec<&str> = Vec::new();
    for text in &texts {
        let error: InstrumentError = read_instruments(text).expect_err(text);
        let advice = words::instrument_error(&error);
        codes.push(error.kind.code());
        let shown: String = text.chars().take(160).collect();
        writeln!(
            told,
            "{shown}\n  {}: {}\n  hint: {}\n",
            error.kind.code(),
            advice.message,
            advice.hint
        )
        .unwrap();
    }
    let source = include_str!("../../formats/src/instrument/file/error.rs");
    let kinds = source.lines().filter_map(|line| line.split_once("=> \"")?.1.strip_suffix("\","));
    for code in kinds {
        assert!(codes.contains(&code), "{code} has no example here");
    }
    assert!(codes.len() > 25);
    golden("instrument-errors.txt", &told);
}

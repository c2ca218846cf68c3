//! Answers of the demo tunes and of odd texts: their shape against the JSON Schema, their words
//! against `tests/golden`.

use modewright_core::find::{EvidenceKind, Given, Verdict, find, find_given};
use modewright_core::{Mode, Spelling, Step};
use modewright_formats::{ReadOptions, read, source::split};
use modewright_lesson::answer::{FindAnswer, ScaleAnswer};
use modewright_lesson::{demo, report, words};
use modewright_tests::{golden, json};
use serde_json::Value;
use std::collections::BTreeSet;
use std::fmt::Write;

fn answer(text: &str) -> (FindAnswer, report::Report) {
    let tune = split(text).next().unwrap_or_default();
    let reading = read(&tune, &ReadOptions::default());
    let finding = find(&reading.tune);
    let answer = FindAnswer::new("test", &reading.tune, &finding, &reading.problems);
    (answer, report::find(&reading.tune, &finding, &reading.problems))
}

fn plain(report: &report::Report) -> String {
    let mut text = format!("{}\n{}\n", report.title, report.verdict);
    for section in &report.sections {
        text.push_str(&format!("[{}]\n", section.heading));
        for line in &section.lines {
            text.push_str(&format!("  {line}\n"));
        }
    }
    text
}

/// Texts that a learner might paste, and texts that nobody should.
const ODD: [&str; 13] = [
    "",
    "X:1\nK:D\n",
    "X:1\nK:D\nD4|\n",
    "X:1\nK:D\nDAdA|\n",
    "X:1\nL:1/4\nK:C\nC^CD^D|E F^FG|^GA^AB|\n",
    "D E F# G A B c# d",
    "D E F# G A B c d A G F# E D B",
    "X:1\nT:<script>alert(1)</script>\nK:Em\nEFGA B2E2|\n",
    "X:1\nT:\u{202e}right to left\nK:none\nGABc dBG2|\n",
    "X:1\nM:3/4\nK:D exp _b _e ^f\nDEFG AB|cdcB AF|D6|\n",
    "X:1\nK:G#\nGABc d2|\n",
    "hello there\nthis is no tune",
    "X:1\nM:6/8\nV:1\nV:2\nK:Am\nV:1\n[CEA]3 B3|A6|\nV:2\nA,6|A,6|\n",
];

#[test]
fn answers_have_the_shape_that_the_schema_says() {
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("find.json", json("schema/find.json")).unwrap();
    let schema = compiler.compile("find.json", &mut schemas).unwrap();
    let demos = demo::TUNES.iter().map(|d| d.abc);
    for text in demos.chain(ODD) {
        let (answer, _) = answer(text);
        let value: Value = serde_json::to_value(&answer).unwrap();
        if let Err(error) = schemas.validate(&value, schema) {
            panic!("{text:?}\n{error:#}");
        }
        // The answer is the first of the ranked, and nothing is said where nothing is known.
        assert_eq!(answer.home.is_none(), answer.verdict == "none");
        if let Some(home) = &answer.home {
            assert_eq!(home, &answer.ranked[0].home);
            assert!(answer.ranked.len() >= 3);
        } else {
            assert_eq!(answer.evidence.len(), 1);
        }
    }
}

#[test]
fn demo_tunes_are_what_their_readme_says() {
    for (id, home, mode, verdict) in [
        ("ebb-at-lantern-quay", "E", "dorian", "clear"),
        ("boathouse-welcome", "G", "ionian", "clear"),
        ("tide-over-the-slipway", "A", "mixolydian", "clear"),
        ("the-mooring-lamp", "A", "aeolian", "clear"),
        ("fog-on-the-landing", "D", "dorian", "clear"),
        ("five-oars", "E", "aeolian", "open"),
        ("round-the-far-buoy", "D", "ionian", "clear"),
        ("two-lights-at-the-bar", "E", "aeolian", "clear"),
        ("keel-on-the-shingle", "G", "ionian", "clear"),
        ("the-lock-gate", "E", "phrygian", "clear"),
        ("kite-above-the-weir", "G", "lydian", "clear"),
        ("the-ferry-bell", "A", "dorian", "clear"),
        ("seven-planks", "B", "aeolian", "clear"),
    ] {
        let demo = demo::TUNES.iter().find(|d| d.id == id).unwrap();
        let (answer, _) = answer(demo.abc);
        assert_eq!(
            (answer.home.as_deref(), answer.mode, answer.verdict),
            (Some(home), Some(mode), verdict),
            "{id}"
        );
        assert!(answer.problems.is_empty(), "{id}: {:?}", answer.problems);
    }
    let ids: BTreeSet<&str> = demo::TUNES.iter().map(|d| d.id).collect();
    assert_eq!(ids.len(), demo::TUNES.len());
}

#[test]
fn reports_read_as_they_did() {
    let mut text = String::new();
    for demo in demo::TUNES {
        writeln!(text, "{}", plain(&answer(demo.abc).1)).unwrap();
    }
    golden("reports.txt", &text);
    let mut text = String::new();
    for odd in ODD {
        writeln!(text, "{odd:?}\n{}", plain(&answer(odd).1)).unwrap();
    }
    golden("odd-reports.txt", &text);
}

#[test]
fn every_kind_of_reason_has_words_somewhere() {
    let mut told = BTreeSet::new();
    for demo in demo::TUNES {
        let tune = split(demo.abc).next().unwrap();
        let tune = read(&tune, &ReadOptions::default()).tune;
        let finding = find(&tune);
        assert_ne!(finding.verdict, Verdict::None);
        // A learner may hold any answer: what is said for it and against it must have words.
        let steps = Step::ALL.into_iter().map(Spelling::natural);
        let held = steps.flat_map(|home| Mode::ALL.map(|mode| (Some(home), Some(mode))));
        let findings = held.map(|(home, mode)| find_given(&tune, Given { home, mode }));
        for e in findings.chain([finding]).flat_map(|finding| finding.evidence(&tune)) {
            let sentence = words::evidence(&e);
            assert!(sentence.ends_with('.') && !sentence.contains("  "), "{sentence}");
            told.insert(e.kind);
        }
    }
    let untold: Vec<_> = EvidenceKind::ALL.into_iter().filter(|k| !told.contains(k)).collect();
    assert!(untold.is_empty(), "no demo tune shows {untold:?}");
}

#[test]
fn scales_read_as_they_did() {
    let mut text = String::new();
    for key in ["E dorian", "G ionian", "A aeolian", "Gb lydian", "B locrian"] {
        let key = key.parse().unwrap();
        text.push_str(&plain(&report::scale(key).unwrap()));
        writeln!(text, "{}", serde_json::to_string(&ScaleAnswer::new(key).unwrap()).unwrap())
            .unwrap();
    }
    golden("scales.txt", &text);
}

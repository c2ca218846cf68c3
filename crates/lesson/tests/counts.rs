//! The count of tunes: its shape against the JSON Schema, its text against `tests/golden`.

use modewright_core::count::{CountOptions, Detail};
use modewright_formats::{ReadOptions, Reading, read, source::split};
use modewright_lesson::answer::CountAnswer;
use modewright_lesson::walk::Values;
use modewright_lesson::{demo, report};
use modewright_tests::{golden, json};

const ODD: [&str; 6] = [
    "",
    "X:1\nM:none\nK:D\nDFA|\n",
    "X:1\nM:4/4\nL:1/4\nK:D\nDEFG|ABc|defga|D4|]\n",
    "X:1\nM:6/8\nQ:\"Allegro\"\nL:1/8\nK:D\nd|D3-D2F|z3 (2FA|]\n",
    "X:1\nM:5/4\nL:1/4\nK:D\n{DF}DEFGA|D5|]\n",
    "X:1\nM:2/4\nL:1/64\nK:D\nDFADFADFADFADFADD16|(7DFADFADD16z|]\n",
];

fn reading(text: &str) -> Reading {
    read(&split(text).next().unwrap_or_default(), &ReadOptions::default())
}

#[test]
fn answers_have_the_shape_that_the_schema_says() {
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("count.json", json("schema/count.json")).unwrap();
    let schema = compiler.compile("count.json", &mut schemas).unwrap();
    for text in demo::TUNES.iter().map(|demo| demo.abc).chain(ODD) {
        for detail in [Detail::Beats, Detail::Full] {
            let reading = reading(text);
            let options = CountOptions { detail, ..CountOptions::default() };
            let answer = CountAnswer::new("test", &reading.tune, options, &reading.problems);
            let value = serde_json::to_value(&answer).unwrap();
            if let Err(error) = schemas.validate(&value, schema) {
                panic!("{text:?}\n{error:#}");
            }
            assert_eq!(answer.bars.len(), reading.tune.bars.len());
        }
    }
}

#[test]
fn demo_tunes_fill_their_bars() {
    for demo in demo::TUNES {
        let reading = reading(demo.abc);
        let answer = CountAnswer::new("", &reading.tune, CountOptions::default(), &[]);
        let odd = answer.bars.iter().filter(|bar| bar.by.is_some()).count();
        assert_eq!(odd, 0, "{}", demo.id);
        assert!(answer.count_in.is_some());
    }
}

#[test]
fn counts_read_as_they_did() {
    let mut all = String::new();
    let demos = ["ebb-at-lantern-quay", "boathouse-welcome", "seven-planks"];
    let demos = demo::TUNES.iter().filter(|demo| demos.contains(&demo.id));
    for text in demos.map(|demo| demo.abc).chain(ODD) {
        let reading = reading(text);
        let options = CountOptions::default();
        let page = report::count(&reading.tune, options, Values::American, &reading.problems);
        all += &format!("{}\n{}\n", page.title, page.verdict);
        for section in &page.sections {
            all += &format!("[{}]\n", section.heading);
            for line in &section.lines {
                all += &format!("  {line}\n");
            }
        }
        all.push('\n');
    }
    golden("counts.txt", &all);
}

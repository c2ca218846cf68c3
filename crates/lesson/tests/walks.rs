//! Walk-throughs of the demo tunes: their length, their sentences, and that they read well
//! (`tests/golden/walks.md`, made to be read aloud).

use modewright_core::Tune;
use modewright_core::find::{Finding, find};
use modewright_formats::{ReadOptions, read, source::split};
use modewright_lesson::demo;
use modewright_lesson::walk::{Values, Walk, WalkOptions, Wording, walk};
use modewright_lesson::words::NoteNames;
use modewright_tests::golden;
use std::collections::HashMap;

fn tune(text: &str) -> (Tune, Finding) {
    let text = split(text).next().expect("a tune");
    let tune = read(&text, &ReadOptions::default()).tune;
    let finding = find(&tune);
    (tune, finding)
}

fn told(text: &str, options: &WalkOptions) -> Walk {
    let (tune, finding) = tune(text);
    walk(&tune, &finding, &Wording::english(), options)
}

#[test]
fn walks_read_as_they_did() {
    let mut all = String::new();
    for demo in demo::TUNES {
        all += &told(demo.abc, &WalkOptions::default()).to_markdown();
        all.push('\n');
    }
    golden("walks.md", &all);
}

/// Sentences without their bars, numbers, notes and names of lengths.
fn shapes(walk: &Walk) -> HashMap<String, usize> {
    let mut shapes = HashMap::new();
    let notes = ["A", "B", "C", "D", "E", "F", "G"];
    let is_filled = |word: &str| {
        let bare = word.trim_matches(|c: char| !c.is_alphanumeric() && c != '♯' && c != '♭');
        let bare = bare.split('-').next().unwrap_or_default();
        let is_note = notes.contains(&bare.trim_end_matches(['♯', '♭']));
        let is_count = bare.chars().all(|c| c.is_ascii_digit())
            || ["e", "a", "la", "li", "to", "ta", "ti", "&"].contains(&bare)
            || word == "&";
        is_note || is_count
    };
    let is_value = |word: &str| {
        let bare = word.trim_matches(|c: char| !c.is_alphabetic() && c != '-').to_lowercase();
        let bare = bare.trim_end_matches('s');
        let values = Wording::english();
        let _ = &values;
        [
            "crotchet",
            "quaver",
            "minim",
            "semiquaver",
            "semibreve",
            "dotted",
            "double-dotted",
            "triplet",
            "and",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "twice",
            "time",
            "then",
            "rest",
            "with",
        ]
        .contains(&bare)
    };
    for paragraph in walk.sections.iter().flat_map(|section| &section.paragraphs) {
        for sentence in paragraph.text.split_inclusive(['.', '!', '?']) {
            let words: Vec<&str> = sentence.split_whitespace().collect();
            // A row of notes is no sentence.
            if words.iter().all(|word| is_filled(word)) {
                continue;
            }
            let mut shape: Vec<String> = words
                .iter()
                .map(|word| {
                    if is_filled(word) || is_value(word) {
                        "·".to_owned()
                    } else {
                        word.to_lowercase()
                    }
                })
                .collect();
            shape.dedup();
            *shapes.entry(shape.join(" ")).or_insert(0) += 1;
        }
    }
    shapes
}

#[test]
fn walks_are_short_and_do_not_repeat_themselves() {
    let mut of_32_bars = 0;
    for demo in demo::TUNES {
        let (tune, _) = tune(demo.abc);
        let walk = told(demo.abc, &WalkOptions::default());
        let played = tune
            .play_order()
            .iter()
            .filter(|bar| tune.bars[**bar].length == tune.metre.bar_length().unwrap_or_default())
            .count();
        let words = walk.to_markdown().split_whitespace().count();
        println!("{}: {words} words, {played} full bars", demo.id);
        if played <= 32 {
            of_32_bars += 1;
            assert!(words <= 350, "{}: {words} words", demo.id);
        }
        for (shape, times) in shapes(&walk) {
            assert!(times <= 4, "{}: {times} times {shape:?}", demo.id);
        }
    }
    assert!(of_32_bars >= 10, "{of_32_bars}");
}

//! The reader as a whole.

use super::*;
use proptest::prelude::*;

fn reading(text: &str) -> Reading {
    read(&TuneText::abc(text), &ReadOptions::default())
}

fn codes(text: &str) -> Vec<&'static str> {
    reading(text).problems.iter().map(|p| p.kind.code()).collect()
}

/// What must hold of any reading.
fn check(text: &str, reading: &Reading) {
    let tune = &reading.tune;
    for problem in &reading.problems {
        let (start, end) = (problem.span.start as usize, problem.span.end as usize);
        assert!(start <= end && text.get(start..end).is_some(), "{problem:?}");
        assert!(problem.line >= 1 && problem.column >= 1);
    }
    let mut next = 0;
    for (i, bar) in tune.bars.iter().enumerate() {
        assert_eq!(bar.first, next, "bars follow each other");
        next = bar.end;
        assert!(bar.key < tune.keys.len());
        for event in tune.events_of(i) {
            assert_eq!(event.bar as usize, i);
        }
    }
    assert_eq!(next, tune.events.len());
    assert!(tune.marks.iter().all(|mark| mark.event <= tune.events.len()));
    for event in &tune.events {
        assert!(text.get(event.span.start as usize..event.span.end as usize).is_some());
    }
    assert!(tune.play_order().iter().all(|&bar| bar < tune.bars.len()));
    let strains = tune.strains();
    assert!(strains.windows(2).all(|w| w[0].end <= w[1].first));
}

#[test]
fn limits_are_told() {
    assert!(codes("X:1\nK:C\nA99999|\n").contains(&"number-too-large"));
    assert!(codes("X:1\nK:C\nA0|\n").contains(&"zero-length"));
    assert!(codes("X:1\nK:C\nC,,,,,,,,,,,,|\n").contains(&"pitch-out-of-range"));
    assert!(codes("X:1\nK:C\n(99999abc|\n").contains(&"tuplet-not-understood"));
    assert!(codes(&format!("X:1\nK:C\n[{}]|\n", "C".repeat(100))).contains(&"chord-too-large"));
}

#[test]
fn a_million_notes_are_read_and_the_next_is_told() {
    use modewright_core::tune::TuneBuilder;
    let text = format!("X:1\nM:none\nK:C\n{}", "cdef|".repeat(TuneBuilder::MAX_EVENTS / 4));
    let full = reading(&text);
    assert_eq!(full.tune.events.len(), TuneBuilder::MAX_EVENTS);
    assert!(full.problems.is_empty());
    let over = reading(&format!("{text}g|"));
    assert_eq!(over.tune.events.len(), TuneBuilder::MAX_EVENTS);
    assert_eq!(over.problems[0].kind.code(), "too-many-notes");
}

#[test]
fn words_before_the_music_of_a_fragment_are_its_title() {
    let read = reading("What mode is this?\n|: G2 AB | c2 dc | BAGF | G4 :|\n");
    assert_eq!(read.tune.header.titles, ["What mode is this?"]);
    assert_eq!(read.tune.events.len(), 11);
    assert_eq!(codes("GAB c2d|\n"), ["no-key"]);
}

fn near_abc() -> impl Strategy<Value = String> {
    let pieces = prop::sample::select(vec![
        "X:1\n",
        "T:t\n",
        "M:6/8\n",
        "L:1/8\n",
        "K:D\n",
        "K:Em\n",
        "[K:",
        "]",
        "[M:3/4]",
        "V:1\n",
        "V:2\n",
        "[V:1]",
        "w: la la-la | _ *\n",
        "+: more\n",
        "P:A\n",
        "P:(AB)3\n",
        "|",
        "||",
        "|:",
        ":|",
        "::",
        "|1",
        ":|2",
        "[1",
        "(3",
        "(5:4:6",
        "{",
        "}",
        "{/g}",
        "(",
        ")",
        "-",
        ">",
        "<<",
        "&",
        "!trill!",
        "!",
        "\"Am\"",
        "\"^x\"",
        "\"",
        "[CEG]",
        "A",
        "b'",
        "C,,",
        "^F",
        "__B",
        "=c",
        "z",
        "Z4",
        "x2",
        "y",
        "2",
        "/",
        "3/2",
        "9999",
        " ",
        "\n",
        "\n\n",
        "\r\n",
        "%c\n",
        "%%propagate-accidentals not\n",
        "\\\n",
        "é",
        "♯",
        "\u{201c}",
        "~",
        "T",
        "`",
        "*",
        "$",
        ".",
        "[",
        "0",
    ]);
    prop::collection::vec(pieces, 0..60).prop_map(|v| v.concat())
}

proptest! {
    #[test]
    fn any_text_is_read_without_panic(text in any::<String>()) {
        check(&text, &reading(&text));
    }

    #[test]
    fn anything_like_abc_is_read_without_panic(text in near_abc()) {
        check(&text, &reading(&text));
        let body = format!("X:1\nM:4/4\nK:G\n{text}");
        check(&body, &reading(&body));
    }
}

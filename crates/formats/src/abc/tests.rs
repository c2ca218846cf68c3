//! The reader as a whole.

use super::*;
use crate::Severity;
use modewright_core::tune::{Event, MarkKind, Place, Syllable};
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
    assert!(codes("X:1\nK:C\nA9999999|\n").contains(&"number-too-large"));
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

/// The pitches of a body in C, in free metre, with what is odd about it.
fn body(body: &str) -> (String, Vec<&'static str>) {
    let reading = reading(&format!("X:1\nL:1/4\nK:C\n{body}\n"));
    let name = |e: &Event| e.sound.pitch().map_or_else(|| "z".to_owned(), |p| p.to_string());
    let pitches: Vec<String> = reading.tune.events.iter().map(name).collect();
    (pitches.join(" "), reading.problems.iter().map(|p| p.kind.code()).collect())
}

#[test]
fn what_surely_has_one_meaning_is_read_by_it() {
    for (text, pitches, code) in [
        ("C D|=\nE F|", "C4 D4 E4 F4", "mail-remains"),
        ("C D|=20\nE F|", "C4 D4 E4 F4", "mail-remains"),
        ("^F=3DF|", "F#4 F4", "mail-remains"),
        ("\u{201c}Am\u{201d}A|", "A4", "curly-mark"),
        ("c\u{2019}|", "C6", "curly-mark"),
        ("|:C D|\n:E F:|", "C4 D4 E4 F4", "odd-bar-line"),
        ("C D :] E|", "C4 D4 E4", "odd-bar-line"),
        ("C D|\n1 E:|", "C4 D4 E4", "ending-detached"),
        ("^^^F|", "F#4", "odd-accidental"),
        ("_=B|", "B4", "odd-accidental"),
        ("C#|", "C4", "reserved-character"),
        ("C D|\nB:An old book\nE|", "C4 D4 E4", "field-after-key"),
        ("C D|\n\nE F|", "C4 D4 E4 F4", "empty-line"),
    ] {
        let (read, codes) = body(text);
        assert_eq!(read, pitches, "{text}");
        assert!(codes.contains(&code), "{text}: {codes:?}");
        let problems = reading(&format!("X:1\nL:1/4\nK:C\n{text}\n")).problems;
        assert!(problems.iter().all(|p| p.kind.severity() == Severity::Warning), "{text}");
    }
}

#[test]
fn a_mistake_costs_what_it_touches() {
    for (text, pitches, code) in [
        ("C \u{2603}\u{2603} D|", "C4 D4", "not-understood"),
        ("C 7 D|", "C4 D4", "stray-number"),
        ("C ^ D|", "C4 D4", "accidental-without-note"),
        ("C {d D|", "C4 D5 D4", "grace-not-closed"),
        ("C [E|D|", "C4 E4 D4", "chord-not-closed"),
        ("C [] D|", "C4 D4", "empty-chord"),
        ("C> | D|", "C4 D4", "broken-rhythm-without-note"),
        ("(1C D|", "C4 D4", "tuplet-not-understood"),
        ("C|[0 D|", "C4 D4", "ending-not-understood"),
        ("C \"Am D|\nE|", "C4 D4 E4", "text-not-closed"),
        ("C [K:D F|\nE|", "C4 F#4 E4", "field-not-closed"),
        ("[T:x]C|", "C4", "field-not-inline"),
    ] {
        let (read, codes) = body(text);
        assert_eq!((read.as_str(), codes), (pitches, vec![code]), "{text}");
    }
}

#[test]
fn a_full_bar_ends_with_its_line() {
    let text = "X:1\nM:2/4\nL:1/4\nK:C\n^F F\nF F|G A\nB c|\n";
    let read = reading(text);
    let name = |e: &Event| e.sound.pitch().unwrap().to_string();
    let pitches: Vec<String> = read.tune.events.iter().map(name).collect();
    assert_eq!(pitches.join(" "), "F#4 F#4 F4 F4 G4 A4 B4 C5");
    assert_eq!(read.tune.bars.len(), 4);
    assert_eq!(read.problems[0].kind, ProblemKind::BarLineMissing { count: 2 });
    // A bar goes on over the line where it is not full, or where the next line draws the line.
    assert_eq!(codes("X:1\nM:2/4\nL:1/4\nK:C\nC\nD|E F\n|G A|\n"), [""; 0]);
}

#[test]
fn ties_go_where_they_can() {
    for (text, tied) in [
        ("C-C|", 1),
        ("C-|C|", 1),
        // Inner notes are tied, the top one is not; a repeat takes the tie with it.
        ("[CE]-[CG]|", 0),
        ("|:D C-:|D|", 0),
        ("{d}-C|", 0),
    ] {
        let read = reading(&format!("X:1\nL:1/4\nK:C\n{text}\n"));
        assert_eq!(read.tune.events.iter().filter(|e| e.tied).count(), tied, "{text}");
        let odd = read.problems.iter().filter(|p| p.kind.code() != "chord-top-note");
        assert_eq!(odd.count(), 0, "{text}: {:?}", read.problems);
    }
    // The accidental of an inner note goes over the bar line with its tie.
    let marks = reading("X:1\nL:1/4\nK:C\n[^CG]-|[CG]|\n").tune.marks;
    let inner = marks.iter().filter_map(|m| match m.kind {
        MarkKind::ChordNote(pitch) => Some(pitch.to_string()),
        _ => None,
    });
    assert_eq!(inner.collect::<Vec<_>>(), ["C#4", "C#4"]);
}

#[test]
fn grace_notes_keep_their_accidentals() {
    assert_eq!(body("^F {=f}F {f}F|").0, "F#4 F#4 F#4");
    let marks = reading("X:1\nL:1/4\nK:C\n^F {=f}F {f}F|\n").tune.marks;
    let graces = marks.iter().filter_map(|m| match &m.kind {
        MarkKind::Grace { notes, .. } => notes.first().map(|(pitch, _)| pitch.to_string()),
        _ => None,
    });
    assert_eq!(graces.collect::<Vec<_>>(), ["F5", "F#5"]);
}

#[test]
fn the_file_header_gives_way_to_the_tune() {
    let mut text = TuneText::abc("X:1\nT:Low Water\nC:Ours\nK:G\nF|\n");
    text.defaults = "C:Theirs\nO:The quay\nL:1/2\nM:2/4\nU:T=!shake!\n".into();
    let tune = read(&text, &ReadOptions::default()).tune;
    assert_eq!(tune.header.composer, ["Ours"]);
    assert_eq!(tune.header.origin, ["The quay"]);
    assert_eq!(tune.events[0].length.to_string(), "1/2");
    assert_eq!(tune.metre.to_string(), "2/4");
}

#[test]
fn lines_under_the_notes_share_them() {
    let tune = reading("X:1\nL:1/4\nK:C\nC z D|E|\ns: !trill! * | !coda!\nw: a b c\n").tune;
    let hung = tune.marks.iter().filter_map(|m| match &m.kind {
        MarkKind::Sign(name) => Some((m.event, name.clone())),
        MarkKind::Lyric { verse: 0, syllable: Syllable::Text { text, .. } } => {
            Some((m.event, text.clone()))
        }
        _ => None,
    });
    let wanted = [(0, "trill"), (0, "a"), (2, "b"), (3, "coda"), (3, "c")];
    assert_eq!(hung.collect::<Vec<_>>(), wanted.map(|(i, s)| (i, s.to_owned())));
}

#[test]
fn a_letter_stands_for_a_sign_or_for_text() {
    let tune = reading(
        "X:1\nL:1/4\nU:T=!shake!\nU:p = \"^+\"\nU:q=slow here\nU:u=!nil!\nK:C\nTC pD qE uF|\n",
    )
    .tune;
    let kinds: Vec<&MarkKind> = tune.marks.iter().map(|m| &m.kind).collect();
    let text = |place, text: &str| MarkKind::Text { place, text: text.to_owned() };
    let wanted = [
        MarkKind::Sign("shake".to_owned()),
        text(Place::Above, "+"),
        text(Place::Free, "slow here"),
        MarkKind::LineEnd,
    ];
    assert_eq!(kinds, wanted.iter().collect::<Vec<_>>());
}

#[test]
fn typeset_text_is_no_music() {
    assert_eq!(body("C|\n%%begintext\nA B c|\n%%endtext\nD|"), ("C4 D4".to_owned(), vec![]));
    // Without its end it is only a line.
    assert_eq!(body("C|\n%%begintext\nD|").0, "C4 D4");
}

#[test]
fn a_voice_is_read_alone() {
    let text = "X:1\nL:1/4\nK:C\nV:1\nC|\nV:2\nE|[V:1]D|[V:2]F|\nw: a b\n";
    for (voice, wanted) in [(None, "C4 D4"), (Some("2"), "E4 F4"), (Some("9"), "C4 D4")] {
        let options = ReadOptions { voice: voice.map(str::to_owned), ..ReadOptions::default() };
        let reading = read(&TuneText::abc(text), &options);
        let name = |e: &Event| e.sound.pitch().unwrap().to_string();
        let pitches: Vec<String> = reading.tune.events.iter().map(name).collect();
        assert_eq!(pitches.join(" "), wanted);
        let missing = reading.problems.iter().any(|p| p.kind.code() == "no-such-voice");
        assert_eq!(missing, voice == Some("9"));
    }
}

/// Half a megabyte of one thing over and over: none may take time that grows faster than it.
#[test]
fn no_text_takes_long() {
    for (before, piece) in [
        ("", "{"),
        ("", "["),
        ("", "\""),
        ("", "!"),
        ("", "+"),
        ("", "("),
        ("", "(3"),
        ("", "[K:"),
        ("", "[K:D "),
        ("", "[V:x"),
        ("", "|1"),
        ("", "[1A:|"),
        ("", "&"),
        ("", "-"),
        ("", "A-"),
        ("", "A>"),
        ("", "^AB"),
        ("", "\\\n"),
        ("", "%%begintext\n"),
        ("", "P:A\nA|\n"),
        ("", "m:~a=b\n"),
        ("", "U:T=!x!\nT"),
        ("", "V:1\nA|\n"),
        ("", "K:D\n"),
        ("", "\u{2603}"),
        ("ABcd", "w:a\n"),
        ("ABcd|", "w:|\n"),
        ("ABcd|", "s:*\n"),
        ("", "z|\nw:a\n"),
    ] {
        let begun = std::time::Instant::now();
        let header = if piece.starts_with("m:") { "X:1\n" } else { "X:1\nK:C\n" };
        let many = (1 << 19) / piece.len();
        let text = format!("{header}{before}\n{}", piece.repeat(many));
        let read = reading(&text);
        check(&text, &read);
        // A tenth of a second or less on a quiet machine.
        assert!(begun.elapsed().as_secs() < 10, "{piece:?}: {:?}", begun.elapsed());
    }
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

#[test]
fn a_speed_that_is_a_sign_of_the_form_is_that_sign() {
    let text = "X:1\nQ:\"Da Capo\" 1/4=100\nM:2/4\nL:1/4\nK:C\nC D|\nQ:\"Fine\"\nE F|\n";
    let tune = reading(text).tune;
    let speed = tune.tempo.as_ref().unwrap();
    assert_eq!((speed.words.as_deref(), speed.per_minute), (None, Some(100)));
    let signs: Vec<&str> = tune
        .marks
        .iter()
        .filter_map(|mark| match &mark.kind {
            MarkKind::Sign(name) => Some(name.as_str()),
            _ => None,
        })
        .collect();
    assert_eq!(signs, ["D.C.", "fine"]);
    assert!(!tune.marks.iter().any(|mark| matches!(mark.kind, MarkKind::Tempo(_))));
}

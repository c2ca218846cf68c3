//! Letters as people type them.

use super::*;
use proptest::prelude::*;

fn reading(text: &str) -> Reading {
    read(&TuneText::letters(text), &ReadOptions::default())
}

fn names(text: &str) -> String {
    let notes = reading(text).tune.events;
    let names: Vec<String> = notes
        .iter()
        .map(|e| e.sound.pitch().map_or_else(|| "z".to_owned(), |p| p.to_string()))
        .collect();
    names.join(" ")
}

fn codes(text: &str) -> String {
    reading(text).problems.iter().map(|p| p.kind.code()).collect::<Vec<_>>().join(" ")
}

#[test]
fn octaves_as_they_are_marked_or_not() {
    for (text, wanted) in [
        ("D E F# G A B c# d", "D4 E4 F#4 G4 A4 B4 C#5 D5"),
        ("D E F# G A B C# D", "D4 E4 F#4 G4 A4 B4 C#5 D5"),
        ("d e f# g a b c# d", "D4 E4 F#4 G4 A4 B4 C#5 D5"),
        ("D4 E4 F#4 D5", "D4 E4 F#4 D5"),
        ("A, B, D E F# A d e", "A3 B3 D4 E4 F#4 A4 D5 E5"),
        ("D, E, F#, G", "D4 E4 F#4 G4"),
        ("D E F♯ G A B♭ C′", "D4 E4 F#4 G4 A4 Bb4 C5"),
        ("G Bb D Eb", "G4 Bb4 D5 Eb5"),
        ("E F sharp G A B flat", "E4 F#4 G4 A4 Bb4"),
        ("D - E - F# - G", "D4 E4 F#4 G4"),
        ("A D A D", "A4 D5 A4 D5"),
        ("G A B D' E'", "G4 A4 B4 D5 E5"),
    ] {
        assert_eq!(names(text), wanted, "{text}");
    }
}

#[test]
fn what_had_to_be_decided_is_said() {
    assert_eq!(codes("D E F G"), "octaves-inferred lengths-unknown");
    assert_eq!(codes("D2 E F2 g"), "");
    assert_eq!(codes("D E F G A B d e"), "lengths-unknown");
    assert_eq!(codes("D2 E F2 G | H A B2 c"), "letter-h");
    // A first line of prose is a title; after that, words are no notes.
    assert_eq!(codes("hello there world"), "no-notes");
    // In the order of the text.
    assert_eq!(codes("Q, D E F\nR"), "not-a-note octaves-inferred lengths-unknown not-a-note");
    assert_eq!(codes("D2 E F2 d\nhello"), "not-a-note");
    assert!(codes("Key: D\nD E F G A2 d").contains("key-not-applied"));
}

#[test]
fn a_metre_bars_what_is_unbarred() {
    let options = ReadOptions {
        metre: Some(Metre::new(&[3], 4).unwrap()),
        pickup: Some(Length::CROTCHET),
        ..ReadOptions::default()
    };
    let tune = read(&TuneText::letters("D G A B c B A G"), &options).tune;
    let bars: Vec<(u32, usize)> = tune.bars.iter().map(|b| (b.number, b.end - b.first)).collect();
    assert_eq!(bars, [(0, 1), (1, 3), (2, 3), (3, 1)]);
    // A note that does not fit is cut at the bar line and tied.
    let tied = read(&TuneText::letters("D G2 A2 B c"), &options).tune;
    let heard: Vec<String> = tied.soundings().map(|s| s.length.to_string()).collect();
    assert_eq!(heard, ["1/4", "1/2", "1/2", "1/4", "1/4"]);
    assert_eq!(tied.events.len(), 6);
}

#[test]
fn parts_repeats_and_titles() {
    let tune = reading("Low Tide Landing\nA: D E F# G x2\nB: |: A B c d :|").tune;
    assert_eq!(tune.header.titles, ["Low Tide Landing"]);
    let labels: Vec<String> = tune.strains().into_iter().map(|s| s.label).collect();
    assert_eq!(labels, ["A", "B"]);
    assert_eq!(tune.play_order().len(), 4);
}

/// Pitches in the order in which they are played.
fn played(text: &str) -> String {
    let tune = reading(text).tune;
    let bars = tune.play_order();
    let notes = bars.iter().flat_map(|&bar| tune.events_of(bar));
    notes
        .filter_map(|e| Some(e.sound.pitch()?.spelling().to_string()))
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn lines_are_played_again_where_it_is_said() {
    for (text, wanted) in [
        ("D E F\nG A B (x2)", "D E F G A B G A B"),
        ("D E F x3\nG A B", "D E F D E F D E F G A B"),
        ("D E F x2\nG A B x2", "D E F D E F G A B G A B"),
        ("D E F\nG A B\n(x2)", "D E F G A B D E F G A B"),
        ("|: D E F :| G A B", "D E F D E F G A B"),
        ("A: D E F twice\nB: G A B", "D E F D E F G A B"),
        ("|: D E | F G :| x2", "D E F G D E F G"),
        ("D E F 2x", "D E F D E F"),
    ] {
        assert_eq!(played(text), wanted, "{text}");
    }
}

#[test]
fn no_note_is_lost_to_a_title() {
    for (text, count) in [
        ("G,A,B,CDEFG", 8),
        ("d-e-f#-g", 4),
        ("Tune: D E F", 3),
        ("Ebb Tide: D E F", 3),
        ("z D", 2),
    ] {
        let reading = reading(text);
        assert_eq!(reading.tune.events.len(), count, "{text}");
    }
}

#[test]
fn a_key_that_is_not_taken_changes_no_note_of_the_text_that_is_written() {
    let tune = reading("Key: E dorian\nF# G c").tune;
    let written = crate::abc::write(&tune);
    assert!(written.contains("^F") && !written.contains('='), "{written}");
}

#[test]
fn as_much_as_a_tune_may_hold_and_no_more() {
    let most = TuneBuilder::MAX_EVENTS;
    for (piece, times) in [("A", most), ("A", most + 9), ("D\n", most + 9), ("| z", most + 9)] {
        let text = piece.repeat(times);
        let reading = reading(&text);
        let notes = text.chars().filter(char::is_ascii_alphabetic).count();
        assert_eq!(reading.tune.events.len(), notes.min(most), "{piece}");
        let told = reading.problems.iter().any(|p| p.kind.code() == "too-many-notes");
        assert_eq!(told, notes > most, "{piece}");
    }
}

proptest! {
    #[test]
    fn any_text_is_read_without_panic(text in any::<String>()) {
        let reading = reading(&text);
        for problem in &reading.problems {
            let (start, end) = (problem.span.start as usize, problem.span.end as usize);
            prop_assert!(text.get(start..end).is_some(), "{:?}", problem);
        }
    }

    #[test]
    fn near_misses_are_read_without_panic(
        pieces in prop::collection::vec(prop::sample::select(vec![
            "D", "e", "F#", "Bb", "bb", "H", "♯", "'", ",", "4", "/", "2", " ", "\n", "\n\n", "|", ":|", "|:", "|1",
            "x2", "-", "z", "rest", "sharp", "flat", "A:", "Part B", "Key: D", "Metre: 6/8", "1.", "“", "é", "~", "(", ".",
        ]), 0..80)
    ) {
        let text = pieces.concat();
        let tune = reading(&text).tune;
        prop_assert!(tune.play_order().iter().all(|&bar| bar < tune.bars.len()));
    }
}

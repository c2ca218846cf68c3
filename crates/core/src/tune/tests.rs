//! Bars, strains and the order of playing, built by hand.

use super::*;
use crate::Length;

/// Builds a tune in 3/4 from a sketch: digits are notes of so many crotchets, and the signs are
/// `|`, `||`, `|:`, `:|`, `::`, `.|`, `[1` to `[9`, `P` with a letter and `!` with the name of a
/// sign, parted by blanks.
pub(super) fn sketch(signs: &str) -> Tune {
    let mut builder = TuneBuilder::new();
    builder.metre(Metre::new(&[3], 4).unwrap());
    for sign in signs.split(' ') {
        let line = |style, repeat_back, repeat_on| BarLine { style, repeat_back, repeat_on };
        let mut draw = |line| builder.bar_line(line, Span::default());
        match sign.as_bytes() {
            b"|" => draw(line(BarStyle::Single, 0, 0)),
            b"||" => draw(line(BarStyle::Double, 0, 0)),
            b"|:" => draw(line(BarStyle::Initial, 0, 1)),
            b":|" => draw(line(BarStyle::Final, 1, 0)),
            b"::|" => draw(line(BarStyle::Final, 2, 0)),
            b"::" => draw(line(BarStyle::Double, 1, 1)),
            b".|" => draw(line(BarStyle::Dotted, 0, 0)),
            [b'[', passes @ ..] => {
                let passes = passes.iter().map(|p| u32::from(p - b'0'));
                builder.ending(passes.fold(Passes::default(), Passes::with));
            }
            [b'P', name] => builder.mark(MarkKind::Part(char::from(*name).into()), Span::default()),
            [b'!', ..] => builder.mark(MarkKind::Sign(sign[1..].to_owned()), Span::default()),
            [digit] => {
                let length = Length::new(u32::from(digit - b'0'), 4).unwrap();
                let note = Sound::Note("D4".parse().unwrap());
                builder.event(note, length, Span::default()).unwrap();
            }
            other => panic!("{other:?}"),
        }
    }
    builder.finish()
}

fn numbers(tune: &Tune) -> Vec<u32> {
    tune.bars.iter().map(|bar| bar.number).collect()
}

#[test]
fn bars_are_numbered_as_on_paper() {
    for (signs, wanted) in [
        ("3 | 3 | 3", vec![1, 2, 3]),
        ("1 | 3 | 3", vec![0, 1, 2]),
        // A lone short bar is no pickup: nothing follows.
        ("1", vec![1]),
        // Split by a repeat sign: one number for both sides.
        ("3 | 2 :: 1 | 3", vec![1, 2, 2, 3]),
        ("1 | 3 | 2 :| 1 | 3 | 2 :|", vec![0, 1, 2, 2, 3, 4]),
        // Two sides that make no whole are two bars.
        ("3 | 2 :: 2 | 3", vec![1, 2, 3, 4]),
        // Endings have numbers of their own.
        ("3 | [1 3 :| [2 3", vec![1, 2, 3]),
        ("1 | 3 | [1 2 :| [2 2", vec![0, 1, 2, 3]),
    ] {
        assert_eq!(numbers(&sketch(signs)), wanted, "{signs}");
    }
}

#[test]
fn repeats_and_endings_unfold() {
    for (signs, wanted) in [
        ("3 | 3", vec![0, 1]),
        ("3 | 3 :|", vec![0, 1, 0, 1]),
        ("3 | |: 3 :| 3", vec![0, 1, 1, 2]),
        ("3 || 3 :|", vec![0, 1, 1]),
        ("3 :: 3 :|", vec![0, 0, 1, 1]),
        ("3 ::| 3", vec![0, 0, 0, 1]),
        ("3 | [1 3 :| [2 3", vec![0, 1, 0, 2]),
        ("3 | [13 3 :| [2 3 :| [4 3 || 3", vec![0, 1, 0, 2, 0, 1, 0, 3, 4]),
        ("3 | [1 3 | 3 :| [2 3 || 3 :|", vec![0, 1, 2, 0, 3, 4, 4]),
        // The repeat sign of a first ending is often forgotten.
        ("3 | [1 3 | [2 3", vec![0, 1, 0, 2]),
        // A second ending without a first is played after the repeat.
        ("3 | 3 :| [2 3", vec![0, 1, 0, 1, 2]),
        // The sign after the last ending sends nobody back.
        ("3 | [1 3 :| [2 3 :| 3", vec![0, 1, 0, 2, 3]),
    ] {
        assert_eq!(sketch(signs).play_order(), wanted, "{signs}");
    }
}

#[test]
fn parts_are_played_in_the_order_of_the_header() {
    let mut tune = sketch("PA 3 :| PB 3 | 3 PC 3");
    tune.part_order = ["A", "B", "A", "X"].map(String::from).to_vec();
    assert_eq!(tune.play_order(), [0, 0, 1, 2, 0, 0]);
    // An order that names no part of the page says nothing.
    tune.part_order = vec!["Z".into()];
    assert_eq!(tune.play_order(), [0, 0, 1, 2]);
}

#[test]
fn strains_end_where_a_player_would_say_so() {
    let strains = |signs: &str| -> Vec<(String, usize, usize)> {
        let strains = sketch(signs).strains();
        strains.into_iter().map(|s| (s.label, s.first, s.end)).collect()
    };
    let named = |wanted: &[(&str, usize, usize)]| -> Vec<(String, usize, usize)> {
        wanted.iter().map(|&(label, first, end)| (label.to_owned(), first, end)).collect()
    };
    for (signs, wanted) in [
        ("3 | 3", vec![("A", 0, 2)]),
        ("3 | 3 :| 3 | 3 :|", vec![("A", 0, 2), ("B", 2, 4)]),
        // A pickup before a repeat sign belongs to the strain.
        ("1 |: 3 | 2 :| 3", vec![("A", 0, 3), ("B", 3, 4)]),
        ("3 | [1 3 :| [2 3 || 3", vec![("A", 0, 3), ("B", 3, 4)]),
        ("PV 3 | PC 3", vec![("V", 0, 1), ("C", 1, 2)]),
    ] {
        assert_eq!(strains(signs), named(&wanted), "{signs}");
    }
}

#[test]
fn an_ending_in_the_middle_of_a_bar_splits_it() {
    let tune = sketch("2 [1 1 :| [2 1");
    let bars: Vec<_> = tune.bars.iter().map(|b| (b.first, b.end, b.close.style)).collect();
    assert_eq!(bars[0], (0, 1, BarStyle::None));
    assert_eq!(tune.play_order(), [0, 1, 0, 2]);
}

#[test]
fn of_two_lines_in_a_row_the_stronger_stays() {
    for (signs, style) in [
        ("3 .| | 3", BarStyle::Single),
        ("3 | .| 3", BarStyle::Single),
        ("3 | || 3", BarStyle::Double),
        ("3 || | 3", BarStyle::Double),
    ] {
        let tune = sketch(signs);
        assert_eq!(tune.bars.len(), 2, "{signs}");
        assert_eq!((tune.bars[0].close.style, tune.bars[1].open.style), (style, style), "{signs}");
    }
    let tune = sketch("3 :| |: 3");
    assert_eq!(tune.bars[0].close.repeat_back, 1);
    assert_eq!((tune.bars[1].open.repeat_back, tune.bars[1].open.repeat_on), (0, 1));
}

#[test]
fn a_long_page_unfolds_up_to_the_limit() {
    // That it takes no longer than its length is counted by `cargo xtask growth`.
    let many = 200_000;
    // One strain of single bars; nothing but first endings; nothing but parts.
    let single = sketch("3 | ".repeat(many).trim_end());
    assert_eq!(single.play_order().len(), Tune::MAX_PLAYED_BARS);
    assert_eq!(single.strains().len(), 1);
    let endings = sketch("[1 3 :| ".repeat(many).trim_end());
    assert!(!endings.play_order().is_empty());
    let mut parts = sketch("PA 3 | PB 3 | ".repeat(many / 2).trim_end());
    parts.part_order = vec!["B".into(); 10_000];
    assert_eq!(parts.play_order().len(), 10_000);
    assert_eq!(parts.strains().len(), many);
}

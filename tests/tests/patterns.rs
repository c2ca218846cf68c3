//! Patterns of small tunes that were worked by hand.

use modewright_core::patterns::{Likeness, Patterns, Why};
use modewright_core::{Length, Tune};
use modewright_formats::{ReadOptions, read, source::TuneText};
use modewright_tests::text;

fn tune(text: &str) -> Tune {
    read(&TuneText::abc(text.to_owned()), &ReadOptions::default()).tune
}

fn body(metre: &str, notes: &str) -> Tune {
    tune(&format!("X:1\nM:{metre}\nL:1/8\nK:G\n{notes}\n"))
}

fn demo(id: &str) -> Tune {
    tune(&text(&format!("../crates/lesson/demo/{id}.abc")))
}

#[test]
fn forms_of_the_demo_tunes() {
    for (id, played, phrases) in [
        ("ebb-at-lantern-quay", "AABB", ["abcd", "efgh"].as_slice()),
        ("tide-over-the-slipway", "AABB", &["abcd", "efcd"]),
        ("two-lights-at-the-bar", "AABB", &["abcdabef", "ghijabef"]),
        ("slack-water-turning", "AABB", &["abac", "defg"]),
        ("five-oars", "A", &["abcdefag"]),
    ] {
        let form = Patterns::of(&demo(id), &[]).form;
        assert_eq!(form.played, played, "{id}");
        let found: Vec<&str> = form.strains.iter().map(|s| s.phrases.as_str()).collect();
        assert_eq!(found, phrases, "{id}");
    }
}

#[test]
fn strains_that_are_the_same_share_a_letter() {
    let form = |notes| Patterns::of(&body("2/4", notes), &[]).form.played;
    assert_eq!(form("|:A2B2|c4:|:d2e2|d4:|"), "AABB");
    assert_eq!(form("|:A2B2|c4:|:d2e2|d4:|:A2B2|c4:|"), "AABBAA");
    assert_eq!(form("A2B2|c4||d2e2|d4||A2B2|c4|]"), "ABA");
    // A pickup outside the repeat, and two endings.
    assert_eq!(form("A|:A2B2|c3A:|d2e2|d3|]"), "AAB");
    assert_eq!(form("|:A2B2|1c4:|2d4|]"), "AA");
}

#[test]
fn bars_that_return() {
    let bars = Patterns::of(&body("2/4", "z4|G2AB|A2Bc|G2AB|B2BB|d4|e4|"), &[]).bars;
    assert_eq!(
        bars,
        [
            Likeness::Silent,
            Likeness::New,
            Likeness::Moved { bar: 1, steps: 1 },
            Likeness::Same { bar: 1 },
            Likeness::Rhythm { bar: 1 },
            Likeness::New,
            // One note is no melody that could be recognised.
            Likeness::Rhythm { bar: 5 },
        ]
    );
}

#[test]
fn the_stock_of_rhythms() {
    let figures = Patterns::of(&body("6/8", "G|G2A BAG|G3 G2A|B6|z3 A3|"), &[]).figures;
    let told: Vec<(String, usize, usize)> = figures
        .iter()
        .map(|figure| {
            let eighths = figure.values.iter().map(|v| v.length.times(8, 1).unwrap().to_string());
            (eighths.collect::<Vec<_>>().join(" "), figure.first, figure.count)
        })
        .collect();
    let wanted = [("1", 0, 1), ("2 1", 1, 2), ("1 1 1", 1, 1), ("3", 2, 2), ("6", 3, 1)];
    assert_eq!(told, wanted.map(|(values, first, count)| (values.to_owned(), first, count)));
}

#[test]
fn hard_bars_and_why() {
    for (metre, notes, wanted) in [
        ("4/4", "G2A2B2c2|", ""),
        ("4/4", "G2g2g2g2|", "leap"),
        ("4/4", "G2A2B2c2|g2g2g2g2|", ""),
        ("4/4", "G2A2B2c2|c'2b2a2g2|", "leap"),
        ("4/4", "GA2B2c2d|", "syncopation"),
        ("2/2", "GA2B c2d2|", "syncopation"),
        ("4/4", "G3A B2c2|", "dotted"),
        ("6/8", "G3 B2c|", ""),
        ("6/8", "G>Bc d3|", "dotted"),
        ("4/4", "G2A2B2c2-|c2B2A2G2|", "tied tied"),
        ("4/4", "G2^c2^c2=c2|^c2^c2^c2^c2|", "accidental"),
        ("4/4", "G2A2B2c2|d2c2B2A2|G2A2BcA2|", "fastest"),
    ] {
        let tune = body(metre, notes);
        let hard = Patterns::of(&tune, &[]).hard;
        let mut kinds: Vec<&str> = hard
            .iter()
            .flat_map(|hard| &hard.why)
            .map(|why| match why {
                Why::Leap { .. } => "leap",
                Why::Syncopation { .. } => "syncopation",
                Why::Dotted { .. } => "dotted",
                Why::Tied { .. } => "tied",
                Why::FirstAccidental { .. } => "accidental",
                Why::Fastest { length, .. } => {
                    assert_eq!(*length, Length::QUAVER);
                    "fastest"
                }
                Why::Awkward { .. } => "awkward",
            })
            .collect();
        // The syncopated bars hold the tune's only quavers; that they are fast is told as well.
        kinds.retain(|kind| *kind != "fastest" || wanted == "fastest");
        assert_eq!(kinds.join(" "), wanted, "{metre} {notes}");
    }
    let awkward = Patterns::of(&body("4/4", "G2A2B2c2|d2c2B2A2|"), &[5]).hard;
    assert_eq!(awkward.len(), 1);
    assert_eq!((awkward[0].bar, awkward[0].why.as_slice()), (1, &[Why::Awkward { index: 5 }][..]));
}

#[test]
fn moves_and_leaps() {
    let moves = Patterns::of(&body("4/4", "G2A2A2d2|G8-|G8||g8|"), &[]).moves;
    assert_eq!((moves.all, moves.same, moves.steps), (4, 1, 1));
    let leap = moves.largest_leap.unwrap();
    // Down a fifth to the tied G is wider than up a fourth; into the next strain is no move.
    assert_eq!((leap.interval.steps(), leap.to), (-4, 4));
}

//! Counting against worked bars and tables: every cell of `tests/reference/counting`.
//!
//! The first line of each table names its source.

#![expect(clippy::unwrap_used, reason = "helpers of tests, where a panic is the answer")]

use modewright_core::count::{
    BarCount, BarFit, Compound, CountOptions, Detail, Pace, Simple, Syllable, System, Uneven,
    bar_places, count, count_in,
};
use modewright_core::{Length, Metre, MetreKind, Tune};
use modewright_formats::{ReadOptions, read, source::TuneText};
use modewright_tests::{Row, table};

/// The rows of a table, which must be so many.
fn rows(name: &str, wanted: usize) -> Vec<Row> {
    let rows = table(&format!("reference/counting/{name}.csv"));
    assert_eq!(rows.len(), wanted, "{name}: number of rows");
    rows
}

fn length(text: &str) -> Length {
    text.parse().unwrap()
}

fn tune(metre: &str, notes: &str) -> Tune {
    let text = format!("X:1\nM:{metre}\nL:1/8\nK:C\n{notes}\n");
    let reading = read(&TuneText::abc(text), &ReadOptions::default());
    assert!(reading.problems.is_empty(), "{notes}: {:?}", reading.problems);
    reading.tune
}

/// Beats of three by "la li", as the worked bars have them.
fn options(detail: Detail) -> CountOptions {
    let system = System { compound: Compound::LaLi, ..System::default() };
    CountOptions { system, detail }
}

/// The count of a tune as the table writes it: bars apart, the silent side by side in brackets
/// before a pickup.
fn written(tune: &Tune, options: CountOptions) -> String {
    let bars = count(tune, options);
    let mut text: Vec<String> = bars.iter().map(BarCount::text).collect();
    if bars[0].place.fit == BarFit::Pickup {
        let before = count_in(tune.metre, tune.bars[0].length, 1, options.system).unwrap();
        text[0] = format!("({}) {}", before.text(), text[0]);
        assert_eq!(bars[0].events[0].syllable, before.first_note);
    }
    text.join(" | ")
}

#[test]
fn worked_bars() {
    for row in rows("worked-bars", 23) {
        let (id, tune) = (&row["id"], tune(&row["metre"], &row["abc"]));
        assert_eq!(written(&tune, options(Detail::Full)), row["count"], "{id}");
        for detail in [Detail::Full, Detail::Beats] {
            let struck: Vec<String> = count(&tune, options(detail))
                .iter()
                .map(|bar| {
                    let struck = bar.events.iter().filter(|count| count.struck);
                    struck.map(|count| count.at.to_string()).collect::<Vec<_>>().join(" ")
                })
                .collect();
            assert_eq!(struck.join(" | "), row["struck"], "{id}");
        }
        // Whole beats alone: what is in brackets between beats goes, all else stays.
        let between = ["(&)", "(e)", "(a)", "(la)", "(li)", "(to)", "(ta)", "(ti)"];
        let kept: Vec<&str> = row["count"]
            .split(' ')
            .skip_while(|word| row["count"].starts_with("(1 ") && !word.ends_with(')'))
            .skip(usize::from(row["count"].starts_with("(1 ") && row["count"].contains("| 1")))
            .filter(|word| !between.contains(word))
            .collect();
        let beats: Vec<String> =
            count(&tune, options(Detail::Beats)).iter().map(BarCount::text).collect();
        assert_eq!(beats.join(" | "), kept.join(" "), "{id}");
        let lengths = tune.bars.iter().map(|bar| bar.length);
        let fits = bar_places(&tune);
        for (length, place) in lengths.zip(fits) {
            let full = tune.metre.bar_length().unwrap();
            assert_eq!(length == full, place.fit == BarFit::Full, "{id}");
            assert!(!matches!(place.fit, BarFit::Short { .. } | BarFit::Long { .. }), "{id}");
        }
    }
}

#[test]
fn metres() {
    for row in rows("metres", 12) {
        let metre: Metre = row["signature"].parse().unwrap();
        let class = match metre.kind() {
            MetreKind::Simple => "simple",
            MetreKind::Compound => "compound",
            other => panic!("{metre}: {other:?}"),
        };
        assert_eq!(row["class"].split(' ').next(), Some(class), "{metre}");
        assert_eq!(metre.beats().len().to_string(), row["beats_per_bar"], "{metre}");
        assert_eq!(Pace::usual_beat(metre), length(&row["beat_unit"]), "{metre}");
        assert_eq!(metre.bar_length(), Some(length(&row["bar_length"])), "{metre}");
        let parts = if class == "compound" { "3" } else { "2" };
        assert_eq!(parts, row["divisions_per_beat"], "{metre}");
    }
}

#[test]
fn syllables() {
    let with = |compound| CountOptions {
        system: System { compound, ..System::default() },
        detail: Detail::Full,
    };
    let parts = CountOptions {
        system: System { uneven: Uneven::Parts, ..System::default() },
        detail: Detail::Full,
    };
    for row in rows("syllables", 14) {
        let (metre, notes, options) = match (row["context"].as_str(), row["division"].as_str()) {
            ("simple beat", "whole beat") => ("1/4", "A2", with(Compound::LaLi)),
            ("simple beat", "two halves") => ("1/4", "AA", with(Compound::LaLi)),
            ("simple beat", "four quarters") => ("1/4", "A/A/A/A/", with(Compound::LaLi)),
            ("compound beat", "whole beat") => {
                // Three parts are always counted through; the whole beat alone is the other level.
                ("3+3/8", "A3A3", CountOptions { detail: Detail::Beats, ..with(Compound::LaLi) })
            }
            ("compound beat", "three parts") => ("3+3/8", "AAAA3", with(Compound::LaLi)),
            ("compound beat", "three parts (alternative)") => {
                ("3+3/8", "AAAA3", with(Compound::AndA))
            }
            ("compound beat", "six parts") => ("3+3/8", "A/A/A/A/A/A/A3", with(Compound::LaLiTa)),
            ("compound beat", "six parts (unique names)") => {
                ("3+3/8", "A/A/A/A/A/A/A3", with(Compound::LaLi))
            }
            ("compound bar counted in parts (6/8)", _) => ("6/8", "AAAAAA", with(Compound::Parts)),
            ("compound bar counted in parts (9/8)", _) => {
                ("9/8", "AAAAAAAAA", with(Compound::Parts))
            }
            ("triplet in simple beat", _) => ("1/4", "(3AAA", with(Compound::LaLi)),
            ("duplet in compound beat", _) => ("6/8", "(2AA A3", with(Compound::LaLi)),
            ("irregular bar 2+2+3 by beats", _) => ("2+2+3/8", "AAAAAAA", with(Compound::LaLi)),
            ("irregular bar 2+2+3 by parts", _) => ("2+2+3/8", "AAAAAAA", parts),
            other => panic!("{other:?}"),
        };
        let text = count(&tune(metre, notes), options)[0].text();
        let first_beat = text.split(" 2").next().unwrap();
        let text = if row["syllables"].starts_with('n') { first_beat } else { &text };
        assert_eq!(text, row["syllables"].replacen('n', "1", 1), "{row:?}");
    }
}

#[test]
fn places_in_the_beat() {
    for row in rows("places", 8) {
        let at = length(&row["position_in_beat"]);
        for (metre, beat, cell) in [("1/4", "1/4", "simple"), ("3+3/8", "3/8", "compound")] {
            let Some(wanted) = row[cell].split(' ').next().filter(|word| !word.is_empty()) else {
                continue;
            };
            let place = at.times(length(beat).numerator(), length(beat).denominator()).unwrap();
            let rest = length(beat).minus(place).unwrap();
            // A first note up to the place, and a second one from there.
            let mut notes = String::new();
            for part in [place, rest].into_iter().filter(|part| !part.is_zero()) {
                let eighths = part.times(8, 1).unwrap();
                notes += &format!("A{}/{}", eighths.numerator(), eighths.denominator());
            }
            // An even cut of a beat of three would be a duplet: something falls on its sixths.
            if cell == "compound" && at == length("1/2") {
                notes = "A3/2B/c".into();
            }
            if cell == "compound" {
                notes += "A3";
            }
            let bars = count(&tune(metre, &notes), options(Detail::Beats));
            let found = bars[0].events.iter().find(|count| count.at == place).unwrap();
            let wanted = wanted.replace('n', "1");
            assert_eq!(found.syllable.to_string(), wanted, "{row:?}: {cell}");
        }
    }
}

#[test]
fn last_bars_that_complete_the_pickup() {
    for row in rows("last-bars", 10) {
        let metre: Metre = row["metre"].parse().unwrap();
        let full = metre.bar_length().unwrap();
        let eighths = |length: Length| {
            let eighths = length.times(8, 1).unwrap();
            format!("{}/{}", eighths.numerator(), eighths.denominator())
        };
        let (pickup, last) = (length(&row["pickup"]), length(&row["last_bar_must_last"]));
        let line = |last| {
            let (p, f, l) = (eighths(pickup), eighths(full), eighths(last));
            format!("X:1\nM:{metre}\nL:1/8\nK:C\nA{p}|A{f}|A{l}|]\n")
        };
        let fits = |last| {
            let tune = read(&TuneText::abc(line(last)), &ReadOptions::default()).tune;
            bar_places(&tune).into_iter().map(|place| place.fit).collect::<Vec<_>>()
        };
        assert_eq!(fits(last), [BarFit::Pickup, BarFit::Full, BarFit::Completes], "{row:?}");
        // Many printings do not shorten it; shorter still is a mistake.
        assert_eq!(fits(full)[2], BarFit::Full);
        let shorter = last.minus(Length::new(1, 32).unwrap()).unwrap();
        let by = full.minus(shorter).unwrap();
        assert_eq!(fits(shorter)[2], BarFit::Short { by });
    }
}

#[test]
fn count_ins() {
    for row in rows("count-ins", 10) {
        let pickup = match row["pickup"].as_str() {
            "none" => Length::ZERO,
            "crotchet" => Length::CROTCHET,
            "quaver" => Length::QUAVER,
            other => panic!("{other}"),
        };
        let metre = row["metre"].parse().unwrap();
        let found = count_in(metre, pickup, 1, options(Detail::Beats).system).unwrap();
        let wanted = &row["spoken_count_before_first_note"];
        let (words, on) = wanted.split_once(" (first note on ").unwrap_or((wanted, ""));
        assert_eq!(found.text(), words, "{row:?}");
        if !on.is_empty() {
            assert_eq!(found.first_note.to_string(), on.trim_end_matches(')'), "{row:?}");
        }
        // Two bars are one more, and the clicks are the beats before the first note.
        let two = count_in(metre, pickup, 2, options(Detail::Beats).system).unwrap();
        let full = metre.bar_length().unwrap();
        assert_eq!(two.length, found.length.plus(full).unwrap());
        assert!(two.clicks.iter().all(|click| *click < two.length));
        assert_eq!(two.clicks.len(), found.clicks.len() + metre.beats().len());
    }
}

#[test]
fn tempos() {
    for row in rows("tempos", 6) {
        let (value, number) = row["tempo"].split_once(" = ").unwrap();
        let beat = match value {
            "crotchet" => "1/4",
            "dotted crotchet" => "3/8",
            "minim" => "1/2",
            "quaver" => "1/8",
            other => panic!("{other}"),
        };
        let metre: Metre = row["metre"].parse().unwrap();
        let text = format!("X:1\nM:{metre}\nQ:{beat}={number}\nK:C\nA8|\n");
        let tune = read(&TuneText::abc(text), &ReadOptions::default()).tune;
        let (pace, _) = Pace::of(&tune);
        let unit = metre.unit().unwrap();
        let mut beats: Vec<String> = metre
            .beats()
            .iter()
            .map(|parts| format!("{:.4}", pace.seconds(unit.times(*parts, 1).unwrap())))
            .collect();
        assert_eq!(beats.len().to_string(), row["count_in_beats"], "{row:?}");
        let in_bar = format!("{:.4}", pace.seconds(metre.bar_length().unwrap()));
        assert_eq!(in_bar, row["seconds_per_bar"]);
        if beats.iter().all(|beat| *beat == beats[0]) {
            beats.truncate(1);
        }
        assert_eq!(beats.join(" / "), row["seconds_per_beat"], "{row:?}");
    }
}

#[test]
fn halves_leave_the_quarters_without_a_word() {
    let system = System { simple: Simple::Halves, ..System::default() };
    let bars = count(&tune("2/4", "A>B c2"), CountOptions { system, detail: Detail::Beats });
    let said: Vec<Syllable> = bars[0].events.iter().map(|count| count.syllable).collect();
    assert_eq!(said, [Syllable::Number(1), Syllable::Between, Syllable::Number(2)]);
}

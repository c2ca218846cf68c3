//! The reader against the tables of the ABC standard: every key, pitch and tuplet of
//! `tests/reference/theory/abc-*.csv`, read from text. The first line of each names its source.

use modewright_core::{Length, Mode, Pitch, Tune};
use modewright_formats::source::TuneText;
use modewright_formats::{ReadOptions, Severity, read};
use modewright_tests::{table, text};

fn tune(abc: &str) -> Tune {
    let reading = read(&TuneText::abc(abc), &ReadOptions::default());
    let worst = reading.problems.iter().map(|p| p.kind.severity()).max();
    assert!(worst < Some(Severity::Error), "{abc}: {:?}", reading.problems);
    reading.tune
}

#[test]
fn every_key() {
    let rows = table("reference/theory/abc-keys.csv");
    assert_eq!(rows.len(), 15);
    for row in rows {
        for (column, cell) in row.iter().filter(|(column, _)| *column != "fifths") {
            let mode: Mode = column.parse().expect("a mode");
            let short = format!("X:1\nL:1/8\nK:{cell}\nCDEFGAB|\n");
            // Only the first three letters of a mode count, in any case, with or without a space.
            let home = &cell[..=usize::from(cell[1..].starts_with(['#', 'b']))];
            let long = format!("X:1\nL:1/8\nK:{home} {}\nCDEFGAB|\n", column.to_uppercase());
            for abc in [short, long] {
                let tune = tune(&abc);
                let written = tune.key().expect("a written key");
                let key = written.key().expect("home and mode");
                assert_eq!((key.home.to_string(), key.mode), (home.to_owned(), mode), "{abc}");
                let fifths = written.signature().expect("a signature").fifths();
                assert_eq!(fifths.to_string(), row["fifths"], "{abc}");
                // And the notes themselves are altered by it.
                let notes = tune.events.iter().filter_map(|event| event.sound.pitch());
                let signed: i8 = notes.map(|pitch| pitch.spelling().alter.semitones()).sum();
                assert_eq!(signed, fifths, "{abc}");
            }
        }
    }
}

#[test]
fn every_pitch() {
    let text = text("reference/theory/abc-pitches.csv");
    let mut count = 0;
    for line in text.lines().skip(2) {
        // The last column is the rest of the line, commas and all.
        let mut cells = line.splitn(3, ',');
        let pitch: Pitch = cells.next().and_then(|cell| cell.parse().ok()).expect("a pitch");
        let abc = format!("X:1\nL:1/8\nK:C\n{}|\n", cells.nth(1).expect("its text"));
        let pitches: Vec<Pitch> =
            tune(&abc).events.iter().filter_map(|event| event.sound.pitch()).collect();
        assert_eq!(pitches, [pitch], "{abc}");
        count += 1;
    }
    assert_eq!(count, 19);
}

#[test]
fn every_tuplet() {
    let rows = table("reference/theory/abc-tuplets.csv");
    assert_eq!(rows.len(), 8);
    for row in rows {
        // n is three in compound time and two in simple time.
        for (metre, n) in [("2/4", 2), ("4/4", 2), ("6/8", 3), ("9/8", 3), ("12/8", 3)] {
            let count: u32 = row["p"].parse().expect("a number");
            let time = row["q_default"].parse().unwrap_or(n);
            let notes = "A".repeat(count.try_into().expect("few notes"));
            let abc = format!("X:1\nM:{metre}\nL:1/8\nK:C\n({count}{notes}B|\n");
            let tune = tune(&abc);
            let lengths: Vec<Length> = tune.events.iter().map(|event| event.length).collect();
            let (after, within) = lengths.split_last().expect("notes");
            assert_eq!(within.len(), usize::try_from(count).expect("few"), "{abc}");
            for &length in within {
                assert_eq!(Ok(length), Length::new(time, 8 * count), "{abc}");
            }
            assert_eq!(Ok(*after), Length::new(1, 8), "{abc}");
        }
    }
}

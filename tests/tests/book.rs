//! What the book says of modes, held against the engine: its tables and its sentences.

use modewright_core::{Key, Mode, Pitch, Position, Range, Spelling};
use modewright_formats::names;
use modewright_tests::path;
use std::fs;

fn chapter(name: &str) -> String {
    let file = path(&format!("../book/src/{name}.md"));
    fs::read_to_string(&file).unwrap_or_else(|e| panic!("{}: {e}", file.display()))
}

/// The cells of the table whose first head is this one.
fn table(chapter_name: &str, head: &str) -> Vec<Vec<String>> {
    let text = chapter(chapter_name);
    let mut lines = text.lines().skip_while(|line| !line.starts_with(&format!("| {head} |")));
    assert!(lines.next().is_some(), "{chapter_name} has no table that begins with {head}");
    let rows = lines.skip(1).take_while(|line| line.starts_with('|'));
    rows.map(|line| {
        let cells = line.trim_matches('|').split('|');
        cells.map(|cell| cell.trim().to_owned()).collect()
    })
    .collect()
}

/// "Ionian (major)" as a mode.
fn mode(name: &str) -> Mode {
    let word = name.split(' ').next().unwrap_or(name);
    names::mode(word).unwrap_or_else(|e| panic!("{name}: {e}"))
}

fn notes(text: &str) -> Vec<Spelling> {
    let note = |word: &str| names::note(word).unwrap_or_else(|e| panic!("{text}: {e}"));
    text.split_whitespace().map(note).collect()
}

fn scale(home: &str, mode: Mode) -> Vec<Spelling> {
    let home = names::note(home).expect("a note");
    Key::new(home, mode).scale().expect("a scale").to_vec()
}

/// The custom properties of a style sheet, those of its dark form with a `dark` before the name.
fn properties(file: &str) -> Vec<(String, String)> {
    let text = fs::read_to_string(path(file)).unwrap_or_else(|e| panic!("{file}: {e}"));
    let mut found = Vec::new();
    for (form, block) in ["", "dark "].iter().zip(text.split(":root {").skip(1)) {
        let block = block.split('}').next().unwrap_or_default();
        for line in block.lines().filter_map(|line| line.trim().strip_prefix("--")) {
            let (name, value) = line.split_once(':').expect("a property");
            found.push((format!("{form}{name}"), value.trim().to_owned()));
        }
    }
    found
}

/// The book's style sheet stands alone, so that a plain mdBook reads the book too; its colours and
/// fonts are the page's all the same.
#[test]
fn the_book_looks_as_the_page_does() {
    let page = properties("../web/site/static/style.css");
    let book = properties("../book/theme/book.css");
    for property in &book {
        assert!(page.contains(property), "{property:?} is not the page's");
    }
    assert!(book.len() > 20, "{book:?}");
}

#[test]
fn the_seven_notes_and_their_steps() {
    let rows = table("seven-notes", "home");
    assert_eq!(rows.len(), 7);
    for (row, mode) in rows.iter().zip(Mode::ALL) {
        assert_eq!(self::mode(&row[1]), mode);
        let white = scale(&row[0], mode);
        assert!(white.iter().all(|note| note.alter.semitones() == 0), "{row:?}: {white:?}");
        let steps = mode.steps().map(|step| if step == 2 { "T" } else { "S" }).join(" ");
        assert_eq!(row[3], steps);
    }
}

#[test]
fn the_ladder_of_brightness() {
    let rows = table("same-home", "mode on D");
    assert_eq!(rows.len(), 7);
    let mut before: Option<Vec<Spelling>> = None;
    for (row, mode) in rows.iter().zip(Mode::BY_BRIGHTNESS) {
        assert_eq!(self::mode(&row[0]), mode);
        let found = scale("D", mode);
        assert_eq!(notes(&row[1]), found, "{row:?}");
        if let Some(before) = before {
            let (degree, change) = row[2].split_once(", ").unwrap();
            let (from, to) = change.split_once(" to ").unwrap();
            let place = (0..7).find(|&i| before[i] != found[i]).unwrap();
            assert_eq!(notes(&format!("{from} {to}")), [before[place], found[place]]);
            let ordinal = modewright_lesson::words::ordinal(u8::try_from(place + 1).unwrap());
            assert_eq!(degree, format!("the {ordinal}"));
            assert_eq!((0..7).filter(|&i| before[i] != found[i]).count(), 1);
        }
        before = Some(found);
    }
}

#[test]
fn the_arc_and_the_signatures() {
    let arc = notes("F C G D A E B");
    let rows = table("fifths", "place of home in the arc");
    assert_eq!(rows.len(), 7);
    for (i, row) in rows.iter().enumerate() {
        let mut white = scale(&row[2], mode(&row[1]));
        assert_eq!(white[0], arc[i], "{row:?}");
        white.sort_by_key(|note| arc.iter().position(|other| other == note));
        assert_eq!(white, arc);
    }
    let rows = table("fifths", "mode");
    assert_eq!(rows.len(), 7);
    let words = ["none", "one", "two", "three", "four", "five"];
    let count = |fifths: i8| {
        let n = usize::from(fifths.unsigned_abs());
        let kind = if fifths > 0 { "sharp" } else { "flat" };
        match n {
            0 => "none".to_owned(),
            1 => format!("one {kind}"),
            _ => format!("{} {kind}s", words[n]),
        }
    };
    for row in rows {
        for (home, said) in [("D", &row[2]), ("A", &row[3])] {
            let key = Key::new(names::note(home).unwrap(), mode(&row[0]));
            assert_eq!(*said, count(key.signature().unwrap().fifths()), "{row:?}");
        }
        let beside = match mode(&row[0]).fifths() {
            1 => "one sharp more".to_owned(),
            0 => "the same".to_owned(),
            -1 => "one sharp fewer".to_owned(),
            n => format!("{} fewer", words[usize::try_from(-n).unwrap()]),
        };
        assert_eq!(row[1], beside);
    }
}

#[test]
fn what_a_gap_leaves_open() {
    let rows = table("open", "the note that is missing");
    assert_eq!(rows.len(), 6);
    for row in rows {
        let degree = (2..=7)
            .find(|&d| row[0] == format!("the {}", modewright_lesson::words::ordinal(d)))
            .unwrap_or_else(|| panic!("{row:?}"));
        let said: Vec<Mode> = row[1].split(" or ").map(mode).collect();
        let open = said[0].open_without(degree);
        assert!(open.len() == 2 && said.iter().all(|m| open.contains(m)), "{row:?}: {open:?}");
    }
}

/// Every sentence of the shape "G Lydian is G A B C♯ D E F♯", in every chapter.
#[test]
fn scales_that_are_spelled_out() {
    let mut found = 0;
    for entry in fs::read_dir(path("../book/src")).unwrap() {
        let file = entry.unwrap().path();
        if file.extension().is_none_or(|ending| ending != "md") {
            continue;
        }
        let text = fs::read_to_string(&file).unwrap().replace("</", " ");
        let words: Vec<&str> =
            text.split_whitespace().map(|w| w.trim_matches([',', '.', ':', ')', '('])).collect();
        for window in words.windows(10) {
            let (home, kind, is, scale) = (window[0], window[1], window[2], &window[3..]);
            let (Ok(home), true) = (names::note(home), is == "is" && scale[0] == home) else {
                continue;
            };
            let Ok(mode) = names::mode(kind) else { continue };
            let said: Vec<Spelling> = scale.iter().filter_map(|w| names::note(w).ok()).collect();
            assert_eq!(
                said,
                Key::new(home, mode).scale().unwrap(),
                "{}: {window:?}",
                file.display()
            );
            found += 1;
        }
    }
    assert!(found >= 7, "only {found} scales are spelled out");
}

/// The answers to the questions of "How low, how high".
#[test]
fn positions_of_the_exercises() {
    let position = |low: &str, high: &str, home: &str| {
        let pitch = |name: &str| name.parse::<Pitch>().unwrap();
        let (lowest, highest) = (pitch(low), pitch(high));
        let range =
            Range { lowest, lowest_at: 0, highest, highest_at: 0, tessitura: (lowest, highest) };
        range.position(names::note(home).unwrap().pitch_class())
    };
    assert_eq!(position("F#4", "G5", "G"), Some(Position::Authentic));
    assert_eq!(position("E4", "E5", "A"), Some(Position::Plagal));
}

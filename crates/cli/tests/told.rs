//! `count`, `lesson` and `sound`, run as a user runs them.

mod run;

use modewright_tests::golden;
use run::{code, err, folder, out, run};

const JIG: &str = "../lesson/demo/ebb-at-lantern-quay.abc";

#[test]
fn help_teaches() {
    golden("help-count.txt", &out(&run(&["count", "--help"], None)));
    golden("help-lesson.txt", &out(&run(&["lesson", "--help"], None)));
    golden("help-sound.txt", &out(&run(&["sound", "--help"], None)));
}

#[test]
fn a_count_is_a_table_or_json() {
    golden("count-demo.txt", &out(&run(&["count"], None)));
    let json = run(&["count", JIG, "-", "--json", "--compound", "la-li"], Some("D E F | G A B"));
    let lines: Vec<serde_json::Value> =
        out(&json).lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(lines.len(), 2);
    assert_eq!(lines[0]["bars"][1]["text"], "1 la li 2 la li");
    assert_eq!(lines[0]["system"]["compound"], "la-li");
    // Letters have no metre until somebody says it.
    assert_eq!((&lines[1]["metre"], &lines[1]["count_in"]), (&"free".into(), &().into()));
    let said = run(&["count", "-", "--json", "--metre", "3/4"], Some("D E F | G A B"));
    assert!(out(&said).contains("\"text\":\"1 2 3\""), "{}", out(&said));
    let full = run(&["count", JIG, "--full"], None);
    assert!(out(&full).contains("1 (2) 3 4 5 6"));
}

#[test]
fn a_lesson_is_edited_and_handed_back() {
    let place = folder("lesson");
    let file = place.join("walk.md");
    let name = file.to_str().unwrap();
    let printed = run(&["lesson", JIG], None);
    assert_eq!((code(&printed), err(&printed)), (0, String::new()));
    assert_eq!(code(&run(&["lesson", JIG, "-o", name], None)), 0);
    let text = std::fs::read_to_string(&file).unwrap();
    assert_eq!(text, out(&printed));
    // A file that is there is replaced, and nothing is left beside it.
    let edited = text.replace("**Bar 5.** Bar 1 again.", "**Bar 55.** Breathe.");
    std::fs::write(&file, &edited).unwrap();
    let back = run(&["lesson", JIG, "--words", name, "-o", name], None);
    assert_eq!(code(&back), 0);
    assert!(err(&back).contains("bar 55"), "{}", err(&back));
    assert_eq!(std::fs::read_to_string(&file).unwrap(), edited);
    assert_eq!(std::fs::read_dir(&place).unwrap().count(), 1);
    golden("lesson-words.txt", &err(&back).replace(name, "walk.md"));
    let american = run(&["lesson", JIG, "--values", "american", "--names", "movable"], None);
    assert!(out(&american).contains("quarter note"), "{}", out(&american));
    assert!(out(&american).contains("re-fa-la"), "{}", out(&american));
}

/// Samples of a file of 16 bits, and how many there are a second.
fn heard(file: &[u8]) -> (Vec<i16>, u32) {
    assert_eq!((&file[..4], &file[8..12]), (&b"RIFF"[..], &b"WAVE"[..]));
    let rate = u32::from_le_bytes(file[24..28].try_into().expect("four bytes"));
    let samples = file[44..].as_chunks::<2>().0;
    (samples.iter().map(|pair| i16::from_le_bytes(*pair)).collect(), rate)
}

#[test]
fn a_tune_is_heard() {
    let place = folder("sound");
    let file = place.join("jig.wav");
    let name = file.to_str().unwrap();
    let seconds = |args: &[&str]| {
        let output = run(&[&["sound", JIG, "-o", name], args].concat(), None);
        assert_eq!((code(&output), err(&output)), (0, String::new()), "{args:?}");
        let (samples, rate) = heard(&std::fs::read(&file).unwrap());
        assert!(samples.iter().any(|sample| sample.unsigned_abs() > 8_000));
        assert!(samples.iter().all(|sample| sample.unsigned_abs() < 32_000));
        samples.len() as f64 / f64::from(rate)
    };
    // 32 bars of 1.2 seconds, and the bar of count-in without its pickup is made whole by it.
    let whole = seconds(&[]);
    assert!((whole - 33.0 * 1.2).abs() < 0.21, "{whole}");
    assert!((seconds(&["--tempo", "50"]) - 2.0 * whole).abs() < 0.01);
    assert!((seconds(&["--count-in", "2", "--voice", "reed"]) - whole - 1.2).abs() < 0.01);
    let once = seconds(&["--once", "--count-in", "0"]);
    assert!((seconds(&["--percent", "50"]) - 2.0 * whole).abs() < 0.01);
    assert!((seconds(&["--click", "--drone", "--voice", "reed"]) - whole).abs() < 0.01);
    // A bar of count-in and three bars.
    assert!((seconds(&["--bars", "2-4"]) - 4.0 * 1.2).abs() < 0.01);
    assert!((once - 16.0 * 1.2).abs() < 0.41, "{once}");
    assert_eq!(std::fs::read_dir(&place).unwrap().count(), 1, "nothing is left beside it");
    let both = run(&["sound", "--scale", "D major", "--scale", "E dorian", "-o", "-"], None);
    assert_eq!(code(&both), 0);
    let (samples, rate) = heard(&both.stdout);
    assert!((samples.len() as f64 / f64::from(rate) - 34.0 * 0.36).abs() < 0.01);
}

#[test]
fn what_is_awkward_on_the_instrument_is_pointed_out() {
    let air = "../lesson/demo/the-mooring-lamp.abc";
    let plain = out(&run(&["lesson", air], None));
    assert!(!plain.contains("awkward"), "{plain}");
    // Its F natural is a half-covered hole on a whistle in D.
    let whistle = run(&["lesson", air, "--on", "tin-whistle-d"], None);
    assert_eq!((code(&whistle), err(&whistle)), (0, String::new()));
    assert!(out(&whistle).contains("is awkward on your instrument"), "{}", out(&whistle));
    let unknown = run(&["lesson", air, "--on", "moon-harp"], None);
    assert_eq!(code(&unknown), 2);
}

#[test]
fn wrong_arguments_end_with_two_and_a_way_out() {
    let place = folder("told-wrong");
    let inside = place.join("no/folder/walk.md");
    let mut told = String::new();
    for args in [
        &["count", "--metre", "4/3", "-"][..],
        &["count", "--compound", "seven", "-"],
        &["count", "no-such-file.abc"],
        &["lesson", JIG, "-o", "walk.png"],
        &["lesson", JIG, "-o", inside.to_str().unwrap()],
        &["lesson", JIG, "-o", place.join("a.md").to_str().unwrap()],
        &["lesson", JIG, "--tune", "3"],
        &["lesson", "--tune", "0"],
        &["lesson", JIG, "--words", "no-such-walk.md"],
        &["lesson", JIG, JIG],
        &["sound", JIG],
        &["sound", JIG, "-o", "tune.mp3"],
        &["sound", JIG, "-o", "tune.wav", "--tempo", "0"],
        &["sound", JIG, "-o", "-", "--tempo", "1"],
        &["sound", JIG, "-o", "-", "--percent", "300"],
        &["sound", JIG, "-o", "-", "--bars", "6-3"],
        &["sound", JIG, "-o", "-", "--bars", "40-41"],
        &["sound", "--scale", "H", "-o", "-"],
        &["sound", JIG, "--scale", "D", "-o", "-"],
    ] {
        // A folder of that name stands in the way of the sixth.
        let _ = std::fs::create_dir(place.join("a.md"));
        let output = run(args, Some("D E F G"));
        assert_eq!((code(&output), out(&output)), (2, String::new()), "{args:?}");
        let shown = args.join(" ").replace(place.to_str().unwrap(), "FOLDER");
        let tidy = err(&output).replace(place.to_str().unwrap(), "FOLDER");
        told.push_str(&format!("$ modewright {shown}\n{tidy}\n"));
    }
    golden("wrong-told.txt", &told);
}

#[test]
fn odd_input_never_panics() {
    let long = "X:1\nM:4/4\nK:D\n".to_owned() + &"A".repeat(200_000);
    for input in ["", "\0\0\0", "X:", "|||||", "X:1\nM:99/8\nK:C\n(3:2:9A|", &long, "PK\x03\x04zip"]
    {
        for args in [&["count", "-"][..], &["count", "-", "--json", "--full"], &["lesson", "-"]] {
            let output = run(args, Some(input));
            assert!(!err(&output).contains("panicked"), "{input:.20}: {}", err(&output));
            assert!(matches!(code(&output), 0..=2), "{input:.20}");
        }
    }
}

#[test]
fn a_sheet_is_written_in_every_form() {
    let place = folder("sheet");
    for (ending, begins) in [("svg", "<svg "), ("pdf", "%PDF-"), ("html", "<!doctype html>")] {
        let file = place.join(format!("sheet.{ending}"));
        let name = file.to_str().unwrap();
        let rows = "count,degree,note,solfa,fingering,bellows,words";
        let output =
            run(&["lesson", JIG, "--rows", rows, "--on", "anglo-20-c-g", "-o", name], None);
        assert_eq!((code(&output), err(&output)), (0, String::new()), "{ending}");
        let bytes = std::fs::read(&file).unwrap();
        assert!(bytes.starts_with(begins.as_bytes()), "{ending}");
        // A name that is known can be printed too, and is the same.
        let printed =
            run(&["lesson", JIG, "--rows", rows, "--on", "anglo-20-c-g", "--print", ending], None);
        assert_eq!(printed.stdout, bytes, "{ending}");
    }
    let page = std::fs::read_to_string(place.join("sheet.html")).unwrap();
    assert!(page.contains("<h2>Before you play</h2>") && !page.contains("<script"));
    let tune = "X:1\nT:潮\nK:C\nCDEF|\n";
    let output = run(&["lesson", "-", "--print", "pdf"], Some(tune));
    assert_eq!(code(&output), 0);
    golden("lesson-letters.txt", &err(&output));
    let words = run(&["lesson", "--rows", "count, note", "--mark", " home ,lowest"], None);
    assert_eq!(code(&words), 0, "blanks about a word are no part of it: {}", err(&words));
    let output = run(&["lesson", "--rows", "count,colour"], None);
    assert_eq!(code(&output), 2);
}

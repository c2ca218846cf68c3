//! The real command, run as a user runs it.

mod run;

use modewright_tests::golden;
use run::{code, err, folder, out, run};
use std::process::{Command, Stdio};

const DEMOS: &str = "../lesson/demo";

#[test]
fn without_a_file_the_demo_answers() {
    let output = run(&["find"], None);
    assert_eq!(code(&output), 0);
    assert!(out(&output).contains("E Dorian"));
    assert!(out(&output).contains("invented"));
    assert!(!out(&output).contains('\u{1b}'), "no colour off a terminal");
    golden("find-demo.txt", &out(&output));
}

#[test]
fn help_teaches() {
    golden("help.txt", &out(&run(&["--help"], None)));
    golden("help-find.txt", &out(&run(&["find", "--help"], None)));
    golden("help-convert.txt", &out(&run(&["convert", "--help"], None)));
    golden("help-scale.txt", &out(&run(&["scale", "--help"], None)));
}

#[test]
fn letters_come_through_standard_input() {
    let output = run(&["find", "-"], Some("E F# G A B C# D E\n"));
    assert_eq!(code(&output), 0);
    assert!(out(&output).contains("E Dorian"), "{}", out(&output));
    assert!(out(&output).contains("no octaves are marked"));
    let barred = run(
        &["find", "-", "--metre", "3/4", "--pickup", "1/4", "--json"],
        Some("D G A B G F# E D"),
    );
    assert!(out(&barred).contains("\"bar\":0"), "{}", out(&barred));
}

#[test]
fn many_tunes_get_a_table() {
    let output = run(&["find", DEMOS], None);
    assert_eq!((code(&output), err(&output)), (0, String::new()));
    golden("find-table.txt", &out(&output));
}

#[test]
fn json_is_one_object_a_line_and_csv_one_row() {
    let json = run(&["find", DEMOS, "--json"], None);
    let lines: Vec<serde_json::Value> =
        out(&json).lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    let csv = run(&["find", DEMOS, "--csv"], None);
    let rows: Vec<String> = out(&csv).lines().map(str::to_owned).collect();
    assert_eq!(rows.len(), lines.len() + 1);
    for (line, row) in lines.iter().zip(&rows[1..]) {
        assert_eq!(line["schema"], 1);
        let home = line["home"].as_str().unwrap();
        let mode = line["mode"].as_str().unwrap();
        assert!(row.contains(&format!(",{home},{mode},")), "{row}");
    }
    // The order is that of the names, however many cores answer.
    let sources: Vec<&str> = lines.iter().map(|l| l["source"].as_str().unwrap()).collect();
    assert!(sources.is_sorted());
}

#[test]
fn what_the_user_knows_is_kept() {
    let tune = format!("{DEMOS}/ebb-at-lantern-quay.abc");
    let output = run(&["find", &tune, "--home", "d", "--json"], None);
    assert!(out(&output).contains("\"home\":\"D\",\"mode\":\"ionian\""), "{}", out(&output));
    let output = run(&["find", &tune, "--mode", "mix", "--json"], None);
    assert!(out(&output).contains("\"mode\":\"mixolydian\""));
    // An answer that is given whole is not judged, and is shown with both sides.
    let report = run(&["find", &tune, "--home", "D", "--mode", "major"], None);
    golden("find-given.txt", &out(&report));
    for sign in ["\n                + ", "\n                - "] {
        assert!(out(&report).contains(sign), "{sign:?}");
    }
}

#[test]
fn wrong_arguments_end_with_two_and_a_way_out() {
    let empty = folder("empty");
    let mut told = String::new();
    for args in [
        &["find", "no-such-file.abc"][..],
        &["find", empty.to_str().unwrap()],
        &["find", "--metre", "4/3", "-"],
        &["find", "--metre", "waltz", "-"],
        &["find", "--pickup", "x", "-"],
        &["find", "--home", "H", "-"],
        &["find", "--mode", "xyz", "-"],
        &["find", "--json", "--csv"],
        &["find", "--nonsense"],
        &["scale", "G# major"],
        &["scale", "H"],
        &["scale"],
        &["wheel"],
        &[],
    ] {
        let output = run(args, Some("D E F G"));
        assert_eq!(code(&output), 2, "{args:?}");
        assert_eq!(out(&output), "", "{args:?}: nothing is half printed");
        let shown: Vec<&str> = args.iter().map(|a| a.rsplit('/').next().unwrap()).collect();
        let tidy = err(&output).replace(empty.to_str().unwrap(), "FOLDER");
        told.push_str(&format!("$ modewright {}\n{tidy}\n", shown.join(" ")));
    }
    golden("wrong-arguments.txt", &told);
}

#[test]
fn what_cannot_be_read_ends_with_one_and_the_rest_is_answered() {
    let output =
        run(&["find", "-"], Some("X:1\nT:One\nK:D\n[DF\nX:2\nT:Two\nK:G\nGABG c2BA|G4|]\n"));
    assert_eq!(code(&output), 1);
    assert!(out(&output).contains("2 Two"), "{}", out(&output));
    let place = folder("mixed");
    std::fs::write(place.join("a.abc"), b"%PDF-1.7\n").unwrap();
    std::fs::write(place.join("b.abc"), "X:1\nT:Good\nK:D\nDFAd fdAF|D4|]\n").unwrap();
    let output = run(&["find", place.to_str().unwrap(), "--json"], None);
    assert_eq!(code(&output), 1);
    assert!(out(&output).contains("Good"));
    assert!(err(&output).contains("a PDF file"), "{}", err(&output));
}

#[test]
fn hostile_text_stays_text() {
    let title = "X:1\nT:\u{1b}[31mred\u{7}\u{202e}abc\nK:D\nDFAd|\n";
    let table = run(&["find", "-", "-"], Some(&format!("{title}\nX:2\nT:x\nK:D\nDFA|\n")));
    assert!(!out(&table).contains('\u{1b}'));
    let report = run(&["find", "-"], Some(title));
    assert!(!out(&report).contains('\u{1b}'), "{:?}", out(&report));
    let formula = run(&["find", "-", "--csv"], Some("X:1\nT:=1+1\nK:D\nDFA|\n"));
    assert_eq!(code(&formula), 0);
}

#[test]
fn odd_input_never_panics() {
    let long = "X:1\nK:D\n".to_owned() + &"A".repeat(200_000);
    for input in ["", "\0\0\0", "\u{feff}", "X:", "K:", "|||||", "é♯♭", &long, "PK\x03\x04zip"]
    {
        for args in [&["find", "-"][..], &["find", "-", "--json"], &["find", "-", "--csv"]] {
            let output = run(args, Some(input));
            assert!(matches!(code(&output), 0 | 1), "{input:.20}");
            assert!(!err(&output).contains("panicked"), "{input:.20}");
        }
    }
}

#[test]
fn a_closed_pipe_is_no_failure() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_modewright"))
        .args(["find", DEMOS, "--json"])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!((code(&output), err(&output)), (0, String::new()));
}

#[test]
fn scales() {
    let output = run(&["scale", "E dorian"], None);
    assert_eq!(code(&output), 0);
    golden("scale-e-dorian.txt", &out(&output));
    let json = run(&["scale", "f#m", "--json"], None);
    let answer: serde_json::Value = serde_json::from_str(&out(&json)).unwrap();
    assert_eq!(
        (&answer["home"], &answer["mode"], &answer["signature"]),
        (&"F#".into(), &"aeolian".into(), &3.into())
    );
    assert_eq!(answer["degrees"].as_array().unwrap().len(), 7);
}

#[test]
fn tunes_go_through_every_format_and_back() {
    let place = folder("convert");
    let path = |name: &str| place.join(name).to_str().unwrap().to_owned();
    let demo = "X:1\nT:Low Tide\nM:6/8\nL:1/8\nK:Ador\nE | A2B c2d | e2d c2B | A3 G3 | A3 A2 |]\n";
    std::fs::write(path("tune.abc"), demo).unwrap();
    let mut from = "tune.abc";
    for to in ["tune.musicxml", "tune.mxl", "again.abc", "tune.mid", "heard.abc"] {
        let output = run(&["convert", &path(from), "-o", &path(to)], None);
        assert_eq!(code(&output), 0, "{to}: {}", err(&output));
        assert!(out(&output).contains(to), "{}", out(&output));
        from = to;
        // Whatever its name, a file is told by what it holds.
        std::fs::copy(path(to), path("anything.abc")).unwrap();
        let found = run(&["find", &path("anything.abc"), "--json"], None);
        let answer: serde_json::Value = serde_json::from_str(&out(&found)).unwrap();
        assert_eq!((&answer["home"], &answer["mode"]), (&"A".into(), &"dorian".into()), "{to}");
        assert_eq!(answer["title"], "Low Tide", "{to}");
    }
    // Beams stay; that crotchets stood close to their quavers is no part of a score.
    let again = std::fs::read_to_string(path("again.abc")).unwrap();
    assert_eq!(again, demo.replace("2B", "2 B").replace("2d", "2 d"));
    // A score is moved too, and comes out as ABC.
    let moved = run(&["transpose", &path("tune.mxl"), "--to", "E"], None);
    assert!(out(&moved).contains("K:Edor\nB, | E2 F G2 A |"), "{}", out(&moved));
    let heard = std::fs::read_to_string(path("heard.abc")).unwrap();
    assert!(heard.contains("E | A2 B c2 d |"), "{heard}");
    // A name without a format is refused, and a book where one tune is wanted.
    let book = format!("{demo}\nX:2\nT:Two\nK:G\nGAB|\n");
    std::fs::write(path("book.abc"), book).unwrap();
    let mut told = String::new();
    for (from, to, more) in [
        ("tune.abc", "tune.pdf", vec![]),
        ("tune.abc", "no-folder/tune.abc", vec![]),
        ("book.abc", "book.mid", vec![]),
        ("book.abc", "book.mid", vec!["--tune", "3"]),
        ("nowhere.abc", "x.abc", vec![]),
    ] {
        let (input, output) = (path(from), path(to));
        let mut args = vec!["convert", &input, "-o", &output];
        args.extend(&more);
        let output = run(&args, None);
        assert_eq!((code(&output), out(&output)), (2, String::new()), "{from} to {to}");
        let tidy = err(&output).replace(place.to_str().unwrap(), "FOLDER");
        told.push_str(&format!("$ modewright convert {from} -o {to} {}\n{tidy}\n", more.join(" ")));
    }
    golden("convert-refused.txt", &told);
    let second = run(&["convert", &path("book.abc"), "-o", &path("two.mid"), "--tune", "2"], None);
    assert_eq!(code(&second), 0, "{}", err(&second));
    let whole = run(&["convert", &path("book.abc"), "-o", &path("whole.abc")], None);
    assert!(out(&whole).contains("2 tunes"));
}

#[test]
fn instruments_are_listed_and_shown() {
    let list = run(&["instruments"], None);
    assert_eq!((code(&list), err(&list)), (0, String::new()));
    assert!(out(&list).contains("tin-whistle-d"));
    golden("instruments-whistle.txt", &out(&run(&["instruments", "tin-whistle-d"], None)));
    let json = run(&["instruments", "tin whistle in D", "--json"], None);
    let answer: serde_json::Value = serde_json::from_str(&out(&json)).unwrap();
    let whistle = &answer["instruments"][0];
    assert_eq!((&whistle["lowest"], &whistle["written_to_sounding"]), (&"D4".into(), &12.into()));
    assert_eq!(whistle["sounding_lowest"], "D5");
}

#[test]
fn an_instrument_of_ones_own_is_a_file() {
    let place = folder("own-instruments");
    let mine = place.join("mine.json");
    let voice = |more: &str| {
        format!("{{\"format\": 1, \"id\": \"my-voice\", \"name\": \"my voice\"{more}}}")
    };
    std::fs::write(&mine, voice(", \"range\": [\"D4\", \"A4\"]")).unwrap();
    let shown = run(&["instruments", mine.to_str().unwrap(), "--json"], None);
    assert!(out(&shown).contains("my voice"), "{}", err(&shown));
    // C sharp lies above this voice: told, and the exit status says so.
    let sung = run(&["fingering", "-", "--on", mine.to_str().unwrap()], Some("X:1\nK:D\nDFAc|\n"));
    assert_eq!(code(&sung), 1);
    assert!(out(&sung).contains("C♯5 is not on it; it stands in bar 1."), "{}", out(&sung));
    let both = place.join("both.json");
    let range = ", \"range\": [\"D4\", \"A4\"]";
    let two = format!("[{}, {}]", voice(range), voice(range).replace("my-", "her-"));
    std::fs::write(&both, two).unwrap();
    let name = both.to_str().unwrap();
    let one = run(&["fingering", "--on", &format!("{name}:her-voice"), "--json"], None);
    assert!(out(&one).contains("\"instrument\":\"her-voice\""), "{}", err(&one));

    let bad = place.join("bad.json");
    std::fs::write(&bad, voice(",\n \"range\": [\"D4\", \"H4\"]")).unwrap();
    let mut told = String::new();
    for args in [
        &["instruments", "tin whistel"][..],
        &["instruments", "concertina"],
        &["instruments", ""],
        &["instruments", "no-such-file.json"],
        &["instruments", bad.to_str().unwrap()],
        &["fingering", "--on", "kazoo"],
        &["fingering", "--on", name],
        &["fingering", "--on", &format!("{name}:his-voice")],
        &["fingering", "--on", "melodeon-d-g", "--style", "sideways"],
        &["fingering", "--on", "fiddle", "no-such-file.abc"],
        &["fingering", "--on", "fiddle", "--to", "D", "--by", "2"],
        &["fingering", "--on", "fiddle", "--to", "H"],
        &["fingering", "--on", "fiddle", "--by", "far"],
        &["fingering", "--on", "fiddle", "--picture", "neck.png"],
        &["fingering"],
    ] {
        let output = run(args, None);
        assert_eq!((code(&output), out(&output)), (2, String::new()), "{args:?}");
        let text = format!("$ modewright {}\n{}\n", args.join(" "), err(&output));
        told.push_str(&text.replace(&format!("{}/", place.display()), ""));
    }
    golden("wrong-instruments.txt", &told);
}

#[test]
fn fingering() {
    golden("help-instruments.txt", &out(&run(&["instruments", "--help"], None)));
    golden("help-fingering.txt", &out(&run(&["fingering", "--help"], None)));
    let output = run(&["fingering", "--on", "melodeon-d-g"], None);
    golden("fingering-demo.txt", &out(&output));
    // The demo has C sharps, which the rows of D and G have above middle C alone.
    assert_eq!(code(&output), 0, "{}", out(&output));
    let tune = format!("{DEMOS}/ebb-at-lantern-quay.abc");
    let moved = |args: &[&str]| {
        let mut all = vec!["fingering", &tune, "--on", "anglo-20-c-g", "--json"];
        all.extend(args);
        let output = run(&all, None);
        let answer: serde_json::Value = serde_json::from_str(&out(&output)).unwrap();
        (code(&output), answer)
    };
    // No C sharp on two rows; a tone lower, in D Dorian, all is there.
    assert_eq!(moved(&[]).0, 1);
    let (status, answer) = moved(&["--to", "D dorian"]);
    assert_eq!(
        (status, &answer["moved"], &answer["notes"][0]["pitch"]),
        (0, &(-2).into(), &"C4".into())
    );
    assert_eq!(moved(&["--by", "-2"]).1["notes"], answer["notes"]);
    // A move keeps the mode.
    let other = run(&["fingering", &tune, "--on", "fiddle", "--to", "D major"], None);
    assert_eq!(code(&other), 1);
    assert!(err(&other).contains("hint:"), "{}", err(&other));
    let empty = run(&["fingering", "-", "--on", "fiddle"], Some(""));
    assert!(!err(&empty).contains("panicked"));
    let chords = run(&["fingering", &tune, "--on", "anglo-30-c-g", "--harmony"], None);
    assert!(out(&chords).contains("(+ "), "{}", out(&chords));
}

#[test]
fn an_instrument_is_drawn_with_the_notes_of_one_tune() {
    let place = folder("drawn");
    let file = place.join("buttons.svg");
    let name = file.to_str().unwrap();
    let tune = format!("{DEMOS}/five-oars.abc");
    let drawn = run(&["fingering", &tune, "--on", "anglo-20-c-g", "--picture", name], None);
    assert_eq!(code(&drawn), 0, "{}", err(&drawn));
    let picture = std::fs::read_to_string(&file).unwrap();
    golden("picture-anglo.svg", &picture);
    assert!(picture.contains("spot home") && picture.contains("left hand"));
    // One picture shows one tune; what was there stays.
    let two = format!("{DEMOS}/the-ferry-bell.abc");
    let refused = run(&["fingering", &tune, &two, "--on", "fiddle", "--picture", name], None);
    assert_eq!(code(&refused), 2);
    assert!(err(&refused).contains("hint: name a file with one tune"), "{}", err(&refused));
    assert_eq!(std::fs::read_to_string(&file).unwrap(), picture);
}

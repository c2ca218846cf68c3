//! The commands `transpose` and `fit`, run as a user runs them.

use modewright_tests::golden;
use std::io::Write;
use std::process::{Command, Output, Stdio};

const EBB: &str = "../lesson/demo/ebb-at-lantern-quay.abc";
const KEEL: &str = "../lesson/demo/keel-on-the-shingle.abc";

fn run(args: &[&str], input: &[u8]) -> (i32, Vec<u8>, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_modewright"));
    command.args(args).env("NO_COLOR", "1").current_dir(env!("CARGO_MANIFEST_DIR"));
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().expect("the command starts");
    let mut pipe = child.stdin.take().expect("a pipe");
    // A command that refuses its arguments does not read.
    let _ = pipe.write_all(input);
    drop(pipe);
    let Output { status, stdout, stderr } = child.wait_with_output().expect("it ends");
    let told = String::from_utf8(stderr).expect("UTF-8");
    (status.code().expect("no signal"), stdout, told)
}

fn text(args: &[&str], input: &[u8]) -> (i32, String, String) {
    let (code, out, told) = run(args, input);
    (code, String::from_utf8(out).expect("UTF-8"), told)
}

#[test]
fn help_teaches() {
    golden("help-transpose.txt", &text(&["transpose", "--help"], b"").1);
    golden("help-fit.txt", &text(&["fit", "--help"], b"").1);
}

#[test]
fn a_book_keeps_every_byte_but_its_notes_and_keys() {
    let book = "\u{feff}%abc-2.1\r\n% notes: ABC\r\nM:6/8\r\n\r\nX:1\r\nT:Café\r\nK:Em % home\r\n\
        EFG \"Em\"B2e|]\r\nw: A B C\r\n\r\nWords between: ABC.\r\n\r\nX:2\r\nK:G\r\nGAB|";
    let (code, out, told) = text(&["transpose", "-", "--by", "2"], book.as_bytes());
    let wanted = book
        .replace("K:Em", "K:F#m")
        .replace("EFG \"Em\"B2e", "FGA \"F#m\"c2f")
        .replace("K:G\r\nGAB", "K:A\r\nABc");
    assert_eq!((code, out.as_str()), (0, wanted.as_str()), "{told}");
    assert!(told.contains("Café: "));
    // Nothing asked for is nothing changed.
    assert_eq!(text(&["transpose", "-", "--by", "0"], book.as_bytes()).1, book);
}

#[test]
fn there_and_back_is_the_same_file() {
    for demo in [EBB, KEEL] {
        let old = std::fs::read(format!("{}/{demo}", env!("CARGO_MANIFEST_DIR"))).unwrap();
        let (_, there, _) = run(&["transpose", demo, "--by", "m3"], b"");
        assert_ne!(there, old);
        let (code, back, _) = run(&["transpose", "-", "--by", "-m3"], &there);
        assert_eq!((code, back), (0, old));
    }
}

#[test]
fn a_home_an_interval_and_an_instrument() {
    let mut told = String::new();
    for args in [
        &["--to", "D"][..],
        &["--to", "d dor"],
        &["--to", "D major"],
        &["--to", "G# dorian"],
        &["--by", "-2"],
        &["--by", "P8"],
        &["--by", "100"],
        &["--for", "anglo-20-c-g"],
        &["--for", "Highland pipes"],
        &["--to", "E", "--for", "highland-pipes", "--fold"],
        &["--by", "5", "--for", "highland-pipes"],
    ] {
        let (code, out, err) = text(&[&["transpose", EBB], args].concat(), b"");
        let tune: Vec<&str> = out.lines().filter(|line| !line.contains("vented")).collect();
        let line = format!("$ modewright transpose {}\n{}", args.join(" "), err);
        told.push_str(&format!("{line}status {code}\n{}\n\n", tune[6..].join("\n")));
    }
    golden("transpose.txt", &told);
}

#[test]
fn letters_come_out_as_abc() {
    let (code, out, _) = text(&["transpose", "-", "--by", "P4"], b"D E F# G | A2 B c#\n");
    assert_eq!((code, out.as_str()), (0, "X:1\nM:none\nL:1/4\nK:G\nG A B c | d2 e f\n"));
}

#[test]
fn fit_reports() {
    golden("fit.txt", &text(&["fit", EBB, "--on", "anglo-20-c-g"], b"").1);
    let (code, out, _) = text(&["fit", EBB, "--on", "fiddle,tin-whistle-d,highland-pipes"], b"");
    golden("fit-several.txt", &out);
    assert_eq!(code, 0);
    let (code, out, _) = text(&["fit", KEEL, "--on", "tin-whistle-d"], b"");
    assert_eq!(code, 1);
    golden("fit-nearest.txt", &out);
    let (code, out, _) = text(&["fit", "--on", "fiddle"], b"");
    assert_eq!(code, 0);
    assert!(out.contains("invented"));
}

#[test]
fn fit_answers_programs() {
    let (code, out, _) = text(&["fit", EBB, KEEL, "--on", "fiddle,tin-whistle-d", "--json"], b"");
    let answers: Vec<serde_json::Value> =
        out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!((code, answers.len()), (0, 4));
    assert_eq!(answers[1]["instrument"]["id"], "tin-whistle-d");
    assert_eq!(answers[1]["verdict"], "as_written");
    assert_eq!(answers[1]["transpositions"][0]["sounding_lowest"], "D5");
    assert_eq!(answers[3]["verdict"], "folded");
}

#[test]
fn instruments_of_ones_own() {
    let folder = std::path::PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("own-instruments");
    std::fs::create_dir_all(&folder).unwrap();
    let file = folder.join("mine.json");
    let voice = r#"{"format": 1, "id": "my-voice", "name": "my voice", "range": ["A3", "D6"]}"#;
    std::fs::write(&file, voice).unwrap();
    let path = file.to_str().unwrap();
    let (code, out, told) = text(&["fit", EBB, "--own", path], b"");
    assert!(out.contains("on my voice") && code == 0, "{out}{told}");
    let (_, out, _) = text(&["fit", EBB, "--own", path, "--on", "my-voice,fiddle", "--json"], b"");
    assert_eq!(out.lines().count(), 2);
    let (code, _, told) = text(&["transpose", EBB, "--for", path], b"");
    assert_eq!(code, 0, "{told}");
    std::fs::write(&file, voice.replace("D6", "H5")).unwrap();
    let (code, _, told) = text(&["fit", EBB, "--own", path], b"");
    assert!(code == 2 && told.contains("H5"), "{told}");
}

#[test]
fn what_cannot_be_is_told_with_a_way_out() {
    let mut told = String::new();
    for args in [
        &["transpose", EBB][..],
        &["transpose", EBB, "--to", "D", "--by", "2"],
        &["transpose", EBB, "--to", "H"],
        &["transpose", EBB, "--by", "much"],
        &["transpose", EBB, "--by", "99999999"],
        &["transpose", EBB, "--by", "2", "--fold"],
        &["transpose", EBB, "--for", "tin whistel"],
        &["transpose", EBB, "--for", "tin whistle"],
        &["transpose", "no-such-file.abc", "--by", "2"],
        &["transpose", "--by", "2"],
        &["fit", EBB],
        &["fit", EBB, "--on", "kazoo"],
        &["fit", EBB, "--own", "no-such-file.json"],
        &["fit", EBB, "--on", ""],
    ] {
        let (code, out, err) = text(args, b"");
        assert_eq!((code, out.as_str()), (2, ""), "{args:?}");
        let shown: Vec<&str> = args.iter().map(|a| a.rsplit('/').next().unwrap()).collect();
        told.push_str(&format!("$ modewright {}\n{err}\n", shown.join(" ")));
    }
    golden("wrong-moves.txt", &told);
}

#[test]
fn odd_input_never_panics() {
    let long = "X:1\nK:D\n".to_owned() + &"A".repeat(100_000);
    for input in ["", "\u{feff}", "X:", "K:", "|||||", "é♯♭", "X:1\nK:C\nC,,,,,,,,,,,,|\n", &long]
    {
        for args in [
            &["transpose", "-", "--by", "2"][..],
            &["transpose", "-", "--to", "E"],
            &["transpose", "-", "--for", "tin-whistle-d", "--fold"],
            &["fit", "-", "--on", "tin-whistle-d"],
            &["fit", "-", "--on", "tin-whistle-d", "--json"],
        ] {
            let (code, _, told) = run(args, input.as_bytes());
            assert!(matches!(code, 0 | 1) && !told.contains("panicked"), "{input:.20} {told}");
        }
    }
    let (code, _, told) = run(&["transpose", "-", "--by", "2"], b"MThd\0\0\0\x06\0\0");
    assert!(code == 2 && told.contains("MIDI"), "{told}");
}

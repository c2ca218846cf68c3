//! Files of other programs through the real command: which melody is read, and rows under notes.

mod run;

use run::{code, err, folder, out, run};
use std::path::Path;

/// A score of two parts: a melody in E Dorian, and a drone.
const DUET: &str = r#"<score-partwise version="4.0">
<part-list>
<score-part id="P1"><part-name>Whistle</part-name></score-part>
<score-part id="P2"><part-name>Fiddle</part-name></score-part>
</part-list>
<part id="P1"><measure number="1"><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
<note><pitch><step>D</step><octave>5</octave></pitch><duration>4</duration></note></measure></part>
<part id="P2"><measure number="1"><attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>
<note><pitch><step>G</step><octave>4</octave></pitch><duration>1</duration></note>
<note><pitch><step>A</step><octave>4</octave></pitch><duration>1</duration></note>
<note><pitch><step>B</step><octave>4</octave></pitch><duration>1</duration></note>
<note><pitch><step>G</step><octave>4</octave></pitch><duration>1</duration></note></measure></part>
</score-partwise>"#;

const VOICES: &str = "X:1\nT:Two\nM:4/4\nL:1/4\nK:G\nV:one\nd4|]\nV:two\nGABG|]\n";

/// A MIDI file of two tracks with names, as bytes.
fn tracks() -> Vec<u8> {
    let track = |name: &str, keys: &[u8]| {
        let mut events = vec![0, 0xff, 3, u8::try_from(name.len()).expect("short")];
        events.extend(name.bytes());
        for &key in keys {
            events.extend([0, 0x90, key, 64, 96, 0x80, key, 0]);
        }
        events.extend([0, 0xff, 0x2f, 0]);
        let mut chunk = b"MTrk".to_vec();
        chunk.extend(u32::try_from(events.len()).expect("short").to_be_bytes());
        chunk.extend(events);
        chunk
    };
    let mut file = b"MThd\0\0\0\x06\0\x01\0\x02\0\x60".to_vec();
    file.extend(track("Whistle", &[74, 74, 74, 74]));
    file.extend(track("Fiddle", &[67, 69, 71, 67]));
    file
}

/// The three files, each with what chooses its second melody and what to say of it.
fn several(place: &Path) -> Vec<(String, [&'static str; 2], &'static str)> {
    let path = |name: &str| place.join(name).to_str().expect("a file").to_owned();
    std::fs::write(path("duet.musicxml"), DUET).expect("a file");
    std::fs::write(path("voices.abc"), VOICES).expect("a file");
    std::fs::write(path("tracks.mid"), tracks()).expect("a file");
    vec![
        (path("duet.musicxml"), ["--part", "Fiddle"], "of which Fiddle is read"),
        (path("voices.abc"), ["--voice", "two"], "of which two is read"),
        (path("tracks.mid"), ["--track", "Fiddle"], "of which Fiddle is read"),
    ]
}

#[test]
fn every_command_reads_the_melody_that_is_asked_for_and_says_which() {
    let place = folder("several");
    let new = place.join("new.abc").to_str().unwrap().to_owned();
    let wave = place.join("new.wav").to_str().unwrap().to_owned();
    for (file, choice, words) in several(&place) {
        let commands: [&[&str]; 8] = [
            &["find", &file],
            &["count", &file],
            &["fit", &file, "--on", "fiddle"],
            &["fingering", &file, "--on", "fiddle"],
            &["lesson", &file],
            &["transpose", &file, "--by", "12"],
            &["convert", &file, "-o", &new],
            &["sound", &file, "-o", &wave],
        ];
        for args in commands {
            let mut all = args.to_vec();
            // `--voice` of sound is what it is played with.
            let line = args[0] == "sound" && choice[0] == "--voice";
            all.extend(if line { ["--line", choice[1]] } else { choice });
            let output = run(&all, None);
            assert!(code(&output) < 2, "{all:?}: {}", err(&output));
            let told = format!("{}{}", out(&output), err(&output));
            let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(told.contains(words), "{all:?}: {told}");
            let plain = run(args, None);
            let other = format!("{}{}", out(&plain), err(&plain));
            let other = other.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(other.contains("is read") && !other.contains(words), "{args:?}: {other}");
        }
        let moved = run(&[&["transpose", &file, "--by", "12"], &choice[..]].concat(), None);
        assert!(out(&moved).replace(' ', "").contains("gabg"), "{}", out(&moved));
    }
    // What is not there is said, with what is.
    let harp = run(&["fit", "-", "--on", "fiddle", "--part", "harp"], Some(DUET));
    assert!(err(&harp).contains("the parts are Whistle and Fiddle"), "{}", err(&harp));
}

#[test]
fn rows_of_the_lesson_go_into_scores_and_into_abc() {
    let place = folder("rows");
    let path = |name: &str| place.join(name).to_str().unwrap().to_owned();
    let tune = "X:1\nT:Low Tide\nM:3/4\nL:1/4\nK:Edor\nE | E F G | B2 B | E3 |]\nw:a lamp is lit to-night be\n";
    std::fs::write(path("tune.abc"), tune).unwrap();
    let convert = |to: &str, more: &[&str]| {
        let (from, to) = (path("tune.abc"), path(to));
        run(&[&["convert", &from, "-o", &to], more].concat(), None)
    };
    let rows = ["--rows", "count,degree,note,fingering,words", "--on", "tin-whistle-d"];
    let output = convert("tune.musicxml", &rows);
    assert_eq!((code(&output), err(&output)), (0, String::new()));
    let score = std::fs::read_to_string(path("tune.musicxml")).unwrap();
    for verse in [
        "<lyric number=\"1\">",
        "<lyric number=\"2\" name=\"count\">",
        "<lyric number=\"3\" name=\"degree\">",
        "<lyric number=\"4\" name=\"note\">",
        "<lyric number=\"5\" name=\"fingering\">",
        "<text>1 (2)</text>",
        "<text>F♯</text>",
        "<text>●●●●○○</text>",
    ] {
        assert!(score.contains(verse), "{verse}: {score}");
    }
    // A score with rows is the same tune, and reads back with all of them.
    let back = run(&["convert", &path("tune.musicxml"), "-o", &path("back.abc")], None);
    assert_eq!(code(&back), 0, "{}", err(&back));
    assert_eq!(code(&convert("rows.abc", &rows)), 0);
    let (back, rows_in_abc) = (
        std::fs::read_to_string(path("back.abc")).unwrap(),
        std::fs::read_to_string(path("rows.abc")).unwrap(),
    );
    let words = |text: &str| {
        text.lines().filter(|line| line.starts_with("w:")).map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(words(&back), words(&rows_in_abc));
    assert_eq!(
        words(&back)[1..4],
        ["w:3 1 2 3 1~(2) 3 1~(2)~(3)", "w:1 1 2 3 5 5 1", "w:E E F♯ G B B E"]
    );
    // MIDI has no lines of words, a fingering needs an instrument.
    let refused = convert("tune.mid", &["--rows", "count"]);
    assert_eq!(code(&refused), 2);
    assert!(err(&refused).contains("write .musicxml, .mxl or .abc"), "{}", err(&refused));
    assert!(!place.join("tune.mid").exists());
    let bare = convert("bare.mxl", &["--rows", "fingering"]);
    assert_eq!(code(&bare), 0);
    assert!(err(&bare).contains("name the instrument by the option `on`"), "{}", err(&bare));
    assert_eq!(code(&convert("x.abc", &["--on", "fiddle"])), 2, "an instrument without rows");
}

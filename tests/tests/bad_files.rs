//! Files that are broken, hostile or something else: each gets its code, in bounded time.

#![expect(clippy::unwrap_used, reason = "helpers of tests, where a panic is the answer")]

use modewright_formats::source::Tunes;
use modewright_formats::{ReadOptions, musicxml, read};
use std::time::{Duration, Instant};

/// What is told of a file: the code of its refusal, or the codes of its problems.
fn told(bytes: &[u8]) -> Vec<&'static str> {
    let begun = Instant::now();
    let mut codes = Vec::new();
    for text in Tunes::new(bytes) {
        match text {
            Ok(text) => {
                let reading = read(&text, &ReadOptions::default());
                codes.extend(reading.problems.iter().map(|p| p.kind.code()));
            }
            Err(error) => codes.push(error.code()),
        }
    }
    // Milliseconds on a quiet machine; what is not bounded takes minutes.
    assert!(begun.elapsed() < Duration::from_secs(30), "{:?}", begun.elapsed());
    codes
}

fn part(measures: &str) -> String {
    format!("<score-partwise version=\"4.0\"><part id=\"P1\">{measures}</part></score-partwise>")
}

fn measure(inner: &str) -> String {
    part(&format!("<measure number=\"1\">{inner}</measure>"))
}

fn note(step: &str, duration: &str) -> String {
    format!(
        "<note><pitch><step>{step}</step><octave>4</octave></pitch><duration>{duration}</duration></note>"
    )
}

/// Text in UTF-16.
fn wide(text: &str, big: bool, mark: bool) -> Vec<u8> {
    let units = mark.then_some(0xfeff).into_iter().chain(text.encode_utf16());
    units.flat_map(|u: u16| if big { u.to_be_bytes() } else { u.to_le_bytes() }).collect()
}

/// A MIDI file of one track; `ticks` are those of a crotchet.
fn midi(ticks: u16, track: &[u8]) -> Vec<u8> {
    let mut file = b"MThd\0\0\0\x06\0\0\0\x01".to_vec();
    file.extend(ticks.to_be_bytes());
    file.extend(b"MTrk");
    file.extend(u32::try_from(track.len()).unwrap().to_be_bytes());
    file.extend(track);
    file
}

#[test]
fn each_bad_file_has_its_code() {
    let good = measure(&note("D", "4"));
    let bomb = format!(
        "<?xml version=\"1.0\"?><!DOCTYPE score-partwise [<!ENTITY a \"lol\">{}]>{}",
        (0..10).map(|i| format!("<!ENTITY b{i} \"&a;&a;&a;&a;\">")).collect::<String>(),
        measure("&b9;")
    );
    let outside = format!(
        "<?xml version=\"1.0\"?><!DOCTYPE s [<!ENTITY x SYSTEM \"file:///etc/hostname\">]>{}",
        measure("&x;")
    );
    let packed = musicxml::pack(&good);
    let mut cut = packed.clone();
    cut.truncate(packed.len() / 2);
    let mut no_score = musicxml::pack("");
    // The names of the score become names of something else.
    for at in 0..no_score.len() {
        if no_score[at..].starts_with(b"score.musicxml") {
            no_score[at..at + 14].copy_from_slice(b"score.picture1");
        }
    }
    let sounding = [0, 0x90, 60, 80, 0x60, 0x80, 60, 0, 0, 0xff, 0x2f, 0];
    let mut late = Vec::new();
    for _ in 0..40 {
        late.extend([0xff, 0xff, 0xff, 0x7f, 0xff, 0x01, 0x00]);
    }
    late.extend(sounding);
    let text = |text: &str| text.as_bytes().to_vec();
    let table: Vec<(&str, Vec<u8>, &[&str])> = vec![
        ("a truncated score", text(&good[..good.len() - 20]), &["xml-not-well-formed"]),
        ("a score that ends in a tag", text(&good[..60]), &["xml-not-well-formed"]),
        ("an entity bomb", text(&bomb), &["xml-entities"]),
        ("an entity from outside", text(&outside), &["xml-entities"]),
        ("an entity that nobody defines", text(&measure("&nope;")), &["xml-entities"]),
        (
            "a web page as XML",
            text("<?xml version=\"1.0\"?><html><body/></html>"),
            &["xml-not-a-score"],
        ),
        ("a picture as XML", text("<?xml version=\"1.0\"?><svg/>"), &["xml-not-a-score"]),
        ("an opus of many scores", text("<?xml version=\"1.0\"?><opus/>"), &["xml-not-a-score"]),
        ("an empty score", text("<score-partwise version=\"4.0\"/>"), &["no-notes"]),
        ("a version to come", text(&good.replace("4.0", "9.5")), &["xml-version-unknown"]),
        ("no version at all", text(&good.replace(" version=\"4.0\"", "")), &[]),
        ("UTF-16 with a mark", wide(&good, true, true), &[]),
        ("UTF-16 the other way round", wide(&good, false, true), &[]),
        (
            "UTF-16 without a mark",
            wide(&format!("<?xml version=\"1.0\" encoding=\"UTF-16\"?>{good}"), false, false),
            &[],
        ),
        (
            "Latin-1",
            [b"<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><!-- \xe9 -->", good.as_bytes()]
                .concat(),
            &["latin-1"],
        ),
        ("zero bytes in XML", text(&good.replace("><note>", ">\0<note>")), &["not-text"]),
        (
            "no divisions",
            text(&measure(&format!(
                "<attributes><divisions>0</divisions></attributes>{}",
                note("D", "1")
            ))),
            &["divisions-not-understood"],
        ),
        (
            "absurd divisions",
            text(&measure(&format!(
                "<attributes><divisions>99999999999</divisions></attributes>{}",
                note("D", "1")
            ))),
            &["divisions-not-understood"],
        ),
        (
            "absurd lengths",
            text(&measure(&note("D", "999999999").repeat(20))),
            &["duration-missing", "no-notes"],
        ),
        (
            "a length that is none",
            text(&measure(&note("D", "-4"))),
            &["duration-missing", "no-notes"],
        ),
        (
            "a pitch that is none",
            text(&measure(&note("H", "4"))),
            &["no-notes", "pitch-not-understood"],
        ),
        (
            "a bar that goes back too far",
            text(&measure(&format!("<backup><duration>9</duration></backup>{}", note("D", "4")))),
            &["backup-too-far"],
        ),
        (
            "an impossible signature",
            text(&measure(&format!(
                "<attributes><key><fifths>12</fifths></key></attributes>{}",
                note("D", "4")
            ))),
            &["signature-not-understood"],
        ),
        (
            "an unknown mode",
            text(&measure(&format!(
                "<attributes><key><fifths>0</fifths><mode>blue</mode></key></attributes>{}",
                note("D", "4")
            ))),
            &["mode-unknown"],
        ),
        (
            "an impossible metre",
            text(&measure(&format!(
                "<attributes><time><beats>4</beats><beat-type>5</beat-type></time></attributes>{}",
                note("D", "4")
            ))),
            &["time-not-understood"],
        ),
        ("a truncated archive", cut, &["mxl-not-readable"]),
        ("an archive without a score", no_score, &["mxl-without-score"]),
        ("an archive that is none", text("PK\x03\x04 is how it begins"), &["mxl-not-readable"]),
        ("a zip bomb", musicxml::pack(&" ".repeat(33 << 20)), &["xml-too-large"]),
        (
            "a tag with very many attributes",
            text(&measure(&format!(
                "<a{}/>",
                (0..100_000).map(|i| format!(" a{i}=''")).collect::<String>()
            ))),
            &["xml-not-well-formed"],
        ),
        (
            "very many namespaces",
            text(&measure(
                &(0..5000).map(|i| format!("<a xmlns:a{i}='a{i}'>")).collect::<String>(),
            )),
            &["xml-not-well-formed"],
        ),
        ("very deep elements", text(&measure(&"<a>".repeat(100_000))), &["xml-not-well-formed"]),
        (
            "a MIDI file that is only a head",
            text("MThd\0\0\0\x06\0\0\0\x01\0\x60"),
            &["midi-truncated", "no-notes"],
        ),
        ("half a head", text("MThd\0\0"), &["midi-not-readable"]),
        ("a MIDI file without time", midi(0, &sounding), &["midi-ticks"]),
        (
            "a truncated MIDI file",
            midi(96, &sounding)[..26].to_vec(),
            &["midi-truncated", "notes-never-end"],
        ),
        ("time in seconds", midi(0xe728, &sounding), &["midi-timecode"]),
        ("centuries of silence", midi(1, &late), &["midi-too-long", "no-notes"]),
        (
            "a note without end",
            midi(96, &[0, 0x90, 60, 80, 0x60, 0xff, 0x2f, 0]),
            &["notes-never-end"],
        ),
        (
            "an impossible MIDI metre",
            midi(96, &[&[0, 0xff, 0x58, 4, 0, 40, 24, 8], &sounding[..]].concat()),
            &["midi-metre"],
        ),
        (
            "an impossible MIDI key",
            midi(96, &[&[0, 0xff, 0x59, 2, 9, 0], &sounding[..]].concat()),
            &["midi-key"],
        ),
        (
            "drums alone",
            midi(96, &[0, 0x99, 60, 80, 0x60, 0x89, 60, 0, 0, 0xff, 0x2f, 0]),
            &["no-notes"],
        ),
        ("a PDF file", text("%PDF-1.7\n"), &["other-file-type"]),
        ("a picture", b"\x89PNG\r\n\x1a\n\0\0".to_vec(), &["other-file-type"]),
        ("a gzip file", b"\x1f\x8b\x08\0".to_vec(), &["other-file-type"]),
        ("a web page", text("<!DOCTYPE html><html></html>"), &["other-file-type"]),
    ];
    let mut wrong = String::new();
    for (name, bytes, wanted) in table {
        let codes = told(&bytes);
        if codes != wanted {
            wrong.push_str(&format!("{name}: {codes:?}, not {wanted:?}\n"));
        }
    }
    assert_eq!(wrong, "");
}

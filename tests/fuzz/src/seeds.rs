//! Where the damage begins: our own tunes and files, and the tunes of books where they are given.

use modewright_core::Tune;
use modewright_formats::instrument::builtin;
use modewright_formats::source::{TuneText, split};
use modewright_formats::{ReadOptions, abc as abc_format, midi as midi_format, musicxml as score};
use modewright_lesson::demo;

/// Tunes of books that stay as they are.
const TUNES: usize = 500;

/// Tunes of books that become scores and MIDI files; more would crowd out our own.
const SCORES: usize = 60;

/// ABC: the demo tunes, odd files, the cases of the standard, the books.
pub(crate) fn abc(books: &[String]) -> Vec<Vec<u8>> {
    let mut all: Vec<String> = demo::TUNES.iter().map(|demo| demo.abc.to_owned()).collect();
    for name in [
        "double-spaced",
        "mail",
        "no-header",
        "old-style",
        "pasted-twice",
        "two-voices",
        "windows",
        "word-processor",
    ] {
        let bytes = std::fs::read(modewright_tests::path(&format!("fixtures/abc/{name}.abc")));
        all.push(String::from_utf8_lossy(&bytes.unwrap_or_default()).into_owned());
    }
    strings(&modewright_tests::json("reference/abc-cases.json"), "abc", &mut all);
    let every = books.len().div_ceil(TUNES).max(1);
    all.extend(books.iter().step_by(every).cloned());
    all.into_iter().map(String::into_bytes).collect()
}

/// Letters: tunes spelled out, and messages that hold them.
pub(crate) fn letters(_: &[String]) -> Vec<Vec<u8>> {
    let mut all: Vec<String> = Vec::new();
    for demo in demo::TUNES {
        let tune = read(demo.abc);
        let mut line = format!("{}\n\n", demo.id);
        for (i, bar) in (0..tune.bars.len()).enumerate() {
            for event in tune.events_of(bar) {
                let name = event.sound.pitch().map_or("z".to_owned(), |p| p.spelling().to_string());
                line.push_str(&name);
                line.push(' ');
            }
            line.push_str(if i % 4 == 3 { "|\n" } else { "| " });
        }
        all.push(line);
    }
    all.extend(
        [
            "D E F# G A B c# d",
            "Key: E dorian\nMetre: 6/8\n\nA part:\nE F# G | A2 B | c# d e | d3 x2\n\nB part:\ne e d | B A G :|",
            "low D - E - F sharp - G, then high d and rest",
            "Tune: Slack Water\n1. G A B c (x2)\n2. d c B A G-G z\n",
            "D4 E4 F#4 G4 A4 B4 C#5 D5",
            "> D E F G\n> A B c d\n\nsee you at the boathouse",
            "G/A/B/ c2 d4 e'3/2 b,,",
        ]
        .map(str::to_owned),
    );
    all.into_iter().map(String::into_bytes).collect()
}

/// Scores: the demo tunes and the cases of the standard, written out, and tunes of the books.
pub(crate) fn musicxml(books: &[String]) -> Vec<Vec<u8>> {
    let cases = modewright_tests::json("reference/musicxml-cases.json");
    let mut all = Vec::new();
    for case in cases["cases"].as_array().map(Vec::as_slice).unwrap_or_default() {
        let measures: Vec<&str> = case["measures"]
            .as_array()
            .map(Vec::as_slice)
            .unwrap_or_default()
            .iter()
            .filter_map(serde_json::Value::as_str)
            .collect();
        all.push(format!(
            "<?xml version=\"1.0\"?><score-partwise version=\"4.0\"><part-list><score-part id=\"P1\">\
             <part-name>Fiddle</part-name></score-part></part-list><part id=\"P1\">{}</part>\
             </score-partwise>",
            measures.concat()
        ));
    }
    all.extend(tunes(books).iter().map(|tune| score::write(tune, &[])));
    all.into_iter().map(String::into_bytes).collect()
}

/// The same, packed.
pub(crate) fn mxl(books: &[String]) -> Vec<Vec<u8>> {
    let texts = musicxml(books).into_iter().step_by(3);
    texts.map(|text| score::pack(&String::from_utf8_lossy(&text))).collect()
}

/// MIDI files of both kinds.
pub(crate) fn midi(books: &[String]) -> Vec<Vec<u8>> {
    use midi_format::FileType::{Parallel, Single};
    let tunes = tunes(books);
    let of = |kind| tunes.iter().map(move |tune| midi_format::write(tune, kind));
    of(Single).chain(of(Parallel)).collect()
}

/// The built-in instruments, and a small one.
pub(crate) fn instruments(_: &[String]) -> Vec<Vec<u8>> {
    let small = "{ \"format\": 1, \"id\": \"my-voice\", \"name\": \"my voice\", \"range\": [\"A3\", \"D5\"] }";
    let files = builtin::FILES.iter().map(|(_, text)| text.as_bytes().to_vec());
    files.chain([small.as_bytes().to_vec()]).collect()
}

fn read(abc: &str) -> Tune {
    let text = split(abc).next().unwrap_or_default();
    abc_format::read(&text, &ReadOptions::default()).tune
}

fn tunes(books: &[String]) -> Vec<Tune> {
    let every = (books.len() / SCORES).max(1);
    let demos = demo::TUNES.iter().map(|demo| read(demo.abc));
    let theirs = books
        .iter()
        .step_by(every)
        .map(|abc| abc_format::read(&TuneText::abc(abc.as_str()), &ReadOptions::default()).tune);
    demos.chain(theirs).collect()
}

/// All strings that stand under a name, however deep.
fn strings(of: &serde_json::Value, name: &str, into: &mut Vec<String>) {
    match of {
        serde_json::Value::Array(list) => list.iter().for_each(|one| strings(one, name, into)),
        serde_json::Value::Object(fields) => {
            for (key, value) in fields {
                match value {
                    serde_json::Value::String(text) if key == name => into.push(text.clone()),
                    deeper => strings(deeper, name, into),
                }
            }
        }
        _ => {}
    }
}

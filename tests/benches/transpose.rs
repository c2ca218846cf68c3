//! Moves every tune of the books by all twelve intervals and reads the new texts again.
//!
//! `transpose books FILE…` fails at the first tune whose new text does not read as the moved
//! tune, whose pitches do not move by the semitones asked for, or whose text changes beyond the
//! letters of notes, keys and chord signs. `cargo xtask` calls it. `transpose notes FILE…` prints
//! the notes of tunes as JSON, for `tests/reference/make_music21_moves.py`.

use modewright_core::Tune;
use modewright_core::transpose::Transposition;
use modewright_formats::source::{Kind, Splitter, TuneText};
use modewright_formats::{ReadOptions, abc, read};
use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        [] => books(&[modewright_tests::path("fixtures/speed.abc").display().to_string()]),
        ["books", files @ ..] => books(files),
        ["notes", files @ ..] => notes(files),
        _ => {
            eprintln!("transpose books FILE…, or transpose notes FILE…");
            ExitCode::from(2)
        }
    }
}

/// What was met so far.
#[derive(Default)]
struct Count {
    tunes: usize,
    notes: usize,
    texts: usize,
    refused: Vec<String>,
}

fn books<S: AsRef<str>>(files: &[S]) -> ExitCode {
    let mut count = Count::default();
    for file in files {
        let file = Path::new(file.as_ref());
        let bytes = std::fs::read(file).unwrap_or_else(|e| panic!("{}: {e}", file.display()));
        for text in Splitter::new(bytes.as_slice()) {
            let text = text.unwrap_or_else(|e| panic!("{}: {e:?}", file.display()));
            if text.kind == Kind::Abc {
                let name = format!("{}, line {}", file.display(), text.first_line);
                tune(&text, &name, &mut count);
            }
        }
    }
    for refused in count.refused.iter().take(20) {
        eprintln!("refused: {refused}");
    }
    println!(
        "{} tunes with {} notes, {} texts moved, {} refused",
        count.tunes,
        count.notes,
        count.texts,
        count.refused.len()
    );
    if count.refused.is_empty() {
        return ExitCode::SUCCESS;
    }
    eprintln!("{} moved texts are not what they should be", count.refused.len());
    ExitCode::FAILURE
}

/// Prints title and pitches of every tune.
fn notes<S: AsRef<str>>(files: &[S]) -> ExitCode {
    let mut tunes = Vec::new();
    for file in files {
        let bytes = std::fs::read(file.as_ref()).unwrap_or_else(|e| panic!("{e}"));
        for text in Splitter::new(bytes.as_slice()) {
            let text = text.unwrap_or_else(|e| panic!("{}: {e:?}", file.as_ref()));
            let tune = read(&text, &ReadOptions::default()).tune;
            let names: Vec<String> = tune.soundings().map(|s| s.pitch.to_string()).collect();
            let title = tune.header.titles.first().cloned();
            tunes.push(serde_json::json!({ "title": title, "notes": names.join(" ") }));
        }
    }
    println!("{}", serde_json::Value::from(tunes));
    ExitCode::SUCCESS
}

/// Moves a tune by every number of semitones from five down to six up.
fn tune(text: &TuneText, name: &str, count: &mut Count) {
    let options = ReadOptions::default();
    let old = read(text, &options);
    count.tunes += 1;
    count.notes += old.tune.soundings().count();
    for semitones in -5..=6 {
        let by = Transposition::by_semitones(&old.tune, semitones);
        match abc::transpose(text, &options, &by) {
            Ok(moved) => {
                let again = read(&moved.text, &options).tune;
                if let Some(why) = fault(&old.tune, &again, semitones) {
                    count.refused.push(format!("{name} by {semitones}: {why}"));
                } else if skeleton(&text.text) != skeleton(&moved.text.text) {
                    count.refused.push(format!("{name} by {semitones}: the text changed"));
                }
                count.texts += 1;
            }
            Err(error) => count.refused.push(format!("{name} by {semitones}: {error}")),
        }
    }
}

/// How a tune fails to be another moved by semitones.
fn fault(old: &Tune, new: &Tune, semitones: i16) -> Option<&'static str> {
    let heights = |tune: &Tune, by: i16| -> Vec<Option<i16>> {
        tune.events.iter().map(|e| e.sound.pitch().map(|p| p.midi() + by)).collect()
    };
    let shape = |tune: &Tune| -> Vec<_> {
        tune.events.iter().map(|e| (e.length, e.at, e.bar, e.tied, e.joined)).collect()
    };
    let mode = |tune: &Tune| -> Vec<_> { tune.keys.iter().map(|key| key.mode).collect() };
    if heights(old, semitones) != heights(new, 0) {
        Some("a note has another height")
    } else if shape(old) != shape(new) {
        Some("a note has another length or place")
    } else if mode(old) != mode(new) {
        Some("a key has another mode")
    } else {
        None
    }
}

/// A text without anything that a move may change: letters of notes, accidentals, octave marks,
/// signs of keys and chords; the key of the pipes, which has no sharps to change; and what an
/// e-mail made of a natural sign.
fn skeleton(text: &str) -> String {
    let may_change = |c: char| matches!(c, 'A'..='G' | 'a'..='g' | '^' | '_' | '=' | '\'' | ',' | '#' | '♯' | '♭');
    let pipes = |line: &str| ["K:HP", "K:Hp", "K:exp"].iter().any(|key| line.starts_with(key));
    let lines = text.replace("=3D", "");
    let lines = lines.split('\n').filter(|line| !pipes(line));
    lines.flat_map(|line| line.chars().filter(|&c| !may_change(c)).chain(['\n'])).collect()
}

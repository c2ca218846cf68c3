//! Every tune of the tune books, written in every format and read again: by ourselves, and a
//! sample of them by programs of others.

use crate::process::{build, capture};
use crate::stage::{Found, Stop};
use crate::{books, place};
use std::path::Path;
use std::process::Command;

pub(crate) fn run(python: &Path) -> Found {
    let words = ["build", "--release", "--package", "modewright-tests", "--example", "round_trips"];
    let program = build("round_trips", &words)?;
    let mut tunes = 0;
    for book in &books::manifest(python)?.books {
        let report = capture(Command::new(&program).args(&book.files)).map_err(Stop::Failed)?;
        println!("{}: {}", book.name, report.trim());
        tunes += book.tunes;
    }
    Ok(format!("{tunes} tunes are the same again"))
}

/// One tune of so many is read by the programs of others, which are slow.
const EVERY: &str = "25";

/// Scores and MIDI files, held against the official schema and read by music21 and mido.
pub(crate) fn other_readers(python: &Path) -> Found {
    let words = ["build", "--release", "--package", "modewright-tests", "--example", "write_files"];
    let program = build("write_files", &words)?;
    let folder = place::target().join("written-files");
    if folder.exists() {
        std::fs::remove_dir_all(&folder)?;
    }
    let mut write = Command::new(&program);
    write.arg(&folder).arg(EVERY);
    for book in &books::manifest(python)?.books {
        write.args(&book.files);
    }
    capture(&mut write).map_err(Stop::Failed)?;
    let script = place::root().join("tests/python/read_files.py");
    let mut read = Command::new(python);
    read.arg(script).arg(&folder);
    crate::process::run(&mut read)?;
    Ok("the schema, music21 and mido find what was written".to_owned())
}

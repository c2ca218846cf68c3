//! Every tune of the tune books, written in every format and read again.

use crate::books;
use crate::process::{build, capture};
use crate::stage::{Found, Stop};
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

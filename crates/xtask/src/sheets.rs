//! Sheets of every tune of the books, and what a sheet costs.

use crate::books;
use crate::budgets::instructions_of;
use crate::place;
use crate::process::{build, capture, run};
use crate::stage::{Found, Stop};
use std::path::{Path, PathBuf};
use std::process::Command;

/// The small program that engraves.
fn program() -> Result<PathBuf, Stop> {
    build("sheets", &["bench", "--no-run", "--package", "modewright-tests", "--bench", "sheets"])
}

fn sample() -> PathBuf {
    place::root().join("tests/fixtures/sheet-64.abc")
}

/// Engraves every tune of every book, for A4 and for a phone, with all rows: no two marks of
/// different notes or rows may share room.
pub(crate) fn collisions(python: &Path) -> Found {
    let program = program()?;
    let mut files = Vec::new();
    for book in books::manifest(python)?.books {
        files.extend(book.files);
    }
    // More names than one call may have on some systems.
    for some in files.chunks(200) {
        run(Command::new(&program).arg("check").args(some))?;
    }
    Ok(format!("nothing collides on the sheets of {} files", files.len()))
}

/// Instructions that laying out and drawing the sample of 64 bars as SVG takes.
pub(crate) fn instructions() -> Found {
    instructions_of(&program()?, &sample(), "instructions_per_sheet")
}

/// The time that a sheet of 64 bars takes, as SVG and as PDF.
pub(crate) fn seconds() -> Found {
    let report = capture(Command::new(program()?).arg("seconds").arg(sample()));
    let report = report.map_err(Stop::Failed)?;
    Ok(format!("{}; targets 0.002 and 0.2", report.trim()))
}

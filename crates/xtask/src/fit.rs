//! `cargo xtask fit`, `cross` and `evaluate`: the weights of the mode finder and how good they are.

use crate::process::{cargo, run};
use crate::stage::{Found, Stages};
use crate::{books, place, setup};
use std::process::ExitCode;

/// Where the table of weights stands.
const TABLE: &str = "crates/core/src/find/weights.rs";

/// Where the book has its tables and plots from.
pub(crate) const MADE: &str = "book/src/made";

/// Rebuilds the table of weights, and prints its figures.
pub(crate) fn weights() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("fit", || call(&["fit", TABLE]));
    stages.finish()
}

/// Judges every tune by a fit that has not seen it.
pub(crate) fn cross() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("cross check", || call(&["cross"]));
    stages.finish()
}

/// Prints how good the finder is and where it errs; keeps the table for a spreadsheet, and the
/// tables and plots of the book.
pub(crate) fn evaluate() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("evaluate", || {
        let file = place::target().join("evaluate.csv");
        call(&["evaluate", &file.to_string_lossy(), MADE])?;
        Ok(format!("the table is also in {}, those of the book in {MADE}", file.display()))
    });
    stages.finish()
}

/// Runs the fitting program on the tune books.
pub(crate) fn call(words: &[&str]) -> Found {
    let corpus = books::corpus(&setup::python()?)?;
    let mut command = cargo(&["run", "--release", "--quiet", "--package", "modewright-fit", "--"]);
    command.args(words).arg(&corpus).current_dir(place::root());
    run(&mut command)?;
    Ok(String::new())
}

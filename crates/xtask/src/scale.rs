//! `cargo xtask scale`: the tune books by `PySpark` with local workers, beside a single run.

use crate::process::{capture, modewright, run};
use crate::stage::{Found, Stages, Stop};
use crate::{books, place, setup};
use std::process::{Command, ExitCode};

/// The version that it was tried with.
const PYSPARK: &str = "pyspark==3.5.6";

fn spread() -> Found {
    setup::java()?;
    let python = setup::python()?;
    let folder = place::target().join("pyspark");
    if !folder.join("pyspark").exists() {
        println!("fetching {PYSPARK} into target/pyspark");
        let mut pip = Command::new(&python);
        pip.args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--target"]);
        capture(pip.arg(&folder).arg(PYSPARK))
            .map_err(|why| Stop::Skipped(format!("{PYSPARK} could not be fetched ({why})")))?;
    }
    let command = modewright()?;
    let mut script = Command::new(&python);
    script.env("PYTHONPATH", &folder).env("PYSPARK_PYTHON", &python);
    script.arg(place::root().join("tests/python/many_tunes.py")).arg(command);
    for book in books::manifest(&python)?.books {
        script.args(book.files);
    }
    run(&mut script)?;
    Ok("the answers are those of a single run".to_owned())
}

pub(crate) fn all() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("scale", spread);
    stages.finish()
}

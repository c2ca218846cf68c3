//! `cargo xtask book`: builds the book and holds it against the software. Its Rust examples are
//! documentation tests of the package `tests`, its figures are held by the stage "finding".

mod commands;
mod spelling;

use crate::process::{capture, cargo, modewright, run};
use crate::stage::{Found, Stages, Stop};
use crate::{page, place, setup};
use std::path::PathBuf;
use std::process::{Command, ExitCode};

/// Builds the site and the book into `dist/` and runs every check of the book.
pub(crate) fn book() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("page", || page::site(&["build"]));
    check(&mut stages);
    stages.run("book's Rust", || {
        run(&mut cargo(&["test", "--package", "modewright-tests", "--doc", "--locked"]))?;
        Ok(String::new())
    });
    stages.finish()
}

/// The stages of the book that `cargo xtask test` runs after the site is built.
pub(crate) fn check(stages: &mut Stages) {
    stages.run("book", || {
        // The builder stands behind a feature, which the workspace's own tests leave out.
        let tests = ["test", "--quiet", "--locked", "--package=xtask", "--features=book"];
        run(&mut cargo(&tests))?;
        build()
    });
    stages.run("book's commands", || commands::check(&modewright()?));
    stages.run("book's spelling", spelling::check);
    stages.run("book in browser", || {
        setup::chromium()?;
        let folder = page::npm()?;
        run(Command::new("node").arg("book.mjs").current_dir(folder))?;
        Ok(String::new())
    });
}

/// Builds the book beside the site.
pub(crate) fn build() -> Found {
    let words =
        ["run", "--quiet", "--locked", "--package", "xtask", "--features", "book", "--bin", "book"];
    run(&mut cargo(&words))?;
    Ok(String::new())
}

/// The chapters as Markdown, by name.
fn chapters() -> Result<Vec<PathBuf>, Stop> {
    let entries = std::fs::read_dir(place::root().join("book/src"))?;
    let paths = entries.map(|entry| entry.map(|entry| entry.path()));
    let mut paths = paths.collect::<Result<Vec<_>, _>>()?;
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "md"));
    paths.sort();
    if paths.len() < 2 {
        return Err(Stop::failed("book/src holds no chapters"));
    }
    Ok(paths)
}

/// A dictionary of British English with the program that reads it.
fn hunspell() -> Result<PathBuf, Stop> {
    let program = setup::program("hunspell")?;
    let knows = || {
        let mut list = Command::new(&program);
        capture(list.args(["-d", "en_GB", "-l", "-i", "utf-8"])).is_ok()
    };
    if !knows() {
        setup::install("hunspell-en-gb")?;
    }
    if knows() { Ok(program) } else { Err(Stop::Skipped("hunspell knows no en_GB".into())) }
}

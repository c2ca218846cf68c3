//! `cargo xtask build`, `serve` and `browser`: the page, by the site builder, which is heavy and
//! so is built only when it is asked for.

use crate::process::{capture, cargo, run};
use crate::setup;
use crate::stage::{Found, Stages, Stop};
use crate::{book, place};
use std::path::PathBuf;
use std::process::{Command, ExitCode};

/// Builds the page and the book into `dist/`.
pub(crate) fn build() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("page", || site("build"));
    stages.run("book", book::build);
    stages.finish()
}

/// Builds page and book and serves them at an address of this machine, until it is stopped.
pub(crate) fn serve() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("page", || site("build"));
    stages.run("book", book::build);
    stages.run("served", || site("serve"));
    stages.finish()
}

/// Builds the page and checks it in Debian's Chromium.
pub(crate) fn browser() -> ExitCode {
    let mut stages = Stages::new();
    check(&mut stages);
    stages.finish()
}

/// The page and its checks as two stages.
pub(crate) fn check(stages: &mut Stages) {
    stages.run("page", || site("build"));
    stages.run("browser", || {
        setup::chromium()?;
        let folder = npm()?;
        let mut node = Command::new("node");
        run(node.arg("check.mjs").current_dir(&folder))?;
        Ok(String::new())
    });
}

/// The folder of the checks in the browser, with the npm packages that they need.
pub(crate) fn npm() -> Result<PathBuf, Stop> {
    setup::program("npm")?;
    let folder = place::root().join("tests/browser");
    let mut npm = Command::new("npm");
    capture(npm.args(["ci", "--no-audit", "--no-fund"]).current_dir(&folder)).map_err(|why| {
        Stop::Skipped(format!("the npm packages could not be fetched; no network? ({why})"))
    })?;
    Ok(folder)
}

/// Asks the site builder.
pub(crate) fn site(word: &str) -> Found {
    let words =
        ["run", "--quiet", "--package", "xtask", "--features", "site", "--bin", "site", "--"];
    run(cargo(&words).arg(word))?;
    Ok(String::new())
}

//! The npm package, installed and used as its users do.

use crate::place;
use crate::process::{capture, run};
use crate::setup;
use crate::stage::{Found, Stop};
use std::process::Command;

/// Checks what the stage before has packed: sizes, Node, TypeScript, a bundler, a browser.
pub(crate) fn check() -> Found {
    setup::chromium()?;
    setup::program("npm")?;
    let folder = place::root().join("tests/package");
    let mut npm = Command::new("npm");
    capture(npm.args(["ci", "--no-audit", "--no-fund"]).current_dir(&folder)).map_err(|why| {
        Stop::Skipped(format!("the npm packages could not be fetched; no network? ({why})"))
    })?;
    let mut node = Command::new("node");
    run(node.arg("check.mjs").current_dir(&folder))?;
    Ok(String::new())
}

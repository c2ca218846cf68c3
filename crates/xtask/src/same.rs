//! The same answers everywhere: the command, the npm package in Node, and in Chromium, over
//! thousands of tunes of the books.

use crate::process::{capture, modewright, run};
use crate::stage::{Found, Stop};
use crate::{books, place, setup};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Tunes that are compared, at least.
const TUNES: usize = 5000;

/// The package must have been built: the stage "page" does it.
pub(crate) fn check(python: &Path) -> Found {
    let script = ready()?;
    run(compare(&script, python)?.current_dir(place::root().join("tests/browser")))?;
    Ok(format!("over {TUNES} tunes are the same, native, in Node and in Chromium"))
}

/// The time of both, for people: what the package takes beside the command, on one core.
pub(crate) fn seconds(python: &Path) -> Found {
    let script = ready()?;
    let report = capture(compare(&script, python)?.arg("--node-only")).map_err(Stop::Failed)?;
    Ok(format!("{}; target 2", report.trim()))
}

fn ready() -> Result<PathBuf, Stop> {
    if !place::root().join("dist/npm/package/package.json").exists() {
        return Err(Stop::failed("dist/npm/package is not there; cargo xtask build makes it"));
    }
    setup::program("node")?;
    Ok(place::root().join("tests/browser/same_answers.mjs"))
}

fn compare(script: &Path, python: &Path) -> Result<Command, Stop> {
    let mut names = String::new();
    let mut tunes = 0;
    for book in books::manifest(python)?.books {
        for file in book.files {
            if tunes < TUNES {
                tunes += books::split(&fs::read(&file)?).count();
                names.push_str(&file.to_string_lossy());
                names.push('\n');
            }
        }
    }
    if tunes < TUNES {
        return Err(Stop::failed(format!("the books hold {tunes} tunes, fewer than {TUNES}")));
    }
    let list = place::target().join("same-answers.txt");
    fs::write(&list, names)?;
    let mut node = Command::new("node");
    node.arg(script).arg(place::root().join("dist/npm/package")).arg(modewright()?).arg(list);
    Ok(node)
}

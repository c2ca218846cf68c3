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
    stages.run("page", || site(&["build"]));
    stages.run("book", book::build);
    stages.finish()
}

/// Builds page and book and serves them at an address of this machine, at the port that is named or
/// the usual one, until it is stopped.
pub(crate) fn serve(port: &[String]) -> ExitCode {
    let mut stages = Stages::new();
    stages.run("page", || site(&["build"]));
    stages.run("book", book::build);
    let served = ["serve"].into_iter().chain(port.iter().map(String::as_str));
    stages.run("served", || site(&served.collect::<Vec<_>>()));
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
    stages.run("page", || site(&["build"]));
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
pub(crate) fn site(said: &[&str]) -> Found {
    let words =
        ["run", "--quiet", "--package", "xtask", "--features", "site", "--bin", "site", "--"];
    run(cargo(&words).args(said))?;
    Ok(String::new())
}

/// `cargo xtask reproducible`: the page built here, and once more from a copy in another folder
/// with nothing built before, is the same to the byte.
pub(crate) fn reproducible() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("page", || site(&["build"]));
    stages.run("page again", again);
    stages.finish()
}

fn again() -> Found {
    let copy = place::target().join("another-folder/of-a-longer-name");
    if copy.exists() {
        std::fs::remove_dir_all(&copy)?;
    }
    let mut git = Command::new("git");
    git.args(["-c", "safe.directory=*", "ls-files", "-z"]).current_dir(place::root());
    for name in capture(&mut git).map_err(Stop::Failed)?.split('\0').filter(|name| !name.is_empty())
    {
        let (from, to) = (place::root().join(name), copy.join(name));
        if let Some(folder) = to.parent() {
            std::fs::create_dir_all(folder)?;
        }
        // What is deleted and not yet committed is still listed.
        if from.exists() {
            std::fs::copy(from, to)?;
        }
    }
    let mut command = cargo(&[
        "run",
        "--quiet",
        "--package",
        "xtask",
        "--features",
        "site",
        "--bin",
        "site",
        "--",
        "build",
    ]);
    command.current_dir(&copy).env("CARGO_TARGET_DIR", copy.join("target"));
    run(&mut command)?;
    let (first, second) = (files(&place::root().join("dist"))?, files(&copy.join("dist"))?);
    let differ = first.iter().filter(|(name, bytes)| second.get(*name) != Some(bytes));
    let mut wrong: Vec<&String> = differ.map(|(name, _)| name).collect();
    wrong.extend(second.keys().filter(|name| !first.contains_key(*name)));
    if first.is_empty() || !wrong.is_empty() {
        return Err(Stop::failed(format!("of {} files these differ: {wrong:?}", first.len())));
    }
    std::fs::remove_dir_all(&copy)?;
    Ok(format!("{} files are the same to the byte", first.len()))
}

/// All files of a folder by their names in it.
fn files(folder: &std::path::Path) -> Result<std::collections::BTreeMap<String, Vec<u8>>, Stop> {
    let mut found = std::collections::BTreeMap::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(next) = open.pop() {
        for entry in std::fs::read_dir(next)? {
            let path = entry?.path();
            if path.is_dir() {
                open.push(path);
                continue;
            }
            let name = path.strip_prefix(folder).unwrap_or(&path).to_string_lossy().into_owned();
            found.insert(name, std::fs::read(path)?);
        }
    }
    Ok(found)
}

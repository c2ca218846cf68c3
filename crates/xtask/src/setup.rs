//! What the commands need beyond cargo: fetched once, kept under the target folder.

use crate::process::{capture, cargo};
use crate::{place, stage::Stop};
use std::path::{Path, PathBuf};
use std::process::Command;

/// Adds a component of the Rust toolchain where it is missing.
pub(crate) fn component(name: &str) -> Result<(), Stop> {
    let tool = if name == "rustfmt" { "fmt" } else { name };
    if capture(&mut cargo(&[tool, "--version"])).is_ok() {
        return Ok(());
    }
    println!("adding the toolchain component {name}");
    capture(Command::new("rustup").args(["component", "add", name]))
        .map(drop)
        .map_err(|why| Stop::Skipped(format!("no {name}, and it could not be added ({why})")))
}

/// The Python of an environment that holds the pinned packages.
pub(crate) fn python() -> Result<PathBuf, Stop> {
    let list = place::root().join("tests/python/requirements.txt");
    let wanted = std::fs::read_to_string(&list)?;
    let folder = place::target().join("python");
    let python = folder.join("bin/python");
    let mark = folder.join("installed.txt");
    if std::fs::read_to_string(&mark).is_ok_and(|there| there == wanted) && python.exists() {
        return Ok(python);
    }
    println!("setting up Python with the packages of tests/python/requirements.txt");
    if folder.exists() {
        std::fs::remove_dir_all(&folder)?;
    }
    environment(&folder)?;
    let mut pip = Command::new(&python);
    pip.args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r"]).arg(&list);
    capture(&mut pip).map_err(|why| {
        Stop::Skipped(format!("the Python packages could not be fetched; no network? ({why})"))
    })?;
    std::fs::write(&mark, wanted)?;
    Ok(python)
}

/// An empty Python environment; Debian keeps the means for it in a package of its own.
fn environment(folder: &Path) -> Result<(), Stop> {
    let make = || capture(Command::new("python3").args(["-m", "venv"]).arg(folder));
    if make().is_ok() {
        return Ok(());
    }
    install("python3-venv")?;
    make().map(drop).map_err(Stop::Failed)
}

/// A program of that name, installed where it is missing and we may.
pub(crate) fn program(name: &str) -> Result<PathBuf, Stop> {
    let there = || capture(Command::new(name).arg("--version")).is_ok();
    if !there() {
        install(name)?;
    }
    if there() { Ok(name.into()) } else { Err(Stop::Skipped(format!("{name} does not start"))) }
}

/// Sees that there is a Chromium: the one named in CHROMIUM, or one of the places that the checks
/// look in, else Debian's, installed where we may.
pub(crate) fn chromium() -> Result<(), Stop> {
    let known = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
    let there =
        std::env::var_os("CHROMIUM").is_some() || known.iter().any(|p| Path::new(p).exists());
    if there {
        return Ok(());
    }
    // Without a font a page has no widths to check; Debian only recommends one.
    install("fonts-dejavu-core")?;
    install("fonts-liberation")?;
    program("chromium").map(drop)
}

/// Sees that there is a Java, installed where we may.
pub(crate) fn java() -> Result<(), Stop> {
    let there = || capture(Command::new("java").arg("-version")).is_ok();
    if !there() {
        install("default-jre-headless")?;
    }
    if there() { Ok(()) } else { Err(Stop::Skipped("java does not start".into())) }
}

/// Installs a system package where we may.
pub(crate) fn install(package: &str) -> Result<(), Stop> {
    let root = capture(Command::new("id").arg("-u")).is_ok_and(|id| id.trim() == "0");
    if !root {
        return Err(Stop::Skipped(format!("{package} is not installed and you are not root")));
    }
    println!("installing {package} with apt-get");
    let apt = |words: &[&str]| {
        capture(Command::new("apt-get").args(words).env("DEBIAN_FRONTEND", "noninteractive"))
    };
    let words = ["install", "--yes", "--quiet", "--no-install-recommends", package];
    apt(&words)
        .or_else(|_| apt(&["update", "--quiet"]).and_then(|_| apt(&words)))
        .map(drop)
        .map_err(|why| Stop::Skipped(format!("{package} could not be installed ({why})")))
}

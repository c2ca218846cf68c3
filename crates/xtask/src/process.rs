//! Running other programs.

use crate::place;
use crate::stage::Stop;
use serde_json::Value;
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// Cargo, at the top of the repository, held to the committed lock file.
pub(crate) fn cargo(words: &[&str]) -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.args(words).current_dir(place::root());
    command
}

/// Runs a program with its output in plain view.
pub(crate) fn run(command: &mut Command) -> Result<(), Stop> {
    let shown = show(command);
    println!("$ {shown}");
    let status = command
        .stdin(Stdio::null())
        .status()
        .map_err(|error| Stop::failed(format!("{shown}: {error}")))?;
    if status.success() { Ok(()) } else { Err(Stop::failed(format!("{shown}: {status}"))) }
}

/// Runs a program and keeps what it printed; the error holds the last line of its complaint.
pub(crate) fn capture(command: &mut Command) -> Result<String, String> {
    let shown = show(command);
    let output =
        command.stdin(Stdio::null()).output().map_err(|error| format!("{shown}: {error}"))?;
    if output.status.success() {
        return Ok(String::from_utf8_lossy(&output.stdout).into_owned());
    }
    let complaint = String::from_utf8_lossy(&output.stderr);
    let last = complaint.lines().rev().find(|line| !line.trim().is_empty()).unwrap_or_default();
    Err(format!("{shown}: {}: {last}", output.status))
}

/// Builds with cargo and gives the path of the program of that name.
pub(crate) fn build(name: &str, words: &[&str]) -> Result<PathBuf, Stop> {
    build_as(name, &mut cargo(words))
}

/// The same by a command of cargo that is set up already.
pub(crate) fn build_as(name: &str, command: &mut Command) -> Result<PathBuf, Stop> {
    command.args(["--locked", "--message-format=json-render-diagnostics"]);
    println!("$ {}", show(command));
    let output = command.stdin(Stdio::null()).stderr(Stdio::inherit()).output()?;
    if !output.status.success() {
        return Err(Stop::failed(format!("{name} does not build")));
    }
    String::from_utf8_lossy(&output.stdout)
        .lines()
        .filter_map(|line| serde_json::from_str::<Value>(line).ok())
        .filter(|message| message["target"]["name"] == name)
        .find_map(|message| message["executable"].as_str().map(PathBuf::from))
        .ok_or_else(|| Stop::failed(format!("cargo built no program called {name}")))
}

/// The real command, as people use it.
pub(crate) fn modewright() -> Result<PathBuf, Stop> {
    build("modewright", &["build", "--release", "--package", "modewright-cli"])
}

/// A command as it is told: of many words, like all files of all books, the first.
fn show(command: &Command) -> String {
    const WORDS: usize = 16;
    let program = PathBuf::from(command.get_program());
    let mut shown = program.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    let words = command.get_args();
    let more = words.len().saturating_sub(WORDS);
    for word in words.take(WORDS) {
        shown.push(' ');
        shown.push_str(&word.to_string_lossy());
    }
    if more > 0 {
        shown.push_str(&format!(" … and {more} words more"));
    }
    shown
}

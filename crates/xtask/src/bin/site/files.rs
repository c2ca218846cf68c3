//! Files and programs of this machine.

use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

/// A file of the repository.
pub(crate) fn read(name: &str) -> Result<String, String> {
    let path = crate::root().join(name);
    fs::read_to_string(&path).map_err(|e| at(&path, &e))
}

/// An empty folder, whatever was in it.
pub(crate) fn fresh(folder: &Path) -> Result<(), String> {
    if folder.exists() {
        fs::remove_dir_all(folder).map_err(|e| at(folder, &e))?;
    }
    fs::create_dir_all(folder).map_err(|e| at(folder, &e))
}

/// Writes a file.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> Result<(), String> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(|e| at(folder, &e))?;
    }
    fs::write(path, bytes).map_err(|e| at(path, &e))
}

/// Runs a program with its output in plain view.
pub(crate) fn run(command: &mut Command) -> Result<(), String> {
    let name = command.get_program().to_string_lossy().into_owned();
    let status = command
        .stdin(Stdio::null())
        .status()
        .map_err(|error| format!("{name} does not start: {error}"))?;
    if status.success() { Ok(()) } else { Err(format!("{name}: {status}")) }
}

/// What is wrong with a file, and which.
pub(crate) fn at(path: &Path, error: &std::io::Error) -> String {
    format!("{}: {error}", path.display())
}

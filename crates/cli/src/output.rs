//! Writing a file whole, or not at all.

use crate::failure::Failure;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Whether the name means standard output.
pub(crate) fn is_standard(path: Option<&Path>) -> bool {
    path.is_none_or(|path| path.as_os_str() == "-")
}

/// Whether a name has an ending, in small or capital letters.
pub(crate) fn ends_in(path: &Path, ending: &str) -> bool {
    let found = path.extension().and_then(|found| found.to_str());
    found.is_some_and(|found| found.eq_ignore_ascii_case(ending))
}

/// Writes to a file, or to standard output where none is named. A file that is there is replaced
/// whole: the new one is written beside it and then takes its name.
pub(crate) fn write(path: Option<&Path>, bytes: &[u8]) -> Result<(), Failure> {
    match path {
        Some(path) if !is_standard(Some(path)) => {
            replace(path, bytes).map_err(|error| Failure::Write { path: path.to_path_buf(), error })
        }
        _ => {
            let mut out = io::stdout().lock();
            out.write_all(bytes)?;
            out.flush()?;
            Ok(())
        }
    }
}

/// Says that a file is written, and what more is to be said of it; nothing of standard output.
pub(crate) fn tell_written(path: Option<&Path>, more: &str) {
    if let Some(path) = path.filter(|path| !is_standard(Some(path))) {
        anstream::println!("{} is written{more}", path.display());
    }
}

fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    // Through a link to the file that is meant.
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
    if target.is_dir() {
        return Err(io::Error::from(io::ErrorKind::IsADirectory));
    }
    let beside = beside(&target);
    let written = File::create_new(&beside)
        .and_then(|mut file| {
            file.write_all(bytes)?;
            file.sync_all()
        })
        .and_then(|()| fs::rename(&beside, &target));
    if written.is_err() {
        // What is half written is of no use; that it was there says more than that it stays.
        let _ = fs::remove_file(&beside);
    }
    written
}

/// A name beside the file that nobody else uses.
fn beside(path: &Path) -> PathBuf {
    let mut name = std::ffi::OsString::from(".");
    name.push(path.file_name().unwrap_or_default());
    name.push(format!(".{}.part", std::process::id()));
    path.with_file_name(name)
}

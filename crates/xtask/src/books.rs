//! The manifest of tune books, and where they are.

use crate::process::capture;
use crate::{place, stage::Stop};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A tune book: a folder of ABC files.
pub(crate) struct Book {
    /// Its folder's name, which also names it in reports.
    pub(crate) name: String,
    /// Its files, sorted.
    pub(crate) files: Vec<PathBuf>,
    /// How many tunes it holds, by its X: lines.
    pub(crate) tunes: usize,
    /// Whether the weights were fitted on it, which flatters its agreement with K:.
    pub(crate) is_fitted_on: bool,
    /// The least agreement of the home note with K:, in percent.
    pub(crate) home_floor: f64,
    /// The least agreement of home note and mode with K:, in percent.
    pub(crate) key_floor: f64,
}

/// The books, with the least part of their tunes that must be read without an error.
pub(crate) struct Manifest {
    pub(crate) books: Vec<Book>,
    pub(crate) read_floor: f64,
}

/// The folder of the books in the package that Python has.
pub(crate) fn corpus(python: &Path) -> Result<PathBuf, Stop> {
    let manifest = json("tests/corpus.json")?;
    let name = manifest["package"]["name"].as_str().unwrap_or_default();
    let find = format!(
        "import importlib.util as u; print(u.find_spec('{name}').submodule_search_locations[0])"
    );
    let package = capture(Command::new(python).args(["-c", &find])).map_err(Stop::Failed)?;
    Ok(Path::new(package.trim()).join("corpus"))
}

/// Reads `tests/corpus.json` and finds the books in the package that Python has.
pub(crate) fn manifest(python: &Path) -> Result<Manifest, Stop> {
    let manifest = json("tests/corpus.json")?;
    let corpus = corpus(python)?;
    let entries = manifest["books"].as_array().map(Vec::as_slice).unwrap_or_default();
    let books = entries.iter().map(|entry| book(&corpus, entry)).collect::<Result<Vec<_>, _>>()?;
    if books.is_empty() {
        return Err(Stop::failed("tests/corpus.json lists no books"));
    }
    Ok(Manifest { books, read_floor: number(&manifest, "read_floor_percent")? })
}

/// The files of ABC in a folder, sorted.
pub(crate) fn tunes_of(folder: &Path) -> Result<Vec<PathBuf>, Stop> {
    let mut files = fs::read_dir(folder)?
        .map(|file| file.map(|file| file.path()))
        .collect::<Result<Vec<_>, _>>()?;
    files.retain(|file| file.extension().is_some_and(|ending| ending == "abc"));
    files.sort();
    Ok(files)
}

fn book(corpus: &Path, entry: &Value) -> Result<Book, Stop> {
    let name = entry["folder"].as_str().unwrap_or_default().to_owned();
    let folder = corpus.join(&name);
    let files = tunes_of(&folder)?;
    let mut tunes = 0;
    for file in &files {
        tunes += split(&fs::read(file)?).count();
    }
    // The package is pinned, so another number means that we look at something else.
    let wanted = entry["tunes"].as_u64().unwrap_or_default();
    if tunes as u64 != wanted {
        return Err(Stop::failed(format!("{name}: {tunes} tunes where {wanted} should be")));
    }
    let home_floor = number(entry, "home_floor_percent")?;
    let key_floor = number(entry, "key_floor_percent")?;
    let is_fitted_on = entry["fitted_on"]
        .as_bool()
        .ok_or_else(|| Stop::failed(format!("{name}: fitted_on is missing")))?;
    Ok(Book { name, files, tunes, is_fitted_on, home_floor, key_floor })
}

/// The tunes of a file, each from its X: line to the next. What stands before the first one
/// is no tune.
pub(crate) fn split(file: &[u8]) -> impl Iterator<Item = &[u8]> {
    let starts: Vec<usize> = std::iter::once(0)
        .chain((1..file.len()).filter(|&at| file[at - 1] == b'\n'))
        .filter(|&at| file[at..].starts_with(b"X:"))
        .collect();
    (0..starts.len()).map(move |i| {
        let end = starts.get(i + 1).copied().unwrap_or(file.len());
        &file[starts[i]..end]
    })
}

/// A JSON file of the repository.
pub(crate) fn json(name: &str) -> Result<Value, Stop> {
    let text = fs::read_to_string(place::root().join(name))
        .map_err(|error| Stop::failed(format!("{name}: {error}")))?;
    serde_json::from_str(&text).map_err(|error| Stop::failed(format!("{name}: {error}")))
}

/// A number that a JSON file must hold.
pub(crate) fn number(of: &Value, name: &str) -> Result<f64, Stop> {
    of[name].as_f64().ok_or_else(|| Stop::failed(format!("the number {name} is missing")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_splits_at_its_numbers() {
        let file = b"% front matter\nX:1\nK:C\nC|\n%X: no\n\nX: 2\nK:G\n";
        let tunes: Vec<&[u8]> = split(file).collect();
        assert_eq!(tunes, [&b"X:1\nK:C\nC|\n%X: no\n\n"[..], b"X: 2\nK:G\n"]);
        assert_eq!(split(b"").count(), 0);
        assert_eq!(split(b"X:1").count(), 1);
    }
}

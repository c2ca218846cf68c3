//! What the checks share: the data under `tests/reference` and `tests/fixtures`.
//!
//! Everything here panics with the name of the file when data is missing or out of shape: in a
//! test that is the clearest answer.

pub mod collide;
mod golden;
mod plain;

pub use golden::golden;
pub use plain::{difference, in_score, plain};

use serde_json::Value;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// A row of a table: cells by the name of their column.
pub type Row = BTreeMap<String, String>;

/// The path of a file under `tests/`.
#[must_use]
pub fn path(name: &str) -> PathBuf {
    // Cargo names the package that it tests, one of the repository; what was compiled in may be
    // an older folder of a shared target directory.
    let here = std::env::var_os("CARGO_MANIFEST_DIR");
    let here = here.as_deref().map_or(Path::new(env!("CARGO_MANIFEST_DIR")), Path::new);
    let top = here.ancestors().find(|folder| folder.join("Cargo.lock").exists());
    top.unwrap_or(here).join("tests").join(name)
}

/// The text of a file under `tests/`.
///
/// # Panics
///
/// When the file cannot be read.
#[must_use]
pub fn text(name: &str) -> String {
    std::fs::read_to_string(path(name)).unwrap_or_else(|error| panic!("tests/{name}: {error}"))
}

/// A JSON file under `tests/`.
///
/// # Panics
///
/// When the file cannot be read as JSON.
#[must_use]
pub fn json(name: &str) -> Value {
    serde_json::from_str(&text(name)).unwrap_or_else(|error| panic!("tests/{name}: {error}"))
}

/// The rows of a CSV file under `tests/`, whose first line names its source and whose second
/// line names the columns.
///
/// # Panics
///
/// When the file cannot be read, names no source, or has a row of the wrong width.
#[must_use]
pub fn table(name: &str) -> Vec<Row> {
    let text = text(name);
    assert!(text.starts_with("# source: "), "tests/{name} names no source");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let rows: Result<Vec<Row>, csv::Error> = reader.deserialize().collect();
    let rows = rows.unwrap_or_else(|error| panic!("tests/{name}: {error}"));
    assert!(!rows.is_empty(), "tests/{name} holds no rows");
    rows
}

/// The book's examples in Rust, compiled and run as documentation tests.
#[doc = include_str!("../../book/src/programmers.md")]
#[cfg(doctest)]
pub mod programmers {}

/// Bytes as they stand in `fixtures/answers.json`: by their length and their mark.
#[must_use]
pub fn marked(bytes: &[u8]) -> Value {
    let mark = modewright_core::mark::of(bytes.iter().copied());
    serde_json::json!({"bytes": bytes.len(), "fnv": format!("{mark:016x}")})
}

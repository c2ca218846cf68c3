//! Instruments from JSON: the built-in ones and a user's own.
//!
//! The shape of a file is described in `tests/schema/instrument.json`. A file holds one family,
//! or a list of families; sizes of a family differ by an interval, or state what is their own.

mod build;
pub mod builtin;
mod error;
mod layout;
mod place;
mod raw;

pub use error::{InstrumentError, InstrumentErrorKind};

use build::Fault;
use modewright_core::instrument::Instrument;
use place::{Path, Step, place_of};
use raw::Raw;

/// The longest file that is read, in bytes.
pub const MAX_BYTES: usize = crate::limits::INSTRUMENT_BYTES;

/// The most sizes of a family, and the most families of a file.
pub const MAX_SIZES: usize = crate::limits::INSTRUMENT_SIZES;

/// Reads the instruments of a file.
///
/// # Examples
///
/// ```
/// use modewright_formats::instrument::read;
///
/// let voice = r#"{ "format": 1, "id": "my-voice", "name": "my voice",
///                  "range": ["A3", "D5"] }"#;
/// let mine = &read(voice)?[0];
/// assert_eq!(mine.notes().len(), 18);
/// // A mistake is told with its place.
/// let error = read(&voice.replace("D5", "H5")).unwrap_err();
/// assert_eq!(error.to_string(), "line 2, column 34: range[1]: `H5` is not a pitch");
/// # Ok::<(), modewright_formats::instrument::InstrumentError>(())
/// ```
///
/// # Errors
///
/// [`InstrumentError`] with the first thing that is wrong, and where.
pub fn read(text: &str) -> Result<Vec<Instrument>, InstrumentError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.len() > MAX_BYTES {
        let kind = InstrumentErrorKind::TooLong;
        return Err(InstrumentError { path: String::new(), line: 1, column: 1, kind });
    }
    let root = Path::default();
    let families: Vec<(Raw, Path)> = if text.trim_start().starts_with('[') {
        let list: Vec<Raw> = parse(text)?;
        list.into_iter().enumerate().map(|(i, raw)| (raw, root.item(i))).collect()
    } else {
        vec![(parse(text)?, root.clone())]
    };
    let told = |fault: Fault| {
        let (line, column) = fault.path.place(text);
        InstrumentError { path: fault.path.to_string(), line, column, kind: fault.kind }
    };
    if families.len() > MAX_SIZES {
        return Err(told(root.fault(InstrumentErrorKind::TooManySizes)));
    }
    let mut instruments: Vec<Instrument> = Vec::new();
    for (raw, path) in &families {
        for (instrument, path) in build::family(raw, path).map_err(told)? {
            if instruments.iter().any(|other| other.id == instrument.id) {
                let found = instrument.id;
                let kind = InstrumentErrorKind::SameId { found };
                return Err(told(path.field("id").fault(kind)));
            }
            instruments.push(instrument);
        }
    }
    Ok(instruments)
}

/// Parses JSON into its raw shape; the place of what does not fit comes from the parser.
fn parse<T: serde::de::DeserializeOwned>(text: &str) -> Result<T, InstrumentError> {
    let mut reader = serde_json::Deserializer::from_str(text);
    let value = serde_path_to_error::deserialize(&mut reader);
    let (path, error) = match value {
        Ok(value) => match reader.end() {
            Ok(()) => return Ok(value),
            Err(error) => (Path::default(), error),
        },
        Err(error) => (steps(error.path()), error.into_inner()),
    };
    let said = error.to_string();
    let found = said.rfind(" at line ").map_or(said.as_str(), |at| &said[..at]);
    let found = found.replace("unknown variant", "unknown word").replace("EOF", "the text ends");
    let shape = error.is_data();
    let (line, column) = if shape {
        path.place(text)
    } else {
        // The parser counts bytes.
        let lines = text.split('\n').take(error.line().saturating_sub(1));
        let before: usize = lines.map(|line| line.len() + 1).sum();
        let byte = before + error.column().saturating_sub(1);
        place_of(text, text.floor_char_boundary(byte))
    };
    let kind = if shape {
        InstrumentErrorKind::BadShape { found }
    } else {
        InstrumentErrorKind::NotJson { found }
    };
    Err(InstrumentError { path: path.to_string(), line, column, kind })
}

/// A parser's path as ours.
fn steps(path: &serde_path_to_error::Path) -> Path {
    use serde_path_to_error::Segment;
    let steps = path.iter().filter_map(|segment| match segment {
        Segment::Seq { index } => Some(Step::Item(*index)),
        Segment::Map { key } => Some(Step::Field(key.clone())),
        Segment::Enum { .. } | Segment::Unknown => None,
    });
    Path(steps.collect())
}

#[cfg(test)]
mod tests;

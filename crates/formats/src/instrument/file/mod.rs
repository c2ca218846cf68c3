//! Instruments from JSON.
//!
//! The shape of a file is described in `tests/schema/instrument.json`. A file holds one family,
//! or a list of families; sizes of a family differ by an interval, or state what is their own.

mod build;
mod error;
mod json;
mod layout;
mod place;
mod raw;
mod shape;

pub use error::{InstrumentError, InstrumentErrorKind};

use build::Fault;
use json::Node;
use modewright_core::instrument::Instrument;
use place::{Path, Step, place_of};
use raw::Raw;
use shape::Shape;

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
    let tree: Node = serde_json::from_str(text).map_err(|error| not_json(text, &error))?;
    let told = |fault: Fault| {
        let (line, column) = fault.path.place(text);
        InstrumentError { path: fault.path.to_string(), line, column, kind: fault.kind }
    };
    let families: Vec<(Raw, Path)> = match &tree {
        Node::List(list) => {
            let family = |(i, node): (usize, &Node)| match Raw::read(node) {
                Ok(raw) => Ok((raw, root.item(i))),
                Err(fault) => Err(fault.within(Step::Item(i))),
            };
            list.iter().enumerate().map(family).collect::<Result<_, _>>().map_err(told)?
        }
        one => vec![(Raw::read(one).map_err(told)?, root.clone())],
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

/// What the JSON reader says of a text that is no JSON.
fn not_json(text: &str, error: &serde_json::Error) -> InstrumentError {
    let said = error.to_string();
    let found = said.rfind(" at line ").map_or(said.as_str(), |at| &said[..at]);
    let found = found.replace("EOF", "the text ends");
    // The reader counts bytes.
    let lines = text.split('\n').take(error.line().saturating_sub(1));
    let before: usize = lines.map(|line| line.len() + 1).sum();
    let byte = before + error.column().saturating_sub(1);
    let (line, column) = place_of(text, text.floor_char_boundary(byte));
    let kind = InstrumentErrorKind::NotJson { found };
    InstrumentError { path: String::new(), line, column, kind }
}

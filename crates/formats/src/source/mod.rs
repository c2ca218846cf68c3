//! From bytes to the text of one tune at a time.

mod block;
#[cfg(test)]
mod books;
mod decode;
mod error;
mod file_type;
mod line_kind;
mod lines;
mod replace;
mod sniff;
mod split;
mod splitter;

pub use decode::{Decoded, decode};
pub use error::SourceError;
pub use replace::replace;
pub use sniff::sniff;
pub use split::split;
pub use splitter::Splitter;

use crate::Problem;
use std::sync::Arc;

/// How a tune is written down.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Kind {
    /// ABC: fields, or bars of notes written closely together.
    #[default]
    Abc,
    /// Plain letters, as people type them in a message.
    Letters,
}

/// The text of one tune and where it comes from.
///
/// # Examples
///
/// ```
/// use modewright_formats::source::{Kind, TuneText};
///
/// let text = TuneText::abc("X:1\nK:D\nABcd|\n");
/// assert_eq!((text.kind, text.first_line), (Kind::Abc, 1));
/// // Without a book around it, there is no file header.
/// assert_eq!(&*text.defaults, "");
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TuneText {
    /// The text as it stands in the file; lines end in LF, CRLF or CR, as they do there.
    pub text: String,
    /// Its first line in the file, from 1.
    pub first_line: u32,
    /// The file header of an ABC book: fields and directives that stand before the first tune
    /// and hold for all of them. Empty if there are none.
    pub defaults: Arc<str>,
    /// How it is written.
    pub kind: Kind,
    /// What was odd before reading began: how the bytes are encoded, a text that was cut.
    pub problems: Vec<Problem>,
}

impl TuneText {
    /// The most bytes that the text of one tune may have: 8 MiB.
    pub const MAX_BYTES: usize = 8 << 20;

    fn new(text: impl Into<String>, kind: Kind) -> Self {
        let (first_line, defaults) = (1, Arc::from(""));
        Self { text: text.into(), first_line, defaults, kind, problems: Vec::new() }
    }

    /// A text that is known to be ABC, with nothing around it.
    #[must_use]
    pub fn abc(text: impl Into<String>) -> Self {
        Self::new(text, Kind::Abc)
    }

    /// A text that is known to be plain letters, with nothing around it.
    #[must_use]
    pub fn letters(text: impl Into<String>) -> Self {
        Self::new(text, Kind::Letters)
    }
}

impl Default for TuneText {
    fn default() -> Self {
        Self::abc("")
    }
}

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
#[cfg(all(feature = "musicxml", feature = "midi"))]
mod tunes;

pub use decode::{Decoded, decode};
pub use error::SourceError;
pub(crate) use line_kind::is_music;
pub use replace::replace;
pub use sniff::sniff;
pub use split::split;
pub use splitter::Splitter;
#[cfg(all(feature = "musicxml", feature = "midi"))]
pub use tunes::Tunes;

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
    /// MusicXML, unpacked.
    #[cfg(feature = "musicxml")]
    MusicXml,
    /// A Standard MIDI File, which is no text: see [`TuneText::bytes`].
    #[cfg(feature = "midi")]
    Midi,
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
    /// The bytes of a file that is no text; the text is empty then.
    #[cfg(feature = "midi")]
    pub bytes: Vec<u8>,
    /// What was odd before reading began: how the bytes are encoded, a text that was cut.
    pub problems: Vec<Problem>,
}

impl TuneText {
    /// The most bytes that the text of one tune may have: 8 MiB.
    pub const MAX_BYTES: usize = crate::limits::TUNE_BYTES;

    fn new(text: impl Into<String>, kind: Kind) -> Self {
        let (first_line, defaults) = (1, Arc::from(""));
        Self {
            text: text.into(),
            first_line,
            defaults,
            kind,
            #[cfg(feature = "midi")]
            bytes: Vec::new(),
            problems: Vec::new(),
        }
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

#[cfg(feature = "musicxml")]
impl TuneText {
    /// A text that is known to be MusicXML.
    #[must_use]
    pub fn musicxml(text: impl Into<String>) -> Self {
        Self::new(text, Kind::MusicXml)
    }
}

#[cfg(feature = "midi")]
impl TuneText {
    /// Bytes that are known to be a Standard MIDI File.
    #[must_use]
    pub fn midi(bytes: impl Into<Vec<u8>>) -> Self {
        Self { bytes: bytes.into(), ..Self::new("", Kind::Midi) }
    }
}

impl Default for TuneText {
    fn default() -> Self {
        Self::abc("")
    }
}

//! Tunes from one format into another.

use modewright_core::Tune;
use modewright_formats::source::{Kind, TuneText};
use modewright_formats::{ReadOptions, Reading, abc, midi, musicxml, notation, read};

/// A format that is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// ABC, the only one that holds a book of tunes.
    Abc,
    /// MusicXML as text.
    MusicXml,
    /// Compressed MusicXML.
    Packed,
    /// A Standard MIDI File.
    Midi,
}

impl Format {
    /// The format that the ending of a file's name says.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_lesson::convert::Format;
    ///
    /// assert_eq!(Format::of_ending("MXL"), Some(Format::Packed));
    /// assert_eq!(Format::of_ending("doc"), None);
    /// ```
    #[must_use]
    pub fn of_ending(ending: &str) -> Option<Self> {
        Some(match ending.to_ascii_lowercase().as_str() {
            "abc" => Self::Abc,
            "musicxml" | "xml" => Self::MusicXml,
            "mxl" => Self::Packed,
            "mid" | "midi" => Self::Midi,
            _ => return None,
        })
    }
}

/// Reads a tune that is to be written in another format. Letters, which know no beams, are joined
/// by the beat.
#[must_use]
pub fn read_for(text: &TuneText, options: &ReadOptions) -> Reading {
    let mut reading = read(text, options);
    if text.kind == Kind::Letters {
        notation::join_by_beat(&mut reading.tune);
    }
    reading
}

/// Tunes in a format: of a book all in ABC, and the first in any other.
#[must_use]
pub fn bytes(tunes: &[&Tune], format: Format) -> Vec<u8> {
    let score = || tunes.first().map_or_else(String::new, |tune| musicxml::write(tune, &[]));
    match format {
        Format::Abc => {
            let book: Vec<String> = tunes.iter().map(|tune| abc::write(tune)).collect();
            book.join("\n").into_bytes()
        }
        Format::MusicXml => score().into_bytes(),
        Format::Packed => musicxml::pack(&score()),
        Format::Midi => {
            tunes.first().map_or_else(Vec::new, |tune| midi::write(tune, midi::FileType::Parallel))
        }
    }
}

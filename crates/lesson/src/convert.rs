//! Tunes from one format into another.

use modewright_core::Tune;
use modewright_formats::notation::Row;
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

/// Tunes in a format, with rows under their notes as lines of words: of a book all in ABC, and the
/// first in any other. A MIDI file has no rows.
#[must_use]
pub fn bytes(tunes: &[(Tune, Vec<Row>)], format: Format) -> Vec<u8> {
    let one = tunes.first();
    let score = || one.map_or_else(String::new, |(tune, rows)| musicxml::write(tune, rows));
    match format {
        Format::Abc => {
            let book: Vec<String> = tunes
                .iter()
                .map(|(tune, rows)| {
                    let mut tune = tune.clone();
                    notation::add_rows(&mut tune, rows);
                    abc::write(&tune)
                })
                .collect();
            book.join("\n").into_bytes()
        }
        Format::MusicXml => score().into_bytes(),
        Format::Packed => musicxml::pack(&score()),
        Format::Midi => {
            one.map_or_else(Vec::new, |(tune, _)| midi::write(tune, midi::FileType::Parallel))
        }
    }
}

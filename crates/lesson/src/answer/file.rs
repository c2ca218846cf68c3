//! The answer of `readFile`: the tunes of a file as ABC.

use super::{ProblemAnswer, SCHEMA};
use crate::convert::read_for;
use modewright_formats::source::{Kind, SourceError, TuneText};
use modewright_formats::{ReadOptions, abc};
use serde::Serialize;

/// What a file holds.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FileAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// Where it comes from: a file name, or `-`.
    pub source: String,
    /// What it is: `abc`, `letters`, `musicxml` or `midi`; `null` where it has no tune.
    pub kind: Option<&'static str>,
    /// Its tunes.
    pub tunes: Vec<FileTuneAnswer>,
}

/// A tune of a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FileTuneAnswer {
    /// Its number in its book.
    pub number: Option<String>,
    /// Its title.
    pub title: Option<String>,
    /// The tune as ABC: as it stands in the file where that is ABC, else written anew.
    pub abc: String,
    /// The voices or parts that the file names.
    pub voices: Vec<String>,
    /// What was odd about the file.
    pub problems: Vec<ProblemAnswer>,
}

impl FileAnswer {
    /// The tunes of a file.
    ///
    /// # Errors
    ///
    /// [`SourceError`] where the file gives no more tunes.
    pub fn new(
        source: &str,
        tunes: impl Iterator<Item = Result<TuneText, SourceError>>,
        options: &ReadOptions,
    ) -> Result<Self, SourceError> {
        let mut kind = None;
        let mut read = Vec::new();
        for text in tunes {
            let text = text?;
            kind.get_or_insert(kind_name(text.kind));
            read.push(FileTuneAnswer::new(&text, options));
        }
        Ok(Self { schema: SCHEMA, source: source.to_owned(), kind, tunes: read })
    }
}

impl FileTuneAnswer {
    fn new(text: &TuneText, options: &ReadOptions) -> Self {
        let reading = read_for(text, options);
        let header = &reading.tune.header;
        Self {
            number: header.number.clone(),
            title: header.titles.first().cloned(),
            abc: match text.kind {
                Kind::Abc => format!("{}{}", text.defaults, text.text),
                _ => abc::write(&reading.tune),
            },
            voices: reading.voices.clone(),
            problems: reading.problems.iter().map(ProblemAnswer::new).collect(),
        }
    }
}

const fn kind_name(kind: Kind) -> &'static str {
    match kind {
        Kind::Abc => "abc",
        Kind::Letters => "letters",
        Kind::MusicXml => "musicxml",
        Kind::Midi => "midi",
    }
}

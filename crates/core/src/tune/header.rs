//! Words about a tune.

use crate::Length;

/// Titles, names and other words about a tune; each as the source has it.
///
/// Composer, source and transcriber stay apart: a traditional tune has no owner, but a
/// transcription or an arrangement of it may have one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Header {
    /// The tune's number in its book.
    pub number: Option<String>,
    /// Titles, the main one first.
    pub titles: Vec<String>,
    /// Composers, as written.
    pub composer: Vec<String>,
    /// Where the tune comes from: a place or people.
    pub origin: Vec<String>,
    /// Who played or sang it, or what it was copied from.
    pub source: Vec<String>,
    /// Who wrote it down or typed it in.
    pub transcriber: Vec<String>,
    /// The book it stands in.
    pub book: Vec<String>,
    /// Kind of tune: reel, jig, waltz.
    pub rhythm: Option<String>,
    /// Remarks.
    pub notes: Vec<String>,
    /// Words that stand under the tune rather than under its notes.
    pub words: Vec<String>,
    /// Every other field of the source, with its name, so that nothing is lost.
    pub other: Vec<(String, String)>,
}

/// A speed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tempo {
    /// The lengths that make one beat, usually a single one; empty where only a word is given.
    pub beat: Vec<Length>,
    /// Beats a minute; `None` where only a word is given.
    pub per_minute: Option<u32>,
    /// A word for it: Andante, slowly.
    pub words: Option<String>,
}

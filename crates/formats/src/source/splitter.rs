//! Tunes of a stream, one at a time.

use super::block::Stop;
use super::lines::LineReader;
use super::split::Pieces;
use super::{SourceError, TuneText};
use std::io::BufRead;

/// The tunes of a stream, in order, in flat memory: never more than one tune is held, and of a
/// tune never more than [`TuneText::MAX_BYTES`].
///
/// It splits as [`split`](super::split) does. Each tune is UTF-8 or else Latin-1 on its own; a
/// UTF-16 stream with a byte order mark is read as a whole. The first error ends it.
///
/// # Examples
///
/// ```
/// use modewright_formats::source::Splitter;
///
/// let stream = &b"X:1\r\nT:Caf\xe9\r\nK:D\r\nABA|\r\nX:2\r\nK:G\r\nGAB|\r\n"[..];
/// let tunes: Vec<_> = Splitter::new(stream).collect::<Result<_, _>>()?;
/// assert_eq!(tunes.len(), 2);
/// assert_eq!(tunes[0].problems[0].kind.code(), "latin-1");
/// assert!(tunes[0].text.contains("Café") && tunes[1].problems.is_empty());
///
/// let refused = Splitter::new(&b"%PDF-1.7\n"[..]).next().unwrap().unwrap_err();
/// assert_eq!(refused.to_string(), "line 1: this seems to be a PDF file");
/// # Ok::<(), modewright_formats::source::SourceError>(())
/// ```
#[derive(Debug)]
pub struct Splitter<R> {
    pieces: Pieces<LineReader<R>>,
    ended: bool,
}

impl<R: BufRead> Splitter<R> {
    /// Reads from here on.
    pub fn new(reader: R) -> Self {
        Self { pieces: Pieces::new(LineReader::new(reader)), ended: false }
    }
}

impl<R: BufRead> Iterator for Splitter<R> {
    type Item = Result<TuneText, SourceError>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.ended {
            return None;
        }
        let result = self.pieces.next();
        self.ended = !matches!(result, Ok(Some(_)));
        match result {
            Ok(tune) => tune.map(Ok),
            Err(Stop::Io(e)) => Some(Err(SourceError::Io(e))),
            Err(Stop::Refused(kind, line)) => Some(Err(SourceError::Refused { kind, line })),
        }
    }
}

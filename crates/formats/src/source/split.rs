//! Files with many tunes.
//!
//! What the standard says (ABC 2.1, §2.2): a tune begins at `X:` and ends at an empty line; fields
//! before the first tune are a file header; text between tunes is no music. Real books are less
//! tidy, so this is how they are split:
//!
//! - `X:` begins a tune wherever it stands, with or without an empty line before it.
//! - A block of lines after an empty line, without `X:`, goes on with the tune before it if it
//!   begins with a field or has bars of notes: better one line too many than half a tune lost.
//!   Comments and directives alone neither end a tune nor go on with it.
//! - Such a block that has a title and a key of its own, after a tune that has a key, is a tune
//!   without number.
//! - Any other block is text between tunes and is skipped, up to the next `X:` or the next block
//!   with a key.
//! - Before the first tune, fields and directives are the file header.
//! - A file without any `X:` is one text: a piece of ABC, or plain letters, as
//!   [`sniff`](super::sniff) decides.

use std::collections::VecDeque;
use std::sync::Arc;

use super::block::{Block, BlockReader, Stop};
use super::line_kind::{LineKind, kind_of};
use super::lines::{Lines, TextLines};
use super::{Kind, TuneText, decode, sniff};
use crate::{Problem, ProblemKind};
use modewright_core::tune::Span;

/// The tunes of a text, in order. A text of blanks alone has none.
///
/// The module's file says how tidy and untidy books are split; [`Splitter`](super::Splitter) does
/// the same to a stream.
///
/// # Examples
///
/// ```
/// use modewright_formats::source::{Kind, split};
///
/// let book = "M:6/8\n\nX:1\nK:D\nABA|\n\nSome words.\n\nX:2\nK:G\nGAB|\n";
/// let tunes: Vec<_> = split(book).collect();
/// assert_eq!(tunes[1].text, "X:2\nK:G\nGAB|\n");
/// assert_eq!((tunes[1].first_line, &*tunes[1].defaults), (9, "M:6/8\n"));
/// // A message is one text, however many empty lines it has.
/// let message: Vec<_> = split("D E F#\n\nG A B\n").collect();
/// assert_eq!((message.len(), message[0].kind), (1, Kind::Letters));
/// ```
pub fn split(text: &str) -> impl Iterator<Item = TuneText> + '_ {
    let mut pieces = Pieces::new(TextLines::new(text));
    // Memory never fails to read, and nothing is refused.
    std::iter::from_fn(move || pieces.next().ok().flatten())
}

/// A tune's bytes while they are gathered.
#[derive(Debug)]
struct Piece {
    bytes: Vec<u8>,
    /// How many of them surely belong to the tune.
    kept: usize,
    first_line: u32,
    cut: bool,
    has_key: bool,
    whole_file: bool,
}

impl Piece {
    fn new(mut block: Block) -> Self {
        block.bytes.drain(..block.gap);
        Self {
            kept: block.bytes.len(),
            bytes: block.bytes,
            first_line: block.body_line,
            cut: block.cut,
            has_key: block.has_key,
            whole_file: false,
        }
    }

    fn add(&mut self, block: &Block, keep: bool) {
        if self.cut || self.bytes.len() + block.bytes.len() > TuneText::MAX_BYTES {
            self.cut |= keep;
            return;
        }
        self.bytes.extend_from_slice(&block.bytes);
        self.cut |= block.cut;
        self.has_key |= block.has_key;
        if keep {
            self.kept = self.bytes.len();
        }
    }
}

/// What a block is to the tune before it.
enum Role {
    Begins,
    GoesOn,
    Undecided,
    Text,
}

/// Gathers blocks into tunes.
#[derive(Debug)]
pub(super) struct Pieces<L> {
    blocks: BlockReader<L>,
    /// Blocks before the first `X:`, until it is known whether there is one.
    head: Option<Vec<Block>>,
    /// How many bytes they have.
    held: usize,
    piece: Option<Piece>,
    /// Whether a tune has begun: then there is no more file header.
    begun: bool,
    header: Vec<u8>,
    defaults: Arc<str>,
    ready: VecDeque<TuneText>,
}

impl<L: Lines> Pieces<L> {
    pub(super) fn new(lines: L) -> Self {
        Self {
            blocks: BlockReader::new(lines),
            head: Some(Vec::new()),
            held: 0,
            piece: None,
            begun: false,
            header: Vec::new(),
            defaults: Arc::from(""),
            ready: VecDeque::new(),
        }
    }

    /// The next tune; `None` at the end.
    pub(super) fn next(&mut self) -> Result<Option<TuneText>, Stop> {
        loop {
            if let Some(tune) = self.ready.pop_front() {
                return Ok(Some(tune));
            }
            match self.blocks.next()? {
                Some(block) => self.take(block),
                None if self.head.is_none() && self.piece.is_none() => return Ok(None),
                None => self.end(),
            }
        }
    }

    fn take(&mut self, block: Block) {
        let Some(head) = &mut self.head else { return self.place(block) };
        if block.numbered {
            for earlier in self.head.take().unwrap_or_default() {
                self.place(earlier);
            }
            self.place(block);
        } else if block.far && !head.is_empty()
            || self.held + block.bytes.len() > TuneText::MAX_BYTES
        {
            // Too long for one text: it ends here, and what follows is seen on its own.
            self.whole(true);
            self.held = block.bytes.len();
            self.head = Some(vec![block]);
        } else {
            self.held += block.bytes.len();
            head.push(block);
        }
    }

    /// The file ends.
    fn end(&mut self) {
        if self.head.is_some() {
            self.whole(false);
        }
        self.finish();
    }

    /// Takes what was held before any `X:` as one text.
    fn whole(&mut self, cut: bool) {
        let mut blocks = self.head.take().unwrap_or_default().into_iter();
        let Some(first) = blocks.next() else { return };
        if first.gap == first.bytes.len() {
            return;
        }
        let mut piece = Piece::new(first);
        for block in blocks {
            piece.add(&block, block.gap < block.bytes.len());
        }
        piece.whole_file = true;
        piece.cut |= cut;
        self.piece = Some(piece);
        self.finish();
    }

    fn role(&self, block: &Block) -> Role {
        let piece = self.piece.as_ref().filter(|_| !block.far);
        let Some(first) = block.first else { return Role::Undecided };
        if block.numbered {
            return Role::Begins;
        }
        match piece {
            Some(piece) if piece.has_key && block.has_title && block.has_key => Role::Begins,
            Some(piece) => match first {
                // Fields that a tune's body cannot have are words with a colon.
                LineKind::Field(letter) if !piece.has_key || in_body(letter) => Role::GoesOn,
                _ if block.has_music => Role::GoesOn,
                _ => Role::Text,
            },
            None if block.has_key => Role::Begins,
            None => Role::Text,
        }
    }

    fn place(&mut self, block: Block) {
        match self.role(&block) {
            Role::Begins => {
                self.finish();
                if !self.begun {
                    self.defaults = Arc::from(text_of(std::mem::take(&mut self.header)).0);
                    self.begun = true;
                }
                self.piece = Some(Piece::new(block));
            }
            Role::GoesOn => {
                if let Some(piece) = &mut self.piece {
                    piece.add(&block, true);
                }
            }
            Role::Undecided => match &mut self.piece {
                Some(piece) => piece.add(&block, false),
                None => self.head_lines(&block),
            },
            Role::Text => {
                self.finish();
                self.head_lines(&block);
            }
        }
    }

    /// Keeps the fields and directives of a block before the first tune.
    fn head_lines(&mut self, block: &Block) {
        if self.begun {
            return;
        }
        let lines = block.bytes.split_inclusive(|&b| b == b'\n' || b == b'\r');
        for line in lines {
            let keep = match kind_of(line) {
                LineKind::Field(_) | LineKind::Directive => true,
                LineKind::Comment => line.starts_with(b"%abc"),
                _ => false,
            };
            if keep && self.header.len() + line.len() < TuneText::MAX_BYTES {
                self.header.extend_from_slice(line.trim_ascii_end());
                self.header.push(b'\n');
            }
        }
    }

    /// The tune that was gathered is done.
    fn finish(&mut self) {
        let Some(mut piece) = self.piece.take() else { return };
        piece.bytes.truncate(piece.kept);
        let (mut text, not_utf8) = text_of(piece.bytes);
        if text.len() > TuneText::MAX_BYTES {
            // Latin-1 letters take two bytes each as UTF-8.
            text.truncate(text.floor_char_boundary(TuneText::MAX_BYTES));
            piece.cut = true;
        }
        let mut problems = Vec::new();
        if not_utf8 {
            let at = text.find(|c: char| !c.is_ascii()).unwrap_or(0);
            problems.push(problem(ProblemKind::Latin1, &text, at, piece.first_line));
        }
        if piece.cut {
            let kind = ProblemKind::TuneTooLong { limit: TuneText::MAX_BYTES };
            problems.push(problem(kind, &text, text.len(), piece.first_line));
        }
        let kind = if piece.whole_file { sniff(&text) } else { Kind::Abc };
        let (first_line, defaults) = (piece.first_line, Arc::clone(&self.defaults));
        self.ready.push_back(TuneText {
            text,
            first_line,
            defaults,
            kind,
            #[cfg(feature = "midi")]
            bytes: Vec::new(),
            problems,
        });
    }
}

/// Fields that may stand in the body of a tune, ABC 2.1 §3, and `H`, whose text may go on.
const fn in_body(letter: u8) -> bool {
    matches!(
        letter,
        b'I' | b'K'
            | b'L'
            | b'M'
            | b'm'
            | b'N'
            | b'P'
            | b'Q'
            | b'R'
            | b'r'
            | b's'
            | b'T'
            | b'U'
            | b'V'
            | b'W'
            | b'w'
            | b'H'
            | b'+'
    )
}

/// Text of bytes, and whether they had to be read as Latin-1.
fn text_of(bytes: Vec<u8>) -> (String, bool) {
    match String::from_utf8(bytes) {
        Ok(text) => (text, false),
        Err(e) => (decode::latin1(e.as_bytes()), true),
    }
}

/// A problem at a byte of a text.
fn problem(kind: ProblemKind, text: &str, at: usize, first_line: u32) -> Problem {
    let before = text.get(..at).unwrap_or(text);
    let bytes = before.as_bytes();
    let both = bytes.windows(2).filter(|two| two == b"\r\n").count();
    let lines = bytes.iter().filter(|b| b"\r\n".contains(b)).count() - both;
    let column = before.rsplit(['\n', '\r']).next().map_or(0, |line| line.chars().count()) + 1;
    let place = u32::try_from(at).unwrap_or(u32::MAX);
    let end = text.get(at..).and_then(|t| t.chars().next()).map_or(at, |c| at + c.len_utf8());
    Problem {
        kind,
        line: first_line.saturating_add(u32::try_from(lines).unwrap_or(u32::MAX)),
        column: u32::try_from(column).unwrap_or(u32::MAX),
        span: Span { start: place, end: u32::try_from(end).unwrap_or(u32::MAX) },
    }
}

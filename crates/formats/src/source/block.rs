//! Lines between empty lines.

use std::io;

use super::line_kind::{LineKind, kind_of};
use super::lines::Lines;
use super::{TuneText, file_type};
use crate::ProblemKind;

/// The most bytes of empty lines that a tune may go on after.
const MAX_GAP: usize = 64 << 10;

/// Lines that belong together, with the empty lines before them.
#[derive(Clone, Debug, Default)]
pub(super) struct Block {
    /// The empty lines, then the lines themselves.
    pub(super) bytes: Vec<u8>,
    /// Where the lines themselves begin in `bytes`.
    pub(super) gap: usize,
    /// Line number of the first line after the empty ones.
    pub(super) body_line: u32,
    /// Whether there were more empty lines before it than are worth keeping.
    pub(super) far: bool,
    /// Whether bytes were left out, because they are too many.
    pub(super) cut: bool,
    /// Whether the first line is `X:`.
    pub(super) numbered: bool,
    /// The first line that is neither comment nor directive.
    pub(super) first: Option<LineKind>,
    /// Whether there is a title field.
    pub(super) has_title: bool,
    /// Whether there is a key field.
    pub(super) has_key: bool,
    /// Whether there are bars of notes.
    pub(super) has_music: bool,
}

impl Block {
    /// Adds a line; `whole` is how many bytes it has, if they were not all kept.
    fn push(&mut self, line: &[u8], whole: u64, kind: LineKind) {
        let room = TuneText::MAX_BYTES.saturating_sub(self.bytes.len());
        let fits = line.len().min(room);
        self.cut |= whole > fits as u64;
        self.bytes.extend_from_slice(line.get(..fits).unwrap_or_default());
        if !matches!(kind, LineKind::Empty | LineKind::Comment | LineKind::Directive) {
            self.first = self.first.or(Some(kind));
        }
        match kind {
            LineKind::Field(b'T') => self.has_title = true,
            LineKind::Field(b'K') => self.has_key = true,
            LineKind::Music => self.has_music = true,
            _ => {}
        }
    }
}

/// Why a stream could not be read on.
#[derive(Debug)]
pub(super) enum Stop {
    Io(io::Error),
    Refused(ProblemKind, u32),
}

/// Reads block by block. A block ends at an empty line or before an `X:` line; empty lines
/// inside typeset text (`%%begintext` to `%%endtext`) do not end it.
#[derive(Debug)]
pub(super) struct BlockReader<L> {
    lines: L,
    /// A line that was read and belongs to the next block, with its whole length.
    held: Option<(Vec<u8>, u64)>,
    line: u32,
    /// Whether a line with something on it was seen.
    begun: bool,
}

impl<L: Lines> BlockReader<L> {
    pub(super) const fn new(lines: L) -> Self {
        Self { lines, held: None, line: 1, begun: false }
    }

    /// The next block; `None` at the end. The last may be empty lines alone.
    pub(super) fn next(&mut self) -> Result<Option<Block>, Stop> {
        let mut block = Block::default();
        let mut in_body = false;
        let mut typeset = false;
        while let Some((line, whole)) = self.line()? {
            let kind = kind_of(&line);
            let ends = match kind {
                LineKind::Number => in_body,
                LineKind::Empty => in_body && !typeset,
                _ => false,
            };
            if ends {
                self.held = Some((line, whole));
                break;
            }
            if kind == LineKind::Empty && !in_body && block.bytes.len() + line.len() > MAX_GAP {
                self.line = self.line.saturating_add(1);
                block = Block { far: true, ..Block::default() };
                continue;
            }
            match kind {
                LineKind::Directive if line.starts_with(b"%%begin") => typeset = true,
                LineKind::Directive if line.starts_with(b"%%end") => typeset = false,
                _ => {}
            }
            if kind != LineKind::Empty && !in_body {
                in_body = true;
                block.body_line = self.line;
                block.gap = block.bytes.len();
                block.numbered = kind == LineKind::Number;
            }
            // Lines of typeset text may look like anything.
            block.push(&line, whole, if typeset { LineKind::Comment } else { kind });
            self.line = self.line.saturating_add(1);
        }
        if !in_body {
            block.gap = block.bytes.len();
            block.body_line = self.line;
        }
        Ok((!block.bytes.is_empty()).then_some(block))
    }

    fn line(&mut self) -> Result<Option<(Vec<u8>, u64)>, Stop> {
        if let Some(held) = self.held.take() {
            return Ok(Some(held));
        }
        let mut line = Vec::new();
        let whole = self.lines.read(&mut line, TuneText::MAX_BYTES + 1).map_err(Stop::Io)?;
        if whole == 0 {
            return Ok(None);
        }
        if L::CHECKED {
            let other = if self.begun { None } else { file_type::other_type(&line) };
            self.begun |= kind_of(&line) != LineKind::Empty;
            if let Some(seems) = other {
                return Err(Stop::Refused(ProblemKind::OtherFileType { seems }, self.line));
            }
            if line.contains(&0) {
                return Err(Stop::Refused(ProblemKind::NotText, self.line));
            }
        }
        Ok(Some((line, whole)))
    }
}

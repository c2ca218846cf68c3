//! Lines of a stream, whatever they end in, without holding more than one.

use std::io::{self, BufRead, BufReader, Chain, Cursor, Read};

use super::decode::{UTF8_MARK, unit, utf16_mark};

/// Reads lines that end in LF, CRLF or CR, as UTF-8 or as the bytes that stand there.
#[derive(Debug)]
pub(super) struct LineReader<R> {
    input: Input<R>,
}

type Marked<R> = Chain<Cursor<Vec<u8>>, R>;

#[derive(Debug)]
enum Input<R> {
    /// Nothing read yet; `None` only while the mark is looked at.
    New(Option<R>),
    Bytes(Marked<R>),
    Wide(BufReader<Utf16<Marked<R>>>),
}

/// Where lines come from.
pub(super) trait Lines {
    /// Whether the bytes may be no text at all.
    const CHECKED: bool;

    /// Appends the next line with its end to `line`, at most `limit` bytes of it, and answers
    /// how many bytes the whole line has; 0 at the end of the stream.
    fn read(&mut self, line: &mut Vec<u8>, limit: usize) -> io::Result<u64>;
}

/// The lines of a text in memory.
#[derive(Debug)]
pub(super) struct TextLines<'a>(&'a [u8]);

impl<'a> TextLines<'a> {
    /// Of a text, without the mark that some programs set before it.
    pub(super) fn new(text: &'a str) -> Self {
        Self(text.strip_prefix('\u{feff}').unwrap_or(text).as_bytes())
    }
}

impl Lines for TextLines<'_> {
    const CHECKED: bool = false;

    fn read(&mut self, line: &mut Vec<u8>, limit: usize) -> io::Result<u64> {
        let end = self.0.iter().position(|&b| b == b'\n' || b == b'\r');
        let end = end.map_or(self.0.len(), |at| {
            at + if self.0.get(at..at + 2) == Some(b"\r\n") { 2 } else { 1 }
        });
        let (whole, rest) = self.0.split_at(end);
        self.0 = rest;
        line.extend_from_slice(whole.get(..limit).unwrap_or(whole));
        Ok(whole.len() as u64)
    }
}

impl<R: BufRead> LineReader<R> {
    pub(super) const fn new(reader: R) -> Self {
        Self { input: Input::New(Some(reader)) }
    }

    fn fill(&mut self) -> io::Result<&[u8]> {
        loop {
            // The borrow of a retried call must end before the next one.
            let result = match &mut self.input {
                Input::New(_) => Ok(0),
                Input::Bytes(input) => input.fill_buf().map(<[u8]>::len),
                Input::Wide(input) => input.fill_buf().map(<[u8]>::len),
            };
            match result {
                Err(e) if e.kind() == io::ErrorKind::Interrupted => {}
                Err(e) => return Err(e),
                Ok(_) => break,
            }
        }
        match &mut self.input {
            Input::New(_) => Ok(&[]),
            Input::Bytes(input) => input.fill_buf(),
            Input::Wide(input) => input.fill_buf(),
        }
    }

    fn consume(&mut self, count: usize) {
        match &mut self.input {
            Input::New(_) => {}
            Input::Bytes(input) => input.consume(count),
            Input::Wide(input) => input.consume(count),
        }
    }
}

impl<R: BufRead> Lines for LineReader<R> {
    const CHECKED: bool = true;

    fn read(&mut self, line: &mut Vec<u8>, limit: usize) -> io::Result<u64> {
        if let Input::New(reader) = &mut self.input {
            let Some(reader) = reader.take() else { return Ok(0) };
            self.input = open(reader)?;
        }
        let mut total = 0;
        let mut room = limit;
        let mut push = |bytes: &[u8]| {
            let fits = bytes.len().min(room);
            line.extend_from_slice(bytes.get(..fits).unwrap_or_default());
            room -= fits;
            total += bytes.len() as u64;
        };
        loop {
            let chunk = self.fill()?;
            if chunk.is_empty() {
                break;
            }
            let end = chunk.iter().position(|&b| b == b'\n' || b == b'\r');
            let Some(end) = end else {
                let used = chunk.len();
                push(chunk);
                self.consume(used);
                continue;
            };
            let is_cr = chunk.get(end) == Some(&b'\r');
            push(chunk.get(..=end).unwrap_or_default());
            self.consume(end + 1);
            if is_cr && self.fill()?.first() == Some(&b'\n') {
                push(b"\n");
                self.consume(1);
            }
            break;
        }
        Ok(total)
    }
}

/// Looks at the byte order mark and drops it.
fn open<R: BufRead>(mut reader: R) -> io::Result<Input<R>> {
    let mut head = Vec::new();
    (&mut reader).take(3).read_to_end(&mut head)?;
    if let Some((big, rest)) = utf16_mark(&head) {
        let marked = Cursor::new(rest.to_vec()).chain(reader);
        let wide = Utf16 { input: marked, big, high: None, ready: Vec::new() };
        return Ok(Input::Wide(BufReader::new(wide)));
    }
    if head == UTF8_MARK {
        head.clear();
    }
    Ok(Input::Bytes(Cursor::new(head).chain(reader)))
}

/// UTF-16 as UTF-8, unit by unit.
#[derive(Debug)]
struct Utf16<R> {
    input: R,
    big: bool,
    /// The first half of a pair that waits for the second.
    high: Option<u16>,
    /// Bytes that did not fit into the last buffer.
    ready: Vec<u8>,
}

impl<R: BufRead> Utf16<R> {
    /// The next unit; `None` at the end.
    fn unit(&mut self) -> io::Result<Option<u16>> {
        let mut pair = Vec::with_capacity(2);
        (&mut self.input).take(2).read_to_end(&mut pair)?;
        Ok((!pair.is_empty()).then(|| unit(&pair, self.big)))
    }
}

impl<R: BufRead> Read for Utf16<R> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        while self.ready.len() < out.len() {
            let Some(unit) = self.unit()? else {
                if self.high.take().is_some() {
                    push(&mut self.ready, char::REPLACEMENT_CHARACTER);
                }
                break;
            };
            let units = self.high.take().into_iter().chain([unit]);
            let is_high = (0xd800..0xdc00).contains(&unit);
            if is_high {
                // Whatever waited has no second half.
                if units.count() == 2 {
                    push(&mut self.ready, char::REPLACEMENT_CHARACTER);
                }
                self.high = Some(unit);
                continue;
            }
            for c in char::decode_utf16(units) {
                push(&mut self.ready, c.unwrap_or(char::REPLACEMENT_CHARACTER));
            }
        }
        let count = self.ready.len().min(out.len());
        for (to, from) in out.iter_mut().zip(self.ready.drain(..count)) {
            *to = from;
        }
        Ok(count)
    }
}

fn push(bytes: &mut Vec<u8>, c: char) {
    bytes.extend_from_slice(c.encode_utf8(&mut [0; 4]).as_bytes());
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::decode;
    use proptest::prelude::*;

    fn lines(bytes: &[u8], buffer: usize, limit: usize) -> Vec<String> {
        let mut reader = LineReader::new(BufReader::with_capacity(buffer, bytes));
        let mut found = Vec::new();
        loop {
            let mut line = Vec::new();
            if reader.read(&mut line, limit).unwrap() == 0 {
                return found;
            }
            found.push(String::from_utf8_lossy(&line).into_owned());
        }
    }

    #[test]
    fn every_line_end_in_buffers_of_every_size() {
        for buffer in 1..20 {
            assert_eq!(
                lines(b"a\nb\r\nc\rd\r\r\n\n\re", buffer, 99),
                ["a\n", "b\r\n", "c\r", "d\r", "\r\n", "\n", "\r", "e"]
            );
            assert_eq!(lines(b"abcdef\ng", buffer, 3), ["abc", "g"]);
            assert_eq!(lines(b"\xef\xbb\xbfa\r", buffer, 99), ["a\r"]);
            assert_eq!(lines(b"\xff\xfea\0\n\0o\x26", buffer, 99), ["a\n", "♯"]);
        }
        assert!(lines(b"", 8, 99).is_empty());
    }

    proptest! {
        #[test]
        fn utf16_streams_as_it_decodes(
            units in prop::collection::vec(prop_oneof![1..0xffff_u16, 0xd7fe..0xe002_u16], 0..40),
            odd in any::<bool>(), big in any::<bool>(), buffer in 1..9_usize,
        ) {
            let to = if big { u16::to_be_bytes } else { u16::to_le_bytes };
            let mut bytes: Vec<u8> = to(0xfeff).to_vec();
            bytes.extend(units.iter().flat_map(|&u| to(u)));
            if odd { bytes.push(65); }
            if let Ok(whole) = decode(&bytes) {
                prop_assert_eq!(lines(&bytes, buffer, 999).concat(), whole.text);
            }
        }
    }
}

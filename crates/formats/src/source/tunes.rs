//! Tunes of a stream of any kind, told by what it holds.

use super::decode::{UTF8_MARK, latin1, unit, utf16_mark};
use super::{Kind, SourceError, Splitter, TuneText};
use crate::musicxml::{self, MAX_UNPACKED, MusicXmlProblem};
use crate::{Problem, ProblemKind};
use std::io::{BufRead, Chain, Cursor, Read};

/// How many bytes are looked at to tell what a stream holds.
const LOOK: u64 = 512;

/// The tunes of a stream: ABC, letters, MusicXML, compressed or not, or a MIDI file. What it is
/// shows in its first bytes; its name does not count.
///
/// Text is read tune by tune in flat memory, as [`Splitter`] does; a score or a MIDI file is read
/// whole, up to a limit.
///
/// # Examples
///
/// ```
/// use modewright_formats::source::{Kind, Tunes};
///
/// let kind = |bytes: &'static [u8]| Tunes::new(bytes).next().unwrap().unwrap().kind;
/// assert_eq!(kind(b"X:1\nK:D\nABc|\n"), Kind::Abc);
/// assert_eq!(kind(b"\xef\xbb\xbf<?xml version=\"1.0\"?><score-partwise/>"), Kind::MusicXml);
/// assert_eq!(kind(b"MThd\0\0\0\x06"), Kind::Midi);
/// // What can be none of them is refused.
/// assert_eq!(Tunes::new(&b"%PDF-1.7"[..]).next().unwrap().unwrap_err().code(), "other-file-type");
/// ```
#[derive(Debug)]
pub struct Tunes<R>(Inner<R>);

#[derive(Debug)]
enum Inner<R> {
    Text(Box<Splitter<Chain<Cursor<Vec<u8>>, R>>>),
    One(Option<Result<TuneText, SourceError>>),
}

impl<R: BufRead> Tunes<R> {
    /// Reads from here on.
    pub fn new(mut reader: R) -> Self {
        let mut head = Vec::new();
        if let Err(error) = reader.by_ref().take(LOOK).read_to_end(&mut head) {
            return Self(Inner::One(Some(Err(SourceError::Io(error)))));
        }
        let Some(look) = look(&head) else {
            return Self(Inner::Text(Box::new(Splitter::new(Cursor::new(head).chain(reader)))));
        };
        Self(Inner::One(Some(whole(look, head, reader))))
    }
}

impl<R: BufRead> Iterator for Tunes<R> {
    type Item = Result<TuneText, SourceError>;

    fn next(&mut self) -> Option<Self::Item> {
        match &mut self.0 {
            Inner::Text(splitter) => splitter.next(),
            Inner::One(one) => one.take(),
        }
    }
}

/// What is read whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Look {
    Xml,
    Package,
    Midi,
}

/// What the first bytes show; `None` for text.
fn look(head: &[u8]) -> Option<Look> {
    let begins = |from: &[u8], signs: &[&[u8]]| {
        let is =
            |sign: &&[u8]| from.get(..sign.len()).is_some_and(|f| f.eq_ignore_ascii_case(sign));
        signs.iter().any(is)
    };
    let riff = head.starts_with(b"RIFF") && head.get(8..12) == Some(b"RMID");
    if head.starts_with(b"MThd") || riff {
        return Some(Look::Midi);
    }
    if head.starts_with(b"PK\x03\x04") {
        return Some(Look::Package);
    }
    let plain = head.strip_prefix(UTF8_MARK).unwrap_or(head).trim_ascii_start();
    let xml: [&[u8]; 4] = [b"<?xml", b"<!doctype score", b"<score-partwise", b"<score-timewise"];
    let wide: [&[u8]; 4] = [b"\xfe\xff\0<", b"\xff\xfe<\0", b"\0<\0?", b"<\0?\0"];
    (begins(plain, &xml) || begins(head, &wide)).then_some(Look::Xml)
}

fn whole(look: Look, head: Vec<u8>, reader: impl BufRead) -> Result<TuneText, SourceError> {
    let limit = if look == Look::Midi { crate::midi::MAX_BYTES } else { MAX_UNPACKED };
    let mut bytes = head;
    let room = limit.saturating_sub(bytes.len() as u64) + 1;
    reader.take(room).read_to_end(&mut bytes).map_err(SourceError::Io)?;
    let refuse = |kind| SourceError::Refused { kind, line: 1 };
    if bytes.len() as u64 > limit {
        return Err(refuse(MusicXmlProblem::TooLarge { limit }.into()));
    }
    match look {
        Look::Midi => Ok(TuneText::midi(bytes)),
        Look::Xml => score(&bytes).map_err(refuse),
        Look::Package => musicxml::unpack(&bytes).and_then(|bytes| score(&bytes)).map_err(refuse),
    }
}

/// The text of a score: UTF-8, UTF-16 with a mark or without, or else Latin-1.
fn score(bytes: &[u8]) -> Result<TuneText, ProblemKind> {
    let wide = match bytes {
        [0, b'<', ..] => Some((true, bytes)),
        [b'<', 0, ..] => Some((false, bytes)),
        _ => utf16_mark(bytes),
    };
    if let Some((big, rest)) = wide {
        let units = rest.chunks(2).map(|pair| unit(pair, big));
        let text: String =
            char::decode_utf16(units).map(|c| c.unwrap_or(char::REPLACEMENT_CHARACTER)).collect();
        return Ok(TuneText::musicxml(text));
    }
    let bytes = bytes.strip_prefix(UTF8_MARK).unwrap_or(bytes);
    if bytes.contains(&0) {
        return Err(ProblemKind::NotText);
    }
    Ok(match std::str::from_utf8(bytes) {
        Ok(text) => TuneText::musicxml(text),
        Err(error) => {
            let before = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let line = before.iter().filter(|&&b| b == b'\n').count() + 1;
            let mut text = TuneText { kind: Kind::MusicXml, ..TuneText::musicxml(latin1(bytes)) };
            let line = u32::try_from(line).unwrap_or(u32::MAX);
            let span = modewright_core::tune::Span::default();
            text.problems.push(Problem { kind: ProblemKind::Latin1, line, column: 1, span });
            text
        }
    })
}

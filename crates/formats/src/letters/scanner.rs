//! Walking along a line with its place in the text.

use crate::piece::cut;
use modewright_core::tune::Span;

/// A place in the text.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Place {
    pub(super) line: u32,
    pub(super) column: u32,
    pub(super) span: Span,
}

/// A line of the text.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line<'a> {
    /// Its characters, without its end.
    pub(super) text: &'a str,
    /// Where they begin, in bytes of the whole text.
    pub(super) start: usize,
    /// Its number in the file, from 1.
    pub(super) number: u32,
}

/// The lines of a text, whatever they end in.
pub(super) fn lines(text: &str, first_line: u32) -> impl Iterator<Item = Line<'_>> {
    let mut start = 0;
    let mut number = first_line;
    std::iter::from_fn(move || {
        let rest = text.get(start..).filter(|rest| !rest.is_empty())?;
        let end = rest.find(['\n', '\r']).unwrap_or(rest.len());
        let (content, after) = cut(rest, end);
        let line = Line { text: content, start, number };
        start += end + if after.starts_with("\r\n") { 2 } else { 1 };
        number = number.saturating_add(1);
        Some(line)
    })
}

/// Reads a line from left to right.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scanner<'a> {
    line: Line<'a>,
    at: usize,
    column: u32,
}

impl<'a> Scanner<'a> {
    pub(super) const fn new(line: Line<'a>) -> Self {
        Self { line, at: 0, column: 1 }
    }

    /// What is still to be read.
    pub(super) fn rest(&self) -> &'a str {
        self.line.text.get(self.at..).unwrap_or_default()
    }

    /// The next character.
    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    /// The character before; a blank at the beginning.
    pub(super) fn before(&self) -> char {
        let read = self.line.text.get(..self.at).unwrap_or_default();
        read.chars().next_back().unwrap_or(' ')
    }

    /// Reads a character.
    pub(super) fn bump(&mut self) -> Option<char> {
        let c = self.peek()?;
        self.at += c.len_utf8();
        self.column = self.column.saturating_add(1);
        Some(c)
    }

    /// Reads a character if it is the right one.
    pub(super) fn eat(&mut self, wanted: impl Fn(char) -> bool) -> Option<char> {
        self.peek().filter(|&c| wanted(c))?;
        self.bump()
    }

    /// Reads as many characters as are right.
    pub(super) fn take_while(&mut self, wanted: impl Fn(char) -> bool) -> &'a str {
        let from = self.at;
        while self.eat(&wanted).is_some() {}
        self.line.text.get(from..self.at).unwrap_or_default()
    }

    /// Reads so many bytes; they must end between two characters.
    pub(super) fn skip(&mut self, bytes: usize) {
        let to = self.at.saturating_add(bytes);
        while self.at < to && self.bump().is_some() {}
    }

    /// What was read since an earlier state, and its place.
    pub(super) fn since(&self, earlier: &Self) -> (&'a str, Place) {
        let text = self.line.text.get(earlier.at..self.at).unwrap_or_default();
        let at = |byte: usize| u32::try_from(self.line.start + byte).unwrap_or(u32::MAX);
        let span = Span { start: at(earlier.at), end: at(self.at) };
        (text, Place { line: self.line.number, column: earlier.column, span })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_count_characters_and_lines() {
        let text = "a\r\n♯ bc\r\rd";
        let found: Vec<_> = lines(text, 7).map(|l| (l.text, l.start, l.number)).collect();
        assert_eq!(found, [("a", 0, 7), ("♯ bc", 3, 8), ("", 10, 9), ("d", 11, 10)]);
        let mut scanner = Scanner::new(lines(text, 7).nth(1).unwrap());
        scanner.take_while(|c| c != 'b');
        let start = scanner;
        assert_eq!(scanner.take_while(|_| true), "bc");
        let (word, place) = scanner.since(&start);
        assert_eq!((word, place.line, place.column), ("bc", 8, 3));
        assert_eq!(&text[place.span.start as usize..place.span.end as usize], "bc");
    }
}

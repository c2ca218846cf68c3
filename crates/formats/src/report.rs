//! Gathers problems while a text is read, and finds their lines and columns at the end.

use crate::{Problem, ProblemKind};
use modewright_core::tune::Span;

/// Problems with their places in bytes.
#[derive(Debug, Default)]
pub(crate) struct Report {
    found: Vec<(Span, ProblemKind)>,
    /// Where the first problem stands that was not kept.
    over: Option<Span>,
}

/// A place in a text that is at most [`crate::source::TuneText::MAX_BYTES`] long.
pub(crate) fn span(start: usize, end: usize) -> Span {
    let byte = |at| u32::try_from(at).unwrap_or(u32::MAX);
    Span { start: byte(start), end: byte(end.max(start)) }
}

/// The beginning of a piece of text, short enough for a message.
pub(crate) fn excerpt(text: &str) -> String {
    const MOST: usize = 40;
    let text = text.trim();
    match text.char_indices().nth(MOST) {
        Some((at, _)) => format!("{}…", text.get(..at).unwrap_or_default()),
        None => text.to_owned(),
    }
}

impl Report {
    /// The most problems that are kept for one tune.
    pub(crate) const MAX: usize = crate::limits::PROBLEMS;

    /// Adds a problem about the bytes from `start` to `end`.
    pub(crate) fn add(&mut self, start: usize, end: usize, kind: ProblemKind) {
        if self.found.len() < Self::MAX {
            self.found.push((span(start, end), kind));
        } else {
            self.over.get_or_insert(span(start, end));
        }
    }

    /// How many there are so far.
    pub(crate) const fn len(&self) -> usize {
        self.found.len()
    }

    /// Forgets all problems but the first `count`.
    pub(crate) fn truncate(&mut self, count: usize) {
        self.found.truncate(count);
    }

    /// The problems in the order of the text, with lines and columns. Spans are mended so that
    /// they lie within the text and on its characters.
    pub(crate) fn finish(mut self, text: &str, first_line: u32) -> Vec<Problem> {
        if self.found.is_empty() {
            return Vec::new();
        }
        if let Some(span) = self.over {
            self.found.push((span, ProblemKind::TooManyProblems { limit: Self::MAX }));
        }
        for (span, _) in &mut self.found {
            *span = on_characters(*span, text);
        }
        modewright_core::order::by_number(&mut self.found, |(span, _)| span.start);
        let mut place = Place { at: 0, line: first_line, column: 1 };
        let found = self.found.into_iter();
        found
            .map(|(span, kind)| {
                place.walk(text, span.start as usize);
                Problem { kind, line: place.line, column: place.column, span }
            })
            .collect()
    }
}

fn on_characters(place: Span, text: &str) -> Span {
    let start = text.floor_char_boundary(place.start as usize);
    let end = text.ceil_char_boundary((place.end as usize).min(text.len()));
    span(start, end)
}

/// A place that moves forward through the text.
struct Place {
    at: usize,
    line: u32,
    column: u32,
}

impl Place {
    fn walk(&mut self, text: &str, to: usize) {
        let passed = text.as_bytes().get(self.at..to).unwrap_or_default();
        if !passed.contains(&b'\r')
            && (self.at == 0 || text.as_bytes().get(self.at - 1) != Some(&b'\r'))
        {
            let lines = passed.iter().filter(|&&b| b == b'\n').count();
            let line = passed.iter().rposition(|&b| b == b'\n');
            let after = passed.get(line.map_or(0, |at| at + 1)..).unwrap_or_default();
            // Every byte but those that go on with a character begins one.
            let characters = after.iter().filter(|&&b| b & 0xc0 != 0x80).count();
            let number = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
            self.line = self.line.saturating_add(number(lines));
            let column = if line.is_some() { 1 } else { self.column };
            self.column = column.saturating_add(number(characters));
            self.at = to;
            return;
        }
        let mut last = if self.at > 0 { text.as_bytes().get(self.at - 1).copied() } else { None };
        for c in text.get(self.at..to).unwrap_or_default().chars() {
            match c {
                '\n' if last == Some(b'\r') => {}
                '\n' | '\r' => {
                    self.line = self.line.saturating_add(1);
                    self.column = 1;
                }
                _ => self.column = self.column.saturating_add(1),
            }
            last = u8::try_from(c).ok();
        }
        self.at = to;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_and_columns_count_characters_and_every_kind_of_line_end() {
        let text = "aé\r\nß|\rx\n\ny";
        let mut report = Report::default();
        for at in (0..=text.len()).rev() {
            report.add(at, at + 1, ProblemKind::NoKey);
        }
        let places: Vec<_> = report
            .finish(text, 7)
            .into_iter()
            .filter(|p| text.is_char_boundary(p.span.end as usize))
            .map(|p| (p.span.start, p.line, p.column))
            .collect();
        for place in
            [(0, 7, 1), (1, 7, 2), (5, 8, 1), (7, 8, 2), (9, 9, 1), (11, 10, 1), (12, 11, 1)]
        {
            assert!(places.contains(&place), "{place:?} in {places:?}");
        }
    }

    #[test]
    fn there_is_an_end_to_problems() {
        let mut report = Report::default();
        for _ in 0..Report::MAX + 5 {
            report.add(0, 1, ProblemKind::NoKey);
        }
        let problems = report.finish("x", 1);
        assert_eq!(problems.len(), Report::MAX + 1);
        assert!(problems.iter().any(|p| p.kind.code() == "too-many-problems"));
    }
}

//! Marks in the text: what is odd, and the notes that a reason is about.

use modewright_formats::Severity;
use std::ops::Range;

/// Why a piece of the text is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum MarkKind {
    /// A reason is about this note.
    Reason,
    /// The reader chose something that the writer may want to know of.
    Note,
    /// Odd.
    Warning,
    /// Not understood.
    Error,
}

impl MarkKind {
    /// All kinds, the gravest last.
    pub const ALL: [Self; 4] = [Self::Reason, Self::Note, Self::Warning, Self::Error];
}

impl From<Severity> for MarkKind {
    fn from(severity: Severity) -> Self {
        match severity {
            Severity::Note => Self::Note,
            Severity::Warning => Self::Warning,
            Severity::Error => Self::Error,
        }
    }
}

/// A piece of the text, marked or plain.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Its bytes.
    pub range: Range<usize>,
    /// Its marks, the gravest last; none for plain text.
    pub kinds: Vec<MarkKind>,
}

/// Cuts a text into pieces at the edges of its marks. The pieces cover the text without gap or
/// overlap, whatever the marks: those out of range are cut to it, edges within a character move
/// to its start, and an empty mark covers the character it stands before.
#[must_use]
pub fn pieces(text: &str, marks: &[(Range<usize>, MarkKind)]) -> Vec<Piece> {
    let floor =
        |at: usize| (0..=at.min(text.len())).rev().find(|&i| text.is_char_boundary(i)).unwrap_or(0);
    // Where each mark begins or ends, with its kind, packed into one number that sorts by place.
    const BEGINS: usize = MarkKind::ALL.len();
    const PACK: usize = 2 * BEGINS;
    let mut edges: Vec<u64> = Vec::with_capacity(2 * marks.len() + 1);
    for (range, kind) in marks {
        let start = floor(range.start);
        let mut end = floor(range.end).max(start);
        if end == start {
            let next = text.get(start..).and_then(|rest| rest.chars().next());
            let Some(next) = next.filter(|c| *c != '\n') else { continue };
            end += next.len_utf8();
        }
        let edge = |at: usize, kind: usize| (at * PACK + kind) as u64;
        edges.extend([edge(start, BEGINS + *kind as usize), edge(end, *kind as usize)]);
    }
    modewright_core::order::numbers(&mut edges);
    let mut pieces = Vec::new();
    let mut live = [0_usize; MarkKind::ALL.len()];
    let mut from = 0;
    let mut cut = |to: usize, live: &[usize]| {
        if to > from {
            let kinds = MarkKind::ALL.into_iter().filter(|kind| live[*kind as usize] > 0);
            pieces.push(Piece { range: from..to, kinds: kinds.collect() });
            from = to;
        }
    };
    for edge in edges {
        // It was made of places in the text.
        let edge = usize::try_from(edge).unwrap_or(0);
        cut(edge / PACK, &live);
        let count = &mut live[edge % BEGINS];
        *count = if edge % PACK >= BEGINS { *count + 1 } else { count.saturating_sub(1) };
    }
    cut(text.len(), &live);
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;
    use MarkKind::{Error, Reason, Warning};

    fn cut(text: &str, marks: &[(Range<usize>, MarkKind)]) -> Vec<(String, Vec<MarkKind>)> {
        let pieces = pieces(text, marks);
        let whole: String = pieces.iter().map(|p| &text[p.range.clone()]).collect();
        assert_eq!(whole, text, "pieces cover the text");
        pieces.into_iter().map(|p| (text[p.range].to_owned(), p.kinds)).collect()
    }

    #[test]
    fn marks_may_overlap_touch_and_repeat() {
        let found = cut("abcdef", &[(1..4, Warning), (2..6, Error), (1..4, Warning)]);
        let wanted = [
            ("a", vec![]),
            ("b", vec![Warning]),
            ("cd", vec![Warning, Error]),
            ("ef", vec![Error]),
        ];
        assert_eq!(found, wanted.map(|(t, k)| (t.to_owned(), k)));
    }

    #[test]
    fn odd_ranges_are_cut_to_what_is_there() {
        assert_eq!(cut("né", &[(2..99, Error)]), [("n".into(), vec![]), ("é".into(), vec![Error])]);
        assert_eq!(cut("", &[(0..4, Error)]), []);
        assert_eq!(
            cut("ab", &[(1..1, Reason)]),
            [("a".into(), vec![]), ("b".into(), vec![Reason])]
        );
        assert_eq!(cut("ab\n", &[(2..2, Reason)]), [("ab\n".into(), vec![])]);
    }

    #[test]
    fn many_marks_are_cut_in_good_time() {
        let text = "x".repeat(60_000);
        let marks: Vec<_> = (0..30_000).map(|i| (2 * i..2 * i + 1, Error)).collect();
        assert_eq!(pieces(&text, &marks).len(), 60_000);
    }
}

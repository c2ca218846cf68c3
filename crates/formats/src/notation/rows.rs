//! Rows of text under the notes, for formats that have lines of words.

use modewright_core::Tune;
use modewright_core::tune::{Mark, MarkKind, Syllable};

/// A row of text under the notes: a count, degrees, fingerings.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Row {
    /// What it is called.
    pub name: String,
    /// A text for every note and rest of the tune, in their order; an empty one leaves its place
    /// free.
    pub texts: Vec<String>,
}

/// Hangs rows on the notes as verses after the tune's own; gives the number of the first.
///
/// # Examples
///
/// ```
/// use modewright_formats::notation::{Row, add_rows};
/// use modewright_formats::{ReadOptions, abc, source::TuneText};
///
/// let text = TuneText::abc("X:1\nL:1/4\nK:C\nCD|\nw: low tide\n");
/// let mut tune = abc::read(&text, &ReadOptions::default()).tune;
/// let row = Row { name: "degree".into(), texts: vec!["1".into(), "2".into()] };
/// assert_eq!(add_rows(&mut tune, &[row]), 1);
/// assert!(abc::write(&tune).ends_with("CD |\nw:low tide\nw:1 2\n"));
/// ```
pub fn add_rows(tune: &mut Tune, rows: &[Row]) -> u16 {
    let verses = tune.marks.iter().filter_map(|mark| match mark.kind {
        MarkKind::Lyric { verse, .. } => Some(verse.saturating_add(1)),
        _ => None,
    });
    let first = verses.max().unwrap_or(0);
    for (row, number) in rows.iter().zip(first..) {
        for (event, text) in row.texts.iter().enumerate().take(tune.events.len()) {
            let text = text.trim().to_owned();
            if !text.is_empty() {
                let syllable = Syllable::Text { text, hyphen: false };
                let kind = MarkKind::Lyric { verse: number, syllable };
                tune.marks.push(Mark { event, kind, span: Default::default() });
            }
        }
    }
    tune.marks.sort_by_key(|mark| mark.event);
    first
}

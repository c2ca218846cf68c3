//! Tunes to compare: without what depends on how a text is laid out.

use modewright_core::Tune;
use modewright_core::tune::{MarkKind, Span};

/// The tune without places in its text, without the ends of its lines, and with all that hangs on
/// a note in one order. Two texts of one tune are equal then.
///
/// The second of two bar lines in a row leaves its dots with the bar before and the bar after;
/// one sign that says both leaves them with the bar before.
#[must_use]
pub fn plain(tune: &Tune) -> Tune {
    let mut tune = tune.clone();
    tune.header.number.get_or_insert_with(|| "1".to_owned());
    for event in &mut tune.events {
        event.span = Span::default();
    }
    for bar in &mut tune.bars {
        bar.span = Span::default();
        bar.open.repeat_back = 0;
    }
    for key in &mut tune.keys {
        key.span = Span::default();
    }
    let end = tune.events.len();
    tune.marks.retain(|mark| match mark.kind {
        MarkKind::LineEnd => false,
        // A metre after the last note says nothing.
        MarkKind::Metre(_) => mark.event < end,
        _ => true,
    });
    for mark in &mut tune.marks {
        mark.span = Span::default();
    }
    // The end of a slur that never began says nothing.
    let mut open = 0_usize;
    tune.marks.sort_by_key(|mark| (mark.event, u8::from(mark.kind == MarkKind::SlurEnd)));
    tune.marks.retain(|mark| {
        match mark.kind {
            MarkKind::SlurStart => open += 1,
            MarkKind::SlurEnd if open == 0 => return false,
            MarkKind::SlurEnd => open -= 1,
            _ => {}
        }
        true
    });
    tune.marks.sort_by_key(|mark| (mark.event, rank(&mark.kind)));
    tune
}

fn rank(kind: &MarkKind) -> (u8, u16) {
    match kind {
        MarkKind::Key(_) => (0, 0),
        MarkKind::Metre(_) => (1, 0),
        MarkKind::Tempo(_) => (2, 0),
        MarkKind::Part(_) => (3, 0),
        MarkKind::ChordSign(_) => (4, 0),
        MarkKind::Text { .. } => (5, 0),
        MarkKind::Sign(_) => (6, 0),
        MarkKind::Tuplet { .. } => (7, 0),
        MarkKind::SlurStart => (8, 0),
        MarkKind::Grace { .. } => (9, 0),
        MarkKind::ChordNote(_) => (10, 0),
        MarkKind::SlurEnd => (11, 0),
        MarkKind::Lyric { verse, .. } => (12, *verse),
        MarkKind::LineEnd => (13, 0),
    }
}

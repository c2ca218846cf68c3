//! The tune on a staff, and what is told of one of its notes.

use crate::analysis::Analysis;
use crate::rows::{ROWS, Rows};
use modewright_core::count::{CountOptions, count};
use modewright_lesson::walk::{Values, Wording};
use modewright_lesson::words::{self, Advice};
use modewright_sheet::{MarkedNote, Paper, Request, RowKind, Sheet, engrave, svg};

/// What is told of the note or rest at an index of the tune; `None` where there is none.
#[must_use]
pub fn note_told(analysis: &Analysis, at: usize, values: Values) -> Option<String> {
    let tune = &analysis.reading.tune;
    let counts = count(tune, CountOptions::default());
    words::pointed(tune, at, analysis.key(), &counts, values, &Wording::english_values())
}

/// Whether a row has anything to say of a tune without an instrument.
#[must_use]
pub fn can_be_shown(analysis: &Analysis, row: RowKind) -> bool {
    let sung = |mark: &modewright_core::tune::Mark| {
        matches!(mark.kind, modewright_core::tune::MarkKind::Lyric { .. })
    };
    match row {
        RowKind::Words => analysis.reading.tune.marks.iter().any(sung),
        RowKind::Fingering | RowKind::Bellows => false,
        RowKind::Degree | RowKind::Solfa => analysis.key().is_some(),
        RowKind::Note | RowKind::Count => true,
    }
}

/// The picture, laid out for a width in pixels of a 96th of an inch. Slower than all the rest: it is
/// made after a pause.
///
/// # Errors
///
/// Where the tune has more notes than a sheet is made for: what a reader is told.
pub fn staff_picture(
    analysis: &Analysis,
    shown: Rows,
    marked: &[MarkedNote],
    width: u32,
) -> Result<String, Advice> {
    let tune = &analysis.reading.tune;
    if let Some(why) = Sheet::too_long(tune) {
        return Err(why);
    }
    let request = Request {
        paper: Paper::screen(width),
        rows: ROWS.into_iter().filter(|row| shown.has(*row)).collect(),
        marked: marked.to_vec(),
        key: analysis.key(),
        ..Request::default()
    };
    Ok(svg(&engrave(tune, &request.options(tune))))
}

//! The tune on a staff, and what is told of the note that the reader points at.

use crate::analysis::Analysis;
use crate::labels;
use crate::state::{ROWS, Rows, State};
use modewright_core::PitchClass;
use modewright_core::count::{CountOptions, count};
use modewright_lesson::walk::{Values, Wording};
use modewright_lesson::words;
use modewright_sheet::{MarkedNote, Paper, Request, RowKind, engrave, svg};
use std::rc::Rc;

/// The staff.
#[derive(Clone, Debug, PartialEq)]
pub struct StaffView {
    /// The notes and rests that can be pointed at.
    pub notes: Rc<[usize]>,
    /// The rows that can be chosen, with their names.
    pub rows: Vec<(RowKind, &'static str, bool)>,
    /// What is told of the note that is pointed at.
    pub told: Option<String>,
    /// The home note.
    pub home: Option<PitchClass>,
    /// The highest number of a bar.
    pub last_bar: u32,
}

/// `None` where there is no note to show.
pub(super) fn staff(analysis: &Analysis, state: &State) -> Option<StaffView> {
    let tune = &analysis.reading.tune;
    tune.soundings().next()?;
    let told = state.pointed.and_then(|at| {
        let counts = count(tune, CountOptions::default());
        let (values, wording) = (Values::British, Wording::english());
        words::pointed(tune, at, analysis.key(), &counts, values, &wording)
    });
    let sung = tune
        .marks
        .iter()
        .any(|mark| matches!(mark.kind, modewright_core::tune::MarkKind::Lyric { .. }));
    let can_be_shown = |row: &RowKind| match row {
        RowKind::Words => sung,
        RowKind::Fingering | RowKind::Bellows => false,
        RowKind::Degree | RowKind::Solfa => analysis.key().is_some(),
        RowKind::Note | RowKind::Count => true,
    };
    let row = |row| (row, labels::row(row), state.rows.has(row));
    Some(StaffView {
        notes: (0..tune.events.len()).collect(),
        rows: ROWS.into_iter().filter(can_be_shown).map(row).collect(),
        told,
        home: analysis.key().map(|key| key.home.pitch_class()),
        last_bar: tune.bars.iter().map(|bar| bar.number).max().unwrap_or(0),
    })
}

/// The picture, laid out for a width in pixels of a 96th of an inch. Slower than the rest of the
/// page: it is made after a pause.
#[must_use]
pub fn staff_picture(analysis: &Analysis, shown: Rows, width: u32) -> String {
    let tune = &analysis.reading.tune;
    let width = width.clamp(240, 1600) * 25_400 / 96;
    let request = Request {
        paper: Paper { width, height: None, margin: 0, space: 1_700 },
        rows: ROWS.into_iter().filter(|row| shown.has(*row)).collect(),
        marked: vec![MarkedNote::Home, MarkedNote::Lowest, MarkedNote::Highest],
        key: analysis.key(),
        ..Request::default()
    };
    svg(&engrave(tune, &request.options(tune)))
}

/// The note of the tune at a byte of the field.
#[must_use]
pub fn note_at(analysis: &Analysis, byte: usize) -> Option<usize> {
    let events = &analysis.reading.tune.events;
    events.iter().position(|event| {
        let place = analysis.in_field(event.span);
        place.start <= byte && byte < place.end
    })
}

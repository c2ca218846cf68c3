//! The tune on a staff, and what is told of the note that the reader points at.

use super::instrument::{plan, sign_of};
use crate::analysis::Analysis;
use crate::labels;
use crate::player::Player;
use crate::state::{ROWS, Rows, State};
use modewright_core::count::{CountOptions, count};
use modewright_core::instrument::Air;
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
}

/// `None` where there is no note to show.
pub(super) fn staff(analysis: &Analysis, state: &State) -> Option<StaffView> {
    let tune = &analysis.reading.tune;
    tune.soundings().next()?;
    let instrument = state.player.instrument();
    let told = state.pointed.and_then(|at| {
        let counts = count(tune, CountOptions::default());
        let (values, wording) = (Values::British, Wording::english());
        let told = words::pointed(tune, at, analysis.key(), &counts, values, &wording)?;
        let sign = instrument.as_ref().and_then(|it| sign_of(tune, it, state.player.style, at));
        Some(sign.map_or(told.clone(), |sign| format!("{told} {}", labels::way(&sign))))
    });
    let sung = tune
        .marks
        .iter()
        .any(|mark| matches!(mark.kind, modewright_core::tune::MarkKind::Lyric { .. }));
    let can_be_shown = |row: &RowKind| match row {
        RowKind::Words => sung,
        RowKind::Fingering => instrument.is_some(),
        RowKind::Bellows => instrument.as_ref().is_some_and(|it| it.air == Some(Air::Bellows)),
        RowKind::Degree | RowKind::Solfa => analysis.key().is_some(),
        RowKind::Note | RowKind::Count => true,
    };
    let row = |row| (row, labels::row(row), state.rows.has(row));
    Some(StaffView {
        notes: (0..tune.events.len()).collect(),
        rows: ROWS.into_iter().filter(can_be_shown).map(row).collect(),
        told,
    })
}

/// The picture, laid out for a width in pixels of a 96th of an inch. Slower than the rest of the
/// page: it is made after a pause.
#[must_use]
pub fn staff_picture(analysis: &Analysis, shown: Rows, player: &Player, width: u32) -> String {
    let tune = &analysis.reading.tune;
    let instrument = player.instrument();
    let plan = instrument.as_ref().map(|it| plan(tune, it, player.style));
    let width = width.clamp(240, 1600) * 25_400 / 96;
    let request = Request {
        paper: Paper { width, height: None, margin: 0, space: 1_700 },
        rows: ROWS.into_iter().filter(|row| shown.has(*row)).collect(),
        marked: vec![MarkedNote::Home, MarkedNote::Lowest, MarkedNote::Highest],
        key: analysis.key(),
        played: instrument.as_deref().zip(plan.as_ref()),
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

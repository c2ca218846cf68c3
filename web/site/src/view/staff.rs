//! The tune on a staff, and what is told of the note that the reader points at.

use super::instrument::signs;
use crate::analysis::Analysis;
use crate::labels;
use crate::player::Player;
use crate::state::{RowKind, Rows, State};
use modewright_core::count::{CountOptions, count};
use modewright_lesson::walk::{Values, Wording};
use modewright_lesson::words;
use modewright_sheet::{Cell, Options, Paper, engrave, rows, svg};
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
    let told = state.pointed.and_then(|at| {
        let counts = count(tune, CountOptions::default());
        let said =
            words::pointed(tune, at, analysis.key(), &counts, Values::British, &Wording::english());
        let way = state.player.instrument().and_then(|instrument| {
            let signs = signs(tune, &instrument, state.player.style);
            signs.into_iter().find(|(event, sign)| *event == at && !sign.is_empty())
        });
        match (said, way) {
            (Some(said), Some((_, sign))) => Some(format!("{said} {}", labels::way(&sign))),
            (said, _) => said,
        }
    });
    let has_words = !rows::lyrics(tune, "").is_empty();
    let row = |row| (row, labels::row(row), state.rows.has(row));
    let has_player = !state.player.id.is_empty();
    let shown = RowKind::ALL.into_iter().filter(|row| match row {
        RowKind::Words => has_words,
        RowKind::Fingering => has_player,
        RowKind::Names | RowKind::Degrees | RowKind::Count => true,
    });
    Some(StaffView {
        notes: (0..tune.events.len()).collect(),
        rows: shown.map(row).collect(),
        told,
    })
}

/// The picture, laid out for a width in pixels of a 96th of an inch. Slower than the rest of the
/// page: it is made after a pause.
#[must_use]
pub fn staff_picture(analysis: &Analysis, shown: Rows, player: &Player, width: u32) -> String {
    let tune = &analysis.reading.tune;
    let mut under = Vec::new();
    for row in RowKind::ALL.into_iter().filter(|row| shown.has(*row)) {
        let label = labels::row(row);
        match row {
            RowKind::Names => under.push(rows::names(tune, label, words::note)),
            RowKind::Degrees => {
                under.extend(analysis.key().map(|key| rows::degrees(tune, label, key)));
            }
            RowKind::Count => {
                under.push(rows::counts(tune, label, &count(tune, CountOptions::default())));
            }
            RowKind::Fingering => under.extend(player.instrument().map(|instrument| {
                let mut row = rows::names(tune, label, |_| String::new());
                for (at, sign) in signs(tune, &instrument, player.style) {
                    if let Some(cell) = row.cells.get_mut(at) {
                        *cell = Cell::Text(sign);
                    }
                }
                row
            })),
            RowKind::Words => under.extend(rows::lyrics(tune, label)),
        }
    }
    let description = rows::description(tune, analysis.key(), &under);
    let width = width.clamp(240, 1600) * 25_400 / 96;
    let paper = Paper { width, height: None, margin: 0, space: 1_700 };
    svg(&engrave(tune, &Options { paper, rows: under, description, ..Options::default() }))
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

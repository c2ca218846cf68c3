//! The tune on a staff, and what is told of the note that the reader points at.

use crate::analysis::Analysis;
use crate::labels;
use crate::state::{ROWS, State};
use modewright_components::view::{can_be_shown, note_told};
use modewright_core::PitchClass;
use modewright_lesson::walk::Values;
use modewright_sheet::RowKind;
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
    /// The instrument whose rows are shown, where one is.
    pub played: Option<PlayedOn>,
}

/// An instrument under the staff.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlayedOn {
    /// Its id.
    pub id: Rc<str>,
    /// The manner of playing; empty for the usual one.
    pub style: Rc<str>,
    /// Instruments of the reader's own.
    pub own: Rc<str>,
}

/// `None` where there is no note to show.
pub(super) fn staff(analysis: &Analysis, state: &State) -> Option<StaffView> {
    let tune = &analysis.reading.tune;
    tune.soundings().next()?;
    let instrument = &state.instrument;
    let is_shown = |row: &RowKind| match row {
        RowKind::Fingering => !instrument.id.is_empty(),
        RowKind::Bellows => instrument.answer.as_ref().is_some_and(|answer| answer.bellows),
        row => can_be_shown(analysis, *row),
    };
    let told = |at| {
        let told = note_told(analysis, at, Values::British)?;
        Some(match instrument.sign_of(at) {
            Some(sign) => format!("{told} {}", labels::instrument::way(sign)),
            None => told,
        })
    };
    let row = |row| (row, labels::row(row), state.rows.has(row));
    Some(StaffView {
        notes: (0..tune.events.len()).collect(),
        rows: ROWS.into_iter().filter(is_shown).map(row).collect(),
        told: state.pointed.and_then(told),
        home: analysis.key().map(|key| key.home.pitch_class()),
        last_bar: tune.bars.iter().map(|bar| bar.number).max().unwrap_or(0),
        played: (!instrument.id.is_empty()).then(|| PlayedOn {
            id: instrument.id.clone(),
            style: instrument.style.clone(),
            own: instrument.own_text.clone(),
        }),
    })
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

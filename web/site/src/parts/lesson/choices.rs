//! What the lesson shows.

use crate::analysis::Analysis;
use crate::labels::{self, lesson as said};
use crate::lesson::{CHOICES, Choice, MARKS};
use crate::parts::tags::{of, says, select, tag, tick};
use crate::state::{ROWS, State};
use modewright_core::MetreKind;
use modewright_core::tune::MarkKind;
use modewright_sheet::RowKind;
use yew::prelude::*;

pub(super) fn choices(analysis: &Analysis, state: &State) -> Html {
    let lesson = &state.lesson;
    let tune = &analysis.reading.tune;
    let can_be_shown = |row: RowKind| match row {
        RowKind::Words => tune.marks.iter().any(|m| matches!(m.kind, MarkKind::Lyric { .. })),
        RowKind::Fingering => !state.instrument.id.is_empty(),
        RowKind::Bellows => state.instrument.current().is_some_and(|answer| answer.bellows),
        RowKind::Degree | RowKind::Solfa => analysis.key().is_some(),
        RowKind::Note | RowKind::Count => true,
    };
    let kind = tune.metre.kind();
    let is_counted = |choice: Choice| match choice {
        Choice::Simple => kind == MetreKind::Simple,
        Choice::Compound => kind == MetreKind::Compound,
        Choice::Uneven => kind == MetreKind::Irregular,
        _ => true,
    };
    let mut rows = vec![says("legend", "", labels::ROWS)];
    for (at, row) in ROWS.into_iter().enumerate() {
        if can_be_shown(row) {
            rows.push(tick(labels::row(row), &format!("row {at}"), lesson.rows.has(row)));
        }
    }
    let mut marks = vec![says("legend", "", said::MARKED)];
    for (at, name) in MARKS.into_iter().enumerate() {
        marks.push(tick(name, &format!("mark {at}"), lesson.marks(at)));
    }
    let mut selects = Vec::new();
    for (at, choice) in CHOICES.into_iter().enumerate() {
        if is_counted(choice) {
            let (name, options) = (said::choice(choice), said::options(choice));
            selects.push(select(name, &format!("choose {at}"), options, lesson.chosen(choice)));
        }
    }
    let keys = &["class", "role", "aria-label"];
    let parts = vec![
        of("fieldset", "rows", rows),
        of("fieldset", "rows", marks),
        of("div", "selects", selects),
    ];
    tag("div", keys, &["lesson-choices", "group", said::CHOICES], parts)
}

//! Rows under the notes of a score: those of a lesson, as lines of words.

use crate::args::ConvertArgs;
use crate::failure::Failure;
use crate::instruments;
use crate::sheet_args::RowName;
use modewright_core::Tune;
use modewright_core::count::Detail;
use modewright_core::find::find;
use modewright_core::fingering::{self, plan};
use modewright_core::instrument::Instrument;
use modewright_formats::notation::Row;
use modewright_lesson::words;
use modewright_sheet::{Played, Request, RowKind};

/// The instrument that is asked for.
pub(crate) fn instrument(args: &ConvertArgs) -> Result<Option<Instrument>, Failure> {
    args.on.as_deref().map(|name| instruments::one("--on", name)).transpose()
}

/// The rows of a tune. Its words are in it already; a row that has nothing to say is told of.
pub(crate) fn of(args: &ConvertArgs, tune: &Tune, instrument: Option<&Instrument>) -> Vec<Row> {
    let plan = instrument.map(|it| plan(tune, it, fingering::Options::default()));
    let key = (!args.rows.is_empty()).then(|| find(tune).best().map(|best| best.key)).flatten();
    let mut all = Vec::new();
    for name in &args.rows {
        let kind = RowKind::from(*name);
        if kind == RowKind::Words {
            continue;
        }
        let request = Request {
            rows: vec![kind],
            names: args.names.into(),
            count: args.count.options(Detail::Beats),
            key,
            played: instrument.zip(plan.as_ref()).map(|(it, plan)| Played::of(it, plan)),
            ..Request::default()
        };
        let rows = request.options(tune).rows;
        if rows.is_empty() {
            tell_empty(*name, instrument);
        }
        all.extend(rows.into_iter().map(|row| Row {
            texts: row.cells.iter().map(modewright_sheet::Cell::plain).collect(),
            name: row.label,
        }));
    }
    all
}

/// Tells of a row that has nothing to say.
pub(crate) fn tell_empty(name: RowName, instrument: Option<&Instrument>) {
    let advice = words::empty_row(&name.word(), instrument.is_some());
    anstream::eprintln!("warning: {}\nhint: {}", advice.message, advice.hint);
}

//! Bars that do not fill their metre.

use crate::ProblemKind;
use crate::report::Report;
use modewright_core::Tune;

/// Reports bars that are too long, and bars that are too short where no pickup, repeat sign or
/// ending explains it.
pub(super) fn bar_lengths(tune: &Tune, report: &mut Report) {
    for (i, bar) in tune.bars.iter().enumerate() {
        let Some(expected) = bar.metre.bar_length() else { continue };
        if bar.length == expected {
            continue;
        }
        let before = i.checked_sub(1).and_then(|i| tune.bars.get(i));
        let after = tune.bars.get(i + 1);
        // A strain or an ending may begin and end with a part of a bar.
        let begins = before.is_none_or(|b| b.close.ends_strain())
            || bar.open.ends_strain()
            || bar.ending.is_some();
        let ends = bar.close.ends_strain()
            || after.is_none_or(|b| b.ending.is_some() || b.open.ends_strain());
        let metre_changes = after.is_some_and(|b| b.metre != bar.metre);
        if bar.length < expected && (begins || ends || metre_changes) {
            continue;
        }
        let kind = ProblemKind::BarLength { number: bar.number, length: bar.length, expected };
        report.add(bar.span.start as usize, bar.span.end as usize, kind);
    }
}

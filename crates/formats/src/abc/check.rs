//! Bars that do not fill their metre.

use crate::ProblemKind;
use crate::report::Report;
use modewright_core::tune::{Bar, BarStyle};
use modewright_core::{Length, Tune};

/// Reports bars that are too long, and bars that are too short where nothing explains it: no
/// pickup, no repeat sign or double bar within them, no ending, no hidden or dotted line.
pub(crate) fn bar_lengths(tune: &Tune, report: &mut Report) {
    // The first bar of the strain and the first of its endings.
    let mut strain = 0;
    for (i, bar) in tune.bars.iter().enumerate() {
        let before = i.checked_sub(1).and_then(|i| tune.bars.get(i));
        let after = tune.bars.get(i + 1);
        let begins = before.is_none_or(|b| ends_strain(b, bar));
        if begins && bar.ending.is_none() {
            strain = i;
        }
        let Some(full) = bar.metre.bar_length().filter(|full| *full != bar.length) else {
            continue;
        };
        let starts = [tune.bars.get(strain), tune.bars.first(), after];
        let explained = bar.length < full
            && (begins
                || bar.ending.is_some()
                || before.is_some_and(|b| continues(b, bar, full))
                || after.is_some_and(|b| continues(bar, b, full))
                || after.is_some_and(|b| b.metre != bar.metre)
                || after.is_some_and(|b| b.ending.is_some() && bar.close.style == BarStyle::None)
                || after.is_none_or(|b| b.ending.is_some() || ends_strain(bar, b))
                    && starts.into_iter().flatten().any(|start| completes(bar, start, full)));
        if !explained {
            let kind =
                ProblemKind::BarLength { number: bar.number, length: bar.length, expected: full };
            report.add(bar.span.start as usize, bar.span.end as usize, kind);
        }
    }
}

/// Whether a strain ends between two bars.
fn ends_strain(bar: &Bar, next: &Bar) -> bool {
    bar.close.ends_strain() || next.open.ends_strain()
}

/// Whether two bars are one, cut by a line that is no bar line of its own.
fn continues(bar: &Bar, next: &Bar, full: Length) -> bool {
    let weak = matches!(bar.close.style, BarStyle::None | BarStyle::Dotted | BarStyle::Hidden);
    weak && bar.length.plus(next.length) == Ok(full)
}

/// Whether a short last bar and a pickup make a whole.
fn completes(last: &Bar, pickup: &Bar, full: Length) -> bool {
    last.length.plus(pickup.length) == Ok(full)
}

#[cfg(test)]
mod tests {
    use crate::source::TuneText;
    use crate::{ReadOptions, abc};

    /// The numbers of the bars that are told of.
    fn odd(body: &str) -> Vec<u32> {
        let text = TuneText::abc(format!("X:1\nM:3/4\nL:1/4\nK:C\n{body}\n"));
        let problems = abc::read(&text, &ReadOptions::default()).problems;
        let bars = problems.iter().filter_map(|p| match p.kind {
            crate::ProblemKind::BarLength { number, .. } => Some(number),
            _ => None,
        });
        bars.collect()
    }

    #[test]
    fn what_explains_itself_is_not_told() {
        for body in [
            "C|DEF|GA|]",
            "C|DEF|GA:|C|DEF|GA:|",
            "C|DEF|GA|1 B2:|2 B2|]",
            "C|DEF|GA::B|CDE|FG:|",
            "DEF|G [1 A:|2 AB|]",
            "DEF|G.|AB|C[|]DE|]",
            "DE|[M:2/4]FG|AB|]",
            "C|DEF|GA||BCD|EF|]",
        ] {
            assert_eq!(odd(body), [0; 0], "{body}");
        }
    }

    #[test]
    fn what_nothing_explains_is_told() {
        for (body, wanted) in [
            ("DEF|GA|BCD|]", vec![2]),
            ("DEF|GABC|]", vec![2]),
            ("CDEF|GAB|]", vec![1]),
            ("DEF|GA|]", vec![2]),
            ("C|DEF|G|]", vec![2]),
            ("DEF|G.|A|B3|]", vec![2, 3]),
        ] {
            assert_eq!(odd(body), wanted, "{body}");
        }
    }
}

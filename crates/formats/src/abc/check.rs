//! Bars that do not fill their metre, and forms that cannot be followed.

use crate::ProblemKind;
use crate::report::Report;
use modewright_core::Tune;
use modewright_core::count::{BarFit, bar_places};
use modewright_core::tune::{FormSign, MarkKind};

/// Reports bars that are too long, and bars that are too short where nothing explains it.
pub(crate) fn bar_lengths(tune: &Tune, report: &mut Report) {
    for (bar, place) in tune.bars.iter().zip(bar_places(tune)) {
        if let BarFit::Short { .. } | BarFit::Long { .. } = place.fit
            && let Some(expected) = bar.metre.bar_length()
        {
            let kind = ProblemKind::BarLength { number: bar.number, length: bar.length, expected };
            report.add(bar.span.start as usize, bar.span.end as usize, kind);
        }
    }
}

/// Reports signs like da capo that lead nowhere, at the first that sends the player back.
pub(crate) fn form(tune: &Tune, report: &mut Report) {
    let Some(why) = tune.form_error() else { return };
    let back = tune.marks.iter().find(|mark| match &mark.kind {
        MarkKind::Sign(name) => {
            let sign = FormSign::from_words(name);
            matches!(sign, Some(FormSign::DaCapo(_) | FormSign::DalSegno(_)))
        }
        _ => false,
    });
    let place = back.map(|mark| mark.span).unwrap_or_default();
    let kind = ProblemKind::FormNotUnfolded { why };
    report.add(place.start as usize, place.end as usize, kind);
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

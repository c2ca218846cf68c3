//! The figures as text for a reader, and as rows for a spreadsheet.

use crate::measure::{Bin, FOUR, Figures, Judged, by_answer, curve, share};
use modewright_core::Mode;
use std::fmt::Write;

/// A row of the table.
#[derive(Clone, Debug)]
pub(crate) struct Line {
    /// How the tunes stand to the fit: held out, left out.
    pub part: &'static str,
    /// The book, or `all`.
    pub book: String,
    /// How much of the key was seen.
    pub way: &'static str,
    /// The figures.
    pub figures: Figures,
}

/// The table's head, and what its columns mean.
pub(crate) const HEAD: &str = "\
exact: home and mode as written. home: home as written. recall: mean share found of the tunes
written in Ionian, Dorian, Mixolydian, Aeolian, where such occur; each mode's own share follows,
with its number of tunes. calib: mean distance between the chance given and the share right.
>=90: share right where the chance is 90 % or more. top 80: share right of the surest 80 %.

                                tunes  exact   home recall  calib   >=90  top 80  Ion / Dor / Mix / Aeo";

/// Percent, with one place.
fn percent(share: f64) -> String {
    format!("{:.1}", share * 100.0)
}

impl Line {
    /// As a line of the table.
    pub(crate) fn text(&self) -> String {
        let f = &self.figures;
        let recalls: Vec<String> = f
            .recalls
            .iter()
            .map(|&(r, n)| if n == 0 { "-".into() } else { format!("{} of {n}", percent(r)) })
            .collect();
        format!(
            "{:14} {:16}{:6} {:>6} {:>6} {:>6} {:>6.3} {:>6}  {:>6}  {}",
            self.book,
            self.way,
            f.count,
            percent(f.exact),
            percent(f.home),
            percent(f.recall),
            f.calibration,
            if f.sure.1 == 0 { "-".into() } else { percent(f.sure.0) },
            percent(f.surest),
            recalls.join(" / ")
        )
    }

    /// As a row of a spreadsheet.
    pub(crate) fn csv(&self) -> String {
        let f = &self.figures;
        let mut row = format!(
            "{},{},{},{},{:.4},{:.4},{:.4},{:.4},{:.4},{},{:.4}",
            self.part,
            self.book,
            self.way,
            f.count,
            f.exact,
            f.home,
            f.recall,
            f.calibration,
            f.sure.0,
            f.sure.1,
            f.surest
        );
        for (recall, count) in f.recalls {
            // Writing to a string does not fail.
            let _ = write!(row, ",{recall:.4},{count}");
        }
        row
    }
}

/// The names of the columns of [`Line::csv`].
pub(crate) fn csv_head() -> String {
    let mut head = "part,book,way,tunes,exact,home,recall,calibration,right_when_sure,sure,\
                    right_of_surest"
        .to_owned();
    for mode in FOUR {
        let _ = write!(head, ",{mode}_recall,{mode}_tunes");
    }
    head
}

/// Written modes against found ones.
pub(crate) fn confusion(answers: &[Judged]) -> String {
    let mut out = String::from("written      tunes | found on the same home:");
    for mode in Mode::ALL {
        let _ = write!(out, " {:>5}", short(mode));
    }
    out.push_str(" | another home: same notes, other notes\n");
    for written in Mode::ALL {
        let of: Vec<&Judged> = answers.iter().filter(|j| j.written.1 == written).collect();
        if of.is_empty() {
            continue;
        }
        let _ = write!(out, "{:12} {:5} |{:26}", written.name(), of.len(), "");
        for mode in Mode::ALL {
            let n = of.iter().filter(|j| j.found == Some((j.written.0, mode))).count();
            let shown = if n == 0 { ".".into() } else { n.to_string() };
            let _ = write!(out, " {shown:>5}");
        }
        let other: Vec<_> = of.iter().filter(|j| !j.is_home()).collect();
        let same = other.iter().filter(|j| j.found.map(notes) == Some(notes(j.written))).count();
        let _ = writeln!(out, " | {:>24}, {:>11}", same, other.len() - same);
    }
    out
}

/// The first degree of the parent major scale: two candidates of one have the same notes.
fn notes((home, mode): (usize, Mode)) -> usize {
    (home + 12 - [0, 2, 4, 5, 7, 9, 11][mode.index()]) % 12
}

fn short(mode: Mode) -> String {
    mode.name().chars().take(3).collect()
}

/// The calibration curve: for each tenth of chance how many, what was said, what came true.
pub(crate) fn calibration_curve(answers: &[Judged]) -> String {
    let mut out = String::from("chance      tunes   said  right\n");
    for (tenth, bin) in curve(answers).iter().enumerate() {
        if bin.count == 0 {
            continue;
        }
        let _ = writeln!(
            out,
            "{:>3} to {:>3} {:6}  {:>5}  {:>5}  {}",
            tenth * 10,
            tenth * 10 + 10,
            bin.count,
            percent(bin.said()),
            percent(bin.was()),
            bar(bin)
        );
    }
    out
}

/// Fifty places for 0 to 100 %: `=` up to the share that is right, `|` where it was said to be.
fn bar(bin: &Bin) -> String {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 50")]
    let place = |share: f64| (share * 50.0) as usize;
    let (said, was) = (place(bin.said()), place(bin.was()));
    let cell = |i: usize| match i {
        _ if i == said => '|',
        _ if i < was => '=',
        _ => ' ',
    };
    (0..=50).map(cell).collect::<String>().trim_end().to_owned()
}

/// The calibration of each answer that was given often.
pub(crate) fn mode_calibration(answers: &[Judged], least: usize) -> String {
    let mut out = String::new();
    for (mode, bin, error) in by_answer(answers, least) {
        let gap = bin.said() - bin.was();
        let _ = writeln!(
            out,
            "{:12} {:5} answers: said {}, right {} (± {}), apart {:+.3} ± {:.3}; calib {error:.3}",
            mode.name(),
            bin.count,
            percent(bin.said()),
            percent(bin.was()),
            percent(bin.margin()),
            gap,
            bin.margin(),
        );
    }
    out
}

/// A count as a share of another, with both.
pub(crate) fn of(part: usize, whole: usize) -> String {
    format!("{part} of {whole} ({} %)", percent(share(part, whole)))
}

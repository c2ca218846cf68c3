//! The figures as the book shows them: a table in Markdown and a plot of the calibration as SVG.
//!
//! Both are committed under `book/src/made`; `cargo xtask evaluate` writes them, and the stage
//! "finding" makes those of the held-out part again and compares.

use crate::measure::{Bin, FOUR, Figures, Judged, curve};
use crate::print::Line;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// What is judged, as the book calls it.
pub(crate) struct Plate<'a> {
    /// The name of its files.
    pub name: &'static str,
    /// Its rows; those of all books are shown, or those of its only book.
    pub lines: &'a [Line],
    /// Every answer, by how much of the key was seen.
    pub answers: [&'a [Judged]; 2],
}

/// Writes a table and a plot into a folder.
pub(crate) fn save(plate: &Plate<'_>, folder: &Path) -> Result<(), String> {
    fs::create_dir_all(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    for (ending, text) in [("md", table(plate.lines)), ("svg", plot(plate.answers))] {
        let path = folder.join(format!("{}.{ending}", plate.name));
        fs::write(&path, text).map_err(|e| format!("{}: {e}", path.display()))?;
    }
    Ok(())
}

/// A table of three columns, narrow enough for a phone: what was seen of the key, side by side.
fn table(lines: &[Line]) -> String {
    let single = lines.iter().all(|line| line.book != "all");
    let of_all: Vec<&Line> = lines.iter().filter(|line| single || line.book == "all").collect();
    let count = of_all.first().map_or(0, |line| line.figures.count);
    let ways: Vec<&str> = of_all.iter().map(|line| line.way).collect();
    let mut out = format!(
        "| of {count} tunes | {} |\n|---|{}\n",
        ways.join(" | "),
        "---|".repeat(ways.len())
    );
    let mut row = |name: &str, cell: &dyn Fn(&Figures) -> String| {
        let cells: Vec<String> = of_all.iter().map(|line| cell(&line.figures)).collect();
        // Writing to a string does not fail.
        let _ = writeln!(out, "| {name} | {} |", cells.join(" | "));
    };
    row("exact", &|f| percent(f.exact));
    row("home", &|f| percent(f.home));
    row("right where 90 % sure or more", &|f| format!("{} of {}", percent(f.sure.0), f.sure.1));
    row("calibration error", &|f| format!("{:.3}", f.calibration));
    for (i, mode) in FOUR.into_iter().enumerate() {
        let count = of_all.first().map_or(0, |line| line.figures.recalls[i].1);
        let name = format!("exact, of {count} in {}", modewright_lesson::words::mode_name(mode));
        row(&name, &|f| percent(f.recalls[i].0));
    }
    out
}

/// Percent, with a blank that does not break.
fn percent(share: f64) -> String {
    format!("{:.1}\u{a0}%", share * 100.0)
}

/// Where the axes begin and how long they are.
const LEFT: f64 = 56.0;
const TOP: f64 = 16.0;
const SIDE: f64 = 320.0;

/// Bins of fewer answers are not drawn: their share says nothing.
const LEAST: usize = 10;

/// What was said against what came true, with the margin of chance about each point.
fn plot(answers: [&[Judged]; 2]) -> String {
    let mut out = String::from(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 400 436\" font-family=\"sans-serif\" \
         font-size=\"13\" fill=\"#14242c\">\n<rect width=\"400\" height=\"436\" fill=\"#ffffff\"/>\n",
    );
    for tenth in (0..=10).step_by(2) {
        let share = f64::from(tenth) / 10.0;
        let (x, y) = place(share, share);
        let _ = writeln!(
            out,
            "<path d=\"M{x:.0} {TOP:.0}V{:.0}M{LEFT:.0} {y:.0}H{:.0}\" stroke=\"#dbe3e5\"/>\n\
             <text x=\"{x:.0}\" y=\"{:.0}\" text-anchor=\"middle\">{}</text>\n\
             <text x=\"{:.0}\" y=\"{:.0}\" text-anchor=\"end\">{}</text>",
            TOP + SIDE,
            LEFT + SIDE,
            TOP + SIDE + 18.0,
            tenth * 10,
            LEFT - 8.0,
            y + 4.5,
            tenth * 10
        );
    }
    let _ = writeln!(
        out,
        "<path d=\"M{LEFT:.0} {:.0}L{:.0} {TOP:.0}\" stroke=\"#71858d\" stroke-dasharray=\"5 4\"/>\n\
         <text x=\"{:.0}\" y=\"{:.0}\" text-anchor=\"middle\">chance that was given, percent</text>\n\
         <text transform=\"translate(16 {:.0}) rotate(-90)\" text-anchor=\"middle\">share that was \
         right, percent</text>",
        TOP + SIDE,
        LEFT + SIDE,
        LEFT + SIDE / 2.0,
        TOP + SIDE + 40.0,
        TOP + SIDE / 2.0
    );
    for (which, (name, colour)) in
        [("notes alone", "#ad3416"), ("signature known", "#1d5673")].into_iter().enumerate()
    {
        for bin in curve(answers[which]).iter().filter(|bin| bin.count >= LEAST) {
            out.push_str(&point(bin, which, colour));
        }
        let at = LEFT + 150.0 * f64::from(u8::from(which == 1));
        let y = TOP + SIDE + 66.0;
        let _ = writeln!(
            out,
            "{}<text x=\"{:.0}\" y=\"{:.0}\">{name}</text>",
            sign(at + 6.0, y, which, colour),
            at + 18.0,
            y + 4.5
        );
    }
    out.push_str("</svg>\n");
    out
}

/// A bin: its mean chance, the share right, and a line as long as the margin.
fn point(bin: &Bin, which: usize, colour: &str) -> String {
    let (x, y) = place(bin.said(), bin.was());
    // Apart by a little, so that the lines of both kinds can be seen.
    let x = if which == 0 { x - 2.0 } else { x + 2.0 };
    let low = place(0.0, (bin.was() - bin.margin()).max(0.0)).1;
    let high = place(0.0, (bin.was() + bin.margin()).min(1.0)).1;
    format!(
        "<path d=\"M{x:.1} {low:.1}V{high:.1}\" stroke=\"{colour}\"/>{}\n",
        sign(x, y, which, colour)
    )
}

/// A filled circle for the notes alone, an open square with the signature known.
fn sign(x: f64, y: f64, which: usize, colour: &str) -> String {
    if which == 0 {
        format!("<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"4.5\" fill=\"{colour}\"/>")
    } else {
        format!(
            "<rect x=\"{:.1}\" y=\"{:.1}\" width=\"9\" height=\"9\" fill=\"#ffffff\" stroke=\"{colour}\" \
             stroke-width=\"2\"/>",
            x - 4.5,
            y - 4.5
        )
    }
}

/// A place of the plot.
fn place(said: f64, was: f64) -> (f64, f64) {
    (LEFT + SIDE * said, TOP + SIDE * (1.0 - was))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::figures;
    use modewright_core::Mode;

    fn judged(chance: f64, right: bool) -> Judged {
        let found = (2, if right { Mode::Dorian } else { Mode::Ionian });
        Judged { found: Some(found), chance, written: (2, Mode::Dorian) }
    }

    #[test]
    fn a_table_holds_the_rows_of_all_books() {
        let answers = [judged(0.95, true), judged(0.95, true), judged(0.55, false)];
        let line = |book: &str| Line {
            part: "held out",
            book: book.into(),
            way: "notes alone",
            figures: figures(&answers),
        };
        let text = table(&[line("one"), line("all")]);
        assert!(text.starts_with("| of 3 tunes | notes alone |\n|---|---|\n"), "{text}");
        assert!(text.contains("| exact | 66.7\u{a0}% |"), "{text}");
        assert!(text.contains("| right where 90 % sure or more | 100.0\u{a0}% of 2 |"), "{text}");
        assert!(text.contains("| calibration error | 0.217 |"), "{text}");
        assert!(text.contains("| exact, of 3 in Dorian | 66.7\u{a0}% |"), "{text}");
        assert_eq!(table(&[line("one")]), text);
    }

    #[test]
    fn a_plot_has_a_point_where_there_are_enough_answers() {
        let few: Vec<Judged> = (0..9).map(|_| judged(0.35, false)).collect();
        let many: Vec<Judged> = (0..20).map(|i| judged(0.95, i % 2 == 0)).collect();
        let picture = plot([&few, &many]);
        // One sign in the legend for each kind, and one point.
        assert_eq!(picture.matches("<circle").count(), 1);
        assert_eq!(picture.matches("width=\"9\"").count(), 2);
        // Half of twenty right: half way up.
        let (x, y) = place(0.95, 0.5);
        assert!(picture.contains(&format!("x=\"{:.1}\" y=\"{:.1}\"", x + 2.0 - 4.5, y - 4.5)));
    }
}

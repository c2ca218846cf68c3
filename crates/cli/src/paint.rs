//! Laying a report out for a terminal.

use anstyle::{AnsiColor, Style};
use modewright_lesson::report::Report;
use std::{fmt::Write as _, io};

const TITLE: Style = Style::new().bold();
const VERDICT: Style = Style::new().bold().fg_color(Some(anstyle::Color::Ansi(AnsiColor::Green)));
const HEADING: Style = Style::new().fg_color(Some(anstyle::Color::Ansi(AnsiColor::Cyan)));

/// Width of the column of headings.
const COLUMN: usize = 16;

/// A report as text with colours; the stream strips them where they are not wanted.
pub(crate) fn report(report: &Report, width: usize) -> Result<String, std::fmt::Error> {
    let mut out = String::new();
    writeln!(out, "{TITLE}{}{TITLE:#}", report.title)?;
    for line in textwrap::wrap(&report.verdict, width.saturating_sub(2)) {
        writeln!(out, "  {VERDICT}{line}{VERDICT:#}")?;
    }
    writeln!(out)?;
    for section in &report.sections {
        let mut heading = section.heading;
        for line in &section.lines {
            let options = textwrap::Options::new(width.saturating_sub(COLUMN))
                .subsequent_indent(if section.lines.len() > 1 { "  " } else { "" });
            for wrapped in textwrap::wrap(line, options) {
                let pad = COLUMN - 2 - heading.len().min(COLUMN - 2);
                writeln!(out, "  {HEADING}{heading}{HEADING:#}{:pad$}{wrapped}", "")?;
                heading = "";
            }
        }
    }
    Ok(out)
}

/// How wide lines may be: the terminal's width, within reason.
pub(crate) fn width() -> usize {
    let columns = terminal_size::terminal_size_of(io::stdout()).map(|(w, _)| usize::from(w.0));
    columns.unwrap_or(88).clamp(40, 96)
}

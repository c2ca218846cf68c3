//! A picture of an instrument as SVG.
//!
//! Its colours are presentation attributes, which any rule of a style sheet outranks: ink in the
//! colour of the text around it, fills that let the ground through. Without a style sheet it can
//! be read on light and on dark ground.

use super::drawing::{Anchor, Drawing, Part, Role};
use crate::svg::escape;
use modewright_core::instrument::Hole;
use std::fmt::Write as _;

const EDGE: i32 = 4;
const LETTERS: &str =
    "font-family=\"'Noto Sans','Liberation Sans',Arial,Helvetica,sans-serif\" font-size=\"15\"";

/// The picture to be put into a page: without its legend, which the page says itself.
#[must_use]
pub fn svg(drawing: &Drawing) -> String {
    let mut out = String::with_capacity(8_000);
    open(&mut out, drawing, (drawing.width, drawing.height));
    parts(&mut out, drawing);
    out.push_str("</svg>\n");
    out
}

/// The picture as a file of its own: with its title above, its legend below, and colours for light
/// and dark.
#[must_use]
pub fn file(drawing: &Drawing) -> String {
    const LINE: i32 = 22;
    let mut out = String::with_capacity(9_000);
    let said = std::iter::once(&drawing.title).chain(&drawing.legend);
    let longest = said.map(|line| super::drawing::units(line.chars().count())).max().unwrap_or(0);
    let legend = super::drawing::units(drawing.legend.len()) * LINE;
    let top = LINE + 10;
    let height = top + drawing.height + 12 + legend;
    open(&mut out, drawing, (drawing.width.max(longest * 8), height));
    out.push_str(
        "<style>svg{color:#1d2430;background:#fffdf8}@media (prefers-color-scheme:dark)\
         {svg{color:#e9e6df;background:#171b21}}</style>\n",
    );
    line(&mut out, 16, &drawing.title, " font-weight=\"700\"");
    let _ = writeln!(out, "<g transform=\"translate(0 {top})\">");
    parts(&mut out, drawing);
    out.push_str("</g>\n");
    for (at, sentence) in (1..).zip(&drawing.legend) {
        line(&mut out, top + drawing.height + 6 + at * LINE - 6, sentence, "");
    }
    out.push_str("</svg>\n");
    out
}

fn open(out: &mut String, drawing: &Drawing, (width, height): (i32, i32)) {
    let (w, h) = (width + 2 * EDGE, height + 2 * EDGE);
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"instrument-picture\" role=\"img\" \
         width=\"{w}\" height=\"{h}\" viewBox=\"-{EDGE} -{EDGE} {w} {h}\" {LETTERS} \
         fill=\"currentColor\">\n<title>"
    );
    escape(out, &drawing.title);
    out.push_str("</title>\n");
}

fn line(out: &mut String, y: i32, text: &str, more: &str) {
    let _ = write!(out, "<text x=\"0\" y=\"{y}\"{more}>");
    escape(out, text);
    out.push_str("</text>\n");
}

fn parts(out: &mut String, drawing: &Drawing) {
    // Other ways lie under those that are played.
    let is_other = |part: &&Part| matches!(part, Part::Spot { role: Role::Other, .. });
    let is_spot = |part: &&Part| matches!(part, Part::Spot { .. });
    for one in drawing.parts.iter().filter(|part| !is_spot(part)) {
        part(out, one);
    }
    for one in drawing.parts.iter().filter(is_other) {
        part(out, one);
    }
    for one in drawing.parts.iter().filter(|part| is_spot(part) && !is_other(part)) {
        part(out, one);
    }
}

fn part(out: &mut String, part: &Part) {
    // Writing to a string cannot fail.
    let _ = match part {
        Part::Line { from: (a, b), to: (c, d), thick } => {
            let (class, width) = if *thick { ("line thick", "4") } else { ("line", "1.2") };
            writeln!(
                out,
                "<line class=\"{class}\" x1=\"{a}\" y1=\"{b}\" x2=\"{c}\" y2=\"{d}\" \
                 stroke=\"currentColor\" stroke-width=\"{width}\"/>"
            )
        }
        Part::Frame { at: (x, y), size: (w, h), round, dark } => {
            let (class, fill) = if *dark { ("frame dark", "0.55") } else { ("frame", "0.04") };
            writeln!(
                out,
                "<rect class=\"{class}\" x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" \
                 rx=\"{round}\" fill-opacity=\"{fill}\" stroke=\"currentColor\"/>"
            )
        }
        Part::Words { at: (x, y), text, anchor } => {
            let anchor = if *anchor == Anchor::Middle { " text-anchor=\"middle\"" } else { "" };
            let _ = write!(out, "<text x=\"{x}\" y=\"{y}\"{anchor}>");
            escape(out, text);
            writeln!(out, "</text>")
        }
        Part::Hole { at: (x, y), hole } => {
            let (class, fill) = match hole {
                Hole::Closed => ("hole closed", "currentColor"),
                Hole::Half | Hole::Open => ("hole", "none"),
            };
            let _ = writeln!(
                out,
                "<circle class=\"{class}\" cx=\"{x}\" cy=\"{y}\" r=\"7\" fill=\"{fill}\" \
                 stroke=\"currentColor\" stroke-width=\"1.4\"/>"
            );
            match hole {
                Hole::Half => {
                    let top = y - 7;
                    writeln!(out, "<path class=\"half\" d=\"M{x} {top}a7 7 0 0 0 0 14z\"/>")
                }
                _ => Ok(()),
            }
        }
        Part::Spot { at, size, name, role } => {
            spot(out, *at, *size, name, *role);
            Ok(())
        }
    };
}

fn spot(out: &mut String, (x, y): (i32, i32), (w, h): (i32, i32), name: &str, role: Role) {
    let (left, top) = (x - w / 2, y - h / 2);
    let (class, body, letters) = match role {
        Role::Home => (
            "home",
            "fill=\"#c8641e\" fill-opacity=\"0.4\" stroke=\"currentColor\" stroke-width=\"2.6\"",
            " font-weight=\"700\"",
        ),
        Role::Used => (
            "used",
            "fill=\"#2f86a8\" fill-opacity=\"0.35\" stroke=\"currentColor\" stroke-width=\"1.8\"",
            " font-weight=\"600\"",
        ),
        Role::Other => ("other", "fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.2\"", ""),
        Role::Idle => (
            "idle",
            "fill=\"none\" stroke=\"currentColor\" stroke-opacity=\"0.5\" stroke-dasharray=\"2 3\"",
            " fill-opacity=\"0.75\"",
        ),
    };
    let _ = write!(out, "<g class=\"spot {class}\">");
    let _ = if role == Role::Home {
        let (right, bottom, eaves, ridge) = (left + w, top + h, top + 8, top - 1);
        write!(
            out,
            "<path class=\"body\" {body} d=\"M{left} {bottom}V{eaves}L{x} {ridge}L{right} {eaves}V{bottom}z\"/>"
        )
    } else {
        write!(
            out,
            "<rect class=\"body\" {body} x=\"{left}\" y=\"{top}\" width=\"{w}\" height=\"{h}\" rx=\"5\"/>"
        )
    };
    let _ = write!(out, "<text x=\"{x}\" y=\"{}\" text-anchor=\"middle\"{letters}>", y + 6);
    escape(out, name);
    out.push_str("</text></g>\n");
}

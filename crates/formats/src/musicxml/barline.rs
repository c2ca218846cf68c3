//! Bar lines, repeats and endings of a measure.

use super::MusicXmlProblem as P;
use super::score::{Measure, child, elements, said};
use crate::report::{Report, excerpt};
use modewright_core::tune::{BarLine, BarStyle, Passes};
use roxmltree::Node;

/// What the edges of a measure say.
#[derive(Clone, Debug, Default)]
pub(super) struct Edges {
    pub(super) left: Option<BarLine>,
    /// Passes of the ending that begins here.
    pub(super) ending: Option<Passes>,
    pub(super) right: Option<BarLine>,
    /// Whether the line at the end is said not to be drawn.
    pub(super) hidden: bool,
}

/// The edges of a measure, without a word about what is wrong with them.
pub(super) fn edges(measure: &Measure<'_>) -> Edges {
    let mut edges = Edges::default();
    for node in elements(measure.content).filter(|n| n.tag_name().name() == "barline") {
        let line = line(node);
        match node.attribute("location").unwrap_or("right") {
            // The beginning of an ending alone draws no line.
            "left" if child(node, "bar-style").is_none() && line.repeat_on == 0 => {}
            "left" => edges.left = Some(line),
            "right" => {
                edges.right = Some(line);
                edges.hidden = line.style == BarStyle::Hidden;
            }
            _ => {}
        }
        if let Some(ending) = child(node, "ending")
            && ending.attribute("type") == Some("start")
        {
            edges.ending = passes(ending.attribute("number").unwrap_or_default());
        }
    }
    edges
}

/// A bar line with its repeat dots.
pub(super) fn line(node: Node<'_, '_>) -> BarLine {
    let mut line = BarLine { style: BarStyle::Single, ..BarLine::default() };
    let mut style = None;
    for inner in node.children().filter(Node::is_element) {
        match inner.tag_name().name() {
            "bar-style" => style = Some(inner.text().unwrap_or_default().trim().to_owned()),
            "repeat" if inner.attribute("direction") == Some("forward") => line.repeat_on = 1,
            "repeat" => {
                let times = inner.attribute("times").and_then(|t| t.trim().parse::<u8>().ok());
                line.repeat_back = times.unwrap_or(2).clamp(2, MOST_TIMES) - 1;
            }
            _ => {}
        }
    }
    line.style = match style.as_deref() {
        Some("light-light" | "heavy-heavy") => BarStyle::Double,
        Some("light-heavy") => BarStyle::Final,
        Some("heavy-light") => BarStyle::Initial,
        Some("dotted" | "dashed" | "tick" | "short") => BarStyle::Dotted,
        Some("none") => BarStyle::Hidden,
        _ if line.repeat_back > 0 => BarStyle::Final,
        _ if line.repeat_on > 0 => BarStyle::Initial,
        _ => BarStyle::Single,
    };
    line
}

/// The most times that a section is played.
const MOST_TIMES: u8 = 64;

/// The passes of a list: `1`, `1,2`, `1, 3`.
fn passes(list: &str) -> Option<Passes> {
    let mut passes = Passes::default();
    for part in list.split([',', ' ']).filter(|part| !part.is_empty()) {
        let pass = part.trim_end_matches('.').parse::<u32>().ok();
        passes = passes.with(pass.filter(|&p| p > 0 && p <= Passes::MAX)?);
    }
    (passes.last() > 0).then_some(passes)
}

/// Tells of endings that cannot be.
pub(super) fn check(measure: &Measure<'_>, report: &mut Report) {
    for node in elements(measure.content).filter(|n| n.tag_name().name() == "barline") {
        let Some(ending) = child(node, "ending") else { continue };
        let number = ending.attribute("number").unwrap_or_default();
        // Blanks are allowed where the number is not to be printed.
        if ending.attribute("type") == Some("start")
            && passes(number).is_none()
            && !number.trim().is_empty()
        {
            let range = ending.range();
            let found = excerpt(if said(ending).is_empty() { number } else { said(ending) });
            report.add(range.start, range.end, P::Ending { found }.into());
        }
    }
}

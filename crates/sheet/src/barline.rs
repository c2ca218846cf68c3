//! Bar lines: what each looks like.

use crate::size::{BAR_GAP, REPEAT_GAP, THICK, THIN};
use modewright_core::Tune;
use modewright_core::tune::{BarLine, BarStyle};
use modewright_glyphs::Glyph;

/// A part of a bar line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stroke {
    /// An upright line of this thickness.
    Line(i32),
    /// A dotted line.
    Dotted,
    /// The two dots of a repeat.
    Dots,
}

impl Stroke {
    pub(crate) const fn width(self) -> i32 {
        match self {
            Self::Line(width) => width,
            Self::Dotted => THIN,
            Self::Dots => Glyph::RepeatDot.width(),
        }
    }
}

/// The line between two bars: what ends and what begins there.
pub(crate) fn between(tune: &Tune, bar: usize) -> BarLine {
    let close = tune.bars[bar].close;
    let repeat_on = tune.bars.get(bar + 1).map_or(0, |next| next.open.repeat_on);
    BarLine { repeat_on: close.repeat_on.max(repeat_on), ..close }
}

/// What of a line is drawn where a system ends with it.
pub(crate) const fn ending(line: BarLine) -> BarLine {
    let style = match line.style {
        // A beginning is drawn where the next system begins.
        BarStyle::Initial => BarStyle::Single,
        style => style,
    };
    BarLine { style, repeat_back: line.repeat_back, repeat_on: 0 }
}

/// The strokes of a line with their left edges, and its width.
pub(crate) fn strokes(line: BarLine) -> (Vec<(i32, Stroke)>, i32) {
    let (thin, thick) = (Stroke::Line(THIN), Stroke::Line(THICK));
    let parts: &[Stroke] = match (line.repeat_back > 0, line.repeat_on > 0, line.style) {
        (true, true, _) => &[Stroke::Dots, thin, thick, thin, Stroke::Dots],
        (true, false, _) => &[Stroke::Dots, thin, thick],
        (false, true, _) => &[thick, thin, Stroke::Dots],
        (_, _, BarStyle::None | BarStyle::Hidden) => &[],
        (_, _, BarStyle::Single) => &[thin],
        (_, _, BarStyle::Double) => &[thin, thin],
        (_, _, BarStyle::Final) => &[thin, thick],
        (_, _, BarStyle::Initial) => &[thick, thin],
        (_, _, BarStyle::Dotted) => &[Stroke::Dotted],
    };
    let mut placed = Vec::with_capacity(parts.len());
    let mut x = 0;
    for (i, &part) in parts.iter().enumerate() {
        if i > 0 {
            let dots = part == Stroke::Dots || parts[i - 1] == Stroke::Dots;
            x += if dots { REPEAT_GAP } else { BAR_GAP };
        }
        placed.push((x, part));
        x += part.width();
    }
    (placed, x)
}

//! A sheet as SVG: one self-contained picture.

use crate::ink::{Block, Ink, Mark, Owner, Sheet};
use modewright_glyphs::{Glyph, text::Face};
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// The margin around the picture, beside that of a page.
const EDGE: i32 = 500;

/// Draws a sheet as one SVG picture.
///
/// The picture needs nothing besides: music signs are paths that stand once in it, text is text in
/// whatever plain font the reader has, told the width that was reckoned with, so that it fits.
/// Each note's marks stand in a group with `data-i`, the note's index among the tune's events;
/// what stands under it in a row has `data-row` too; a beam, tie or slur has `data-from` and
/// `data-to`.
#[must_use]
pub fn svg(sheet: &Sheet) -> String {
    let height: i32 = sheet.blocks.iter().fold(0, |sum, b| sum.saturating_add(b.height));
    let mut out = String::with_capacity(40_000);
    open(&mut out, sheet, height, "role=\"img\"");
    about(&mut out, sheet);
    definitions(&mut out, &sheet.blocks);
    let mut top = 0_i32;
    for block in &sheet.blocks {
        self::block(&mut out, block, top);
        top = top.saturating_add(block.height);
    }
    out.push_str("</svg>\n");
    out
}

/// Opens a picture of a height, with more attributes.
pub(crate) fn open(out: &mut String, sheet: &Sheet, height: i32, more: &str) {
    let (w, h) = (sheet.width + 2 * EDGE, height.saturating_add(2 * EDGE));
    let space = u64::from(sheet.paper.space);
    // Hundredths of a millimetre.
    let mm = |n: i32| u64::from(n.unsigned_abs()) * space / 10_000;
    let (width_mm, height_mm) = (mm(w), mm(h));
    // Writing to a string cannot fail.
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" {more} \
         width=\"{}.{:02}mm\" height=\"{}.{:02}mm\" viewBox=\"{} {} {w} {h}\" \
         font-family=\"'Noto Sans','Liberation Sans',Arial,Helvetica,sans-serif\" \
         fill=\"currentColor\">",
        width_mm / 100,
        width_mm % 100,
        height_mm / 100,
        height_mm % 100,
        -EDGE,
        -EDGE,
    );
}

/// Title and description.
pub(crate) fn about(out: &mut String, sheet: &Sheet) {
    out.push_str("<title>");
    escape(out, if sheet.title.is_empty() { "Sheet music" } else { &sheet.title });
    out.push_str("</title>\n");
    if !sheet.description.is_empty() {
        out.push_str("<desc>");
        escape(out, &sheet.description);
        out.push_str("</desc>\n");
    }
}

/// The paths of all signs that blocks use.
pub(crate) fn definitions(out: &mut String, blocks: &[Block]) {
    let marks = blocks.iter().flat_map(|block| &block.marks);
    let used: BTreeSet<Glyph> = marks
        .filter_map(|mark| match mark.ink {
            Ink::Glyph { glyph, .. } => Some(glyph),
            _ => None,
        })
        .collect();
    out.push_str("<defs>\n");
    for glyph in used {
        let _ = writeln!(out, "<path id=\"mw-{}\" d=\"{}\"/>", id(glyph), glyph.outline().path);
    }
    out.push_str("</defs>\n");
}

/// The marks of a block, so far down.
pub(crate) fn block(out: &mut String, block: &Block, top: i32) {
    let _ = writeln!(out, "<g transform=\"translate(0 {top})\">");
    for run in block.marks.chunk_by(|a, b| a.owner == b.owner) {
        group(out, run);
    }
    out.push_str("</g>\n");
}

/// The number of a sign in the picture.
fn id(glyph: Glyph) -> usize {
    glyph as usize
}

fn group(out: &mut String, run: &[Mark]) {
    match run[0].owner {
        Owner::Stave => out.push_str("<g class=\"stave\">"),
        Owner::Header => out.push_str("<g class=\"header\">"),
        Owner::Bar => out.push_str("<g class=\"bar\">"),
        Owner::Above => out.push_str("<g class=\"above\">"),
        Owner::Words => out.push_str("<g class=\"words\">"),
        Owner::RowLabel(row) => {
            let _ = write!(out, "<g class=\"label\" data-row=\"{row}\">");
        }
        Owner::Note(i) => {
            let _ = write!(out, "<g class=\"note\" data-i=\"{i}\">");
        }
        Owner::Cell(row, i) => {
            let _ = write!(out, "<g class=\"cell\" data-row=\"{row}\" data-i=\"{i}\">");
        }
        Owner::Span(from, to) => {
            let _ = write!(out, "<g class=\"span\" data-from=\"{from}\" data-to=\"{to}\">");
        }
    }
    for mark in run {
        draw(out, &mark.ink);
    }
    out.push_str("</g>\n");
}

fn draw(out: &mut String, ink: &Ink) {
    let _ = match ink {
        Ink::Glyph { glyph, at: (x, y), size: 1000 } => {
            write!(out, "<use href=\"#mw-{}\" x=\"{x}\" y=\"{y}\"/>", id(*glyph))
        }
        Ink::Glyph { glyph, at: (x, y), size } => write!(
            out,
            "<use href=\"#mw-{}\" transform=\"translate({x} {y}) scale({}.{:03})\"/>",
            id(*glyph),
            size / 1000,
            size % 1000
        ),
        Ink::Rect { at: (x, y), size: (w, h) } => {
            write!(out, "<path d=\"M{x} {y}h{w}v{h}h-{w}z\"/>")
        }
        Ink::Polygon(points) => {
            out.push_str("<path d=\"");
            for (i, (x, y)) in points.iter().enumerate() {
                let _ = write!(out, "{}{x} {y}", if i == 0 { 'M' } else { 'L' });
            }
            write!(out, "z\"/>")
        }
        Ink::Bow { from, outer: [a, b], to, inner: [c, d] } => write!(
            out,
            "<path d=\"M{} {}C{} {} {} {} {} {}C{} {} {} {} {} {}z\"/>",
            from.0, from.1, a.0, a.1, b.0, b.1, to.0, to.1, c.0, c.1, d.0, d.1, from.0, from.1
        ),
        Ink::Disc { at: (x, y), radius, hole: 0, .. } => {
            write!(out, "<circle cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"/>")
        }
        Ink::Disc { at: (x, y), radius, hole, half } => {
            // A ring is two circles, the inner one cut out; the half is filled by a third.
            let circle = |r: i32, sweep: u8| {
                format!(
                    "M{x} {}a{r} {r} 0 0 {sweep} 0 {}a{r} {r} 0 0 {sweep} 0 -{}z",
                    y - r,
                    2 * r,
                    2 * r
                )
            };
            let _ = write!(
                out,
                "<path fill-rule=\"evenodd\" d=\"{}{}\"/>",
                circle(*radius, 0),
                circle(*hole, 0)
            );
            if *half {
                let _ = write!(
                    out,
                    "<path d=\"M{x} {}a{hole} {hole} 0 0 0 0 {}z\"/>",
                    y - hole,
                    2 * hole
                );
            }
            Ok(())
        }
        Ink::Text { text, at: (x, y), size, face, width } => {
            let weight = if *face == Face::Bold { " font-weight=\"700\"" } else { "" };
            let _ = write!(
                out,
                "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\"{weight} textLength=\"{width}\" \
                 lengthAdjust=\"spacingAndGlyphs\">"
            );
            escape(out, text);
            write!(out, "</text>")
        }
    };
}

/// Writes text so that no character of it means anything to a reader of XML; what XML cannot
/// hold becomes a question mark.
pub(crate) fn escape(out: &mut String, text: &str) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c if (c < ' ' && !matches!(c, '\t' | '\n' | '\r'))
                || matches!(c, '\u{FFFE}' | '\u{FFFF}') =>
            {
                out.push('?');
            }
            c => out.push(c),
        }
    }
}

//! Whether marks of a sheet collide: reads the finished SVG and reckons all extents by itself,
//! from the outlines in it and from the text font's own file.
//!
//! Marks are compared in thin bands: each band of a mark has a left and a right edge, so that a
//! flag or a bow takes no more room than it does.

use roxmltree::{Document, Node};
use std::collections::HashMap;
use std::path::Path;

/// Height of a band, in thousandths of a staff space.
const BAND: f64 = 100.0;
/// What may overlap: less than the eye sees, and what rounding does.
const SLACK: f64 = 40.0;

/// What a mark belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Owner {
    /// Clefs, signatures and metres.
    Header,
    /// Bar lines.
    Bar,
    /// A note.
    Note(usize),
    /// From one note to another.
    Span(usize, usize),
    /// Over the stave.
    Above,
    /// A row under the notes, and the note.
    Cell(usize, usize),
    /// The name of a row.
    Label(usize),
    /// Words over and under the music.
    Words,
}

/// A mark with the room it takes.
#[derive(Clone, Debug)]
pub struct Extent {
    /// What it belongs to.
    pub owner: Owner,
    /// What it is, for a report.
    pub what: String,
    /// The block it stands in: blocks are compared with themselves and their neighbours.
    left: f64,
    right: f64,
    top: f64,
    bottom: f64,
    bands: Vec<(f64, f64)>,
}

/// The text font, for widths.
#[derive(Debug)]
pub struct Fonts {
    regular: Vec<u8>,
    bold: Vec<u8>,
}

impl Fonts {
    /// Reads the fonts that ship with the outlines.
    ///
    /// # Panics
    ///
    /// Where a file is missing.
    #[must_use]
    pub fn new() -> Self {
        let read = |name: &str| {
            let path = crate::path("../crates/glyphs/fonts").join(name);
            let path = if path.exists() {
                path
            } else {
                Path::new(env!("CARGO_MANIFEST_DIR")).join("../crates/glyphs/fonts").join(name)
            };
            std::fs::read(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
        };
        Self { regular: read("regular.ttf"), bold: read("bold.ttf") }
    }
}

impl Default for Fonts {
    fn default() -> Self {
        Self::new()
    }
}

type Polygon = Vec<(f64, f64)>;

/// Everything that is drawn in a picture, but the lines of staves.
///
/// # Panics
///
/// Where the picture is no XML, or has something in it that no sheet has.
#[must_use]
pub fn extents(svg: &str, fonts: &Fonts) -> Vec<Extent> {
    let document = Document::parse(svg).unwrap_or_else(|e| panic!("no XML: {e}"));
    let faces = [&fonts.regular, &fonts.bold]
        .map(|bytes| ttf_parser::Face::parse(bytes, 0).expect("a font"));
    let mut reader = Reader { signs: HashMap::new(), faces, found: Vec::new() };
    for child in document.root_element().children().filter(Node::is_element) {
        match child.tag_name().name() {
            "defs" => reader.definitions(child),
            "g" => reader.block(child),
            "title" | "desc" => {}
            other => panic!("<{other}> in a sheet"),
        }
    }
    reader.found
}

struct Reader<'f> {
    signs: HashMap<String, Vec<Polygon>>,
    faces: [ttf_parser::Face<'f>; 2],
    found: Vec<Extent>,
}

fn number(node: Node<'_, '_>, name: &str) -> f64 {
    let text = node.attribute(name).unwrap_or_else(|| panic!("no {name} in {node:?}"));
    text.parse().unwrap_or_else(|e| panic!("{name}={text}: {e}"))
}

fn index(node: Node<'_, '_>, name: &str) -> usize {
    node.attribute(name).and_then(|text| text.parse().ok()).unwrap_or_else(|| panic!("no {name}"))
}

impl Reader<'_> {
    fn definitions(&mut self, defs: Node<'_, '_>) {
        for path in defs.children().filter(Node::is_element) {
            let outline = polygons(path.attribute("d").expect("a path"));
            self.signs.insert(format!("#{}", path.attribute("id").expect("an id")), outline);
        }
    }

    fn block(&mut self, block: Node<'_, '_>) {
        let shift = block.attribute("transform").and_then(|t| t.strip_prefix("translate(0 "));
        let shift: f64 = shift.and_then(|t| t.strip_suffix(')')?.parse().ok()).expect("a shift");
        for group in block.children().filter(Node::is_element) {
            let owner = match group.attribute("class").expect("a class") {
                "stave" => continue,
                "header" => Owner::Header,
                "bar" => Owner::Bar,
                "above" => Owner::Above,
                "words" => Owner::Words,
                "note" => Owner::Note(index(group, "data-i")),
                "span" => Owner::Span(index(group, "data-from"), index(group, "data-to")),
                "cell" => Owner::Cell(index(group, "data-row"), index(group, "data-i")),
                "label" => Owner::Label(index(group, "data-row")),
                other => panic!("class {other}"),
            };
            for mark in group.children().filter(Node::is_element) {
                let (what, mut shape) = self.shape(mark);
                shape.iter_mut().flatten().for_each(|point| point.1 += shift);
                self.found.extend(extent(owner.clone(), what, &shape));
            }
        }
    }

    fn shape(&self, mark: Node<'_, '_>) -> (String, Vec<Polygon>) {
        match mark.tag_name().name() {
            "use" => {
                let href = mark.attribute("href").expect("a sign");
                let sign = self.signs.get(href).unwrap_or_else(|| panic!("no sign {href}"));
                let (x, y, scale) = match mark.attribute("transform") {
                    Some(text) => transform(text),
                    None => (number(mark, "x"), number(mark, "y"), 1.0),
                };
                let place = |&(px, py): &(f64, f64)| (px * scale + x, py * scale + y);
                (href.to_owned(), sign.iter().map(|p| p.iter().map(place).collect()).collect())
            }
            "path" => ("path".to_owned(), polygons(mark.attribute("d").expect("a path"))),
            "circle" => {
                let (x, y, r) = (number(mark, "cx"), number(mark, "cy"), number(mark, "r"));
                ("circle".to_owned(), vec![square(x - r, y - r, x + r, y + r)])
            }
            "text" => {
                let text = mark.text().unwrap_or_default();
                (format!("“{text}”"), vec![self.text(mark, text)])
            }
            other => panic!("<{other}> in a sheet"),
        }
    }

    /// The room of a text, by the font's own file; the width that the picture states must be the
    /// same.
    fn text(&self, mark: Node<'_, '_>, text: &str) -> Polygon {
        let face = &self.faces[usize::from(mark.attribute("font-weight") == Some("700"))];
        let (x, y, size) = (number(mark, "x"), number(mark, "y"), number(mark, "font-size"));
        let scale = size / f64::from(face.units_per_em());
        let (mut width, mut top, mut bottom) = (0.0, 0.0_f64, 0.0_f64);
        for c in text.chars() {
            let Some(glyph) = face.glyph_index(c) else {
                (width, top) = (width + size, top.max(size));
                continue;
            };
            width += f64::from(face.glyph_hor_advance(glyph).unwrap_or_default()) * scale;
            if let Some(bounds) = face.glyph_bounding_box(glyph) {
                top = top.max(f64::from(bounds.y_max) * scale);
                bottom = bottom.min(f64::from(bounds.y_min) * scale);
            }
        }
        let stated = number(mark, "textLength");
        assert!((stated - width).abs() <= 1.5, "“{text}” is {width} wide, not {stated}");
        square(x, y - top, x + width, y - bottom)
    }
}

fn square(left: f64, top: f64, right: f64, bottom: f64) -> Polygon {
    vec![(left, top), (right, top), (right, bottom), (left, bottom)]
}

fn transform(text: &str) -> (f64, f64, f64) {
    let numbers: Vec<f64> = text
        .split(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-')))
        .filter_map(|part| part.parse().ok())
        .collect();
    match numbers.as_slice() {
        &[x, y, scale] => (x, y, scale),
        _ => panic!("{text}"),
    }
}

/// The contours of a path, curves in eight straight pieces, half circles as boxes.
fn polygons(path: &str) -> Vec<Polygon> {
    let mut all = Vec::new();
    let mut now: Polygon = Vec::new();
    let (mut x, mut y) = (0.0, 0.0);
    let mut start = (0.0, 0.0);
    let mut rest = path;
    while let Some(letter) = rest.chars().next() {
        rest = &rest[1..];
        let end = rest.find(|c: char| c.is_ascii_alphabetic()).unwrap_or(rest.len());
        let n = numbers(&rest[..end]);
        rest = &rest[end..];
        let (bx, by) = if letter.is_ascii_lowercase() { (x, y) } else { (0.0, 0.0) };
        match letter {
            'M' | 'm' => {
                all.extend((!now.is_empty()).then(|| std::mem::take(&mut now)));
                (x, y) = (bx + n[0], by + n[1]);
                start = (x, y);
            }
            'L' | 'l' => (x, y) = (bx + n[0], by + n[1]),
            'h' => x += n[0],
            'v' => y += n[0],
            'C' | 'c' => {
                let p = [
                    (x, y),
                    (bx + n[0], by + n[1]),
                    (bx + n[2], by + n[3]),
                    (bx + n[4], by + n[5]),
                ];
                for step in 1..8 {
                    let t = f64::from(step) / 8.0;
                    let (u, v) = (1.0 - t, t);
                    let w = [u * u * u, 3.0 * u * u * v, 3.0 * u * v * v, v * v * v];
                    let along =
                        |f: fn(&(f64, f64)) -> f64| p.iter().zip(w).map(|(p, w)| f(p) * w).sum();
                    now.push((along(|p| p.0), along(|p| p.1)));
                }
                (x, y) = p[3];
            }
            'a' => {
                let (r, down) = (n[0], n[6]);
                let side = if down > 0.0 { -r } else { r };
                now.push((x + side, y));
                now.push((x + side, y + down));
                (x, y) = (x + n[5], y + down);
            }
            'z' => {
                (x, y) = start;
                now.push((x, y));
                all.push(std::mem::take(&mut now));
                continue;
            }
            other => panic!("{other} in a path"),
        }
        now.push((x, y));
    }
    all.extend((!now.is_empty()).then_some(now));
    all
}

fn numbers(text: &str) -> Vec<f64> {
    let mut found = Vec::new();
    let mut from = 0;
    let bytes = text.as_bytes();
    for at in 1..=bytes.len() {
        if at == bytes.len() || matches!(bytes[at], b' ' | b'-') {
            let part = text[from..at].trim();
            if !part.is_empty() {
                found.push(part.parse().unwrap_or_else(|e| panic!("{part}: {e}")));
            }
            from = at;
        }
    }
    found
}

fn extent(owner: Owner, what: String, shape: &[Polygon]) -> Option<Extent> {
    let points = || shape.iter().flatten();
    let least = |f: fn(&(f64, f64)) -> f64| points().map(f).fold(f64::INFINITY, f64::min);
    let most = |f: fn(&(f64, f64)) -> f64| points().map(f).fold(f64::NEG_INFINITY, f64::max);
    let (left, right) = (least(|p| p.0), most(|p| p.0));
    let (top, bottom) = (least(|p| p.1), most(|p| p.1));
    if !left.is_finite() {
        return None;
    }
    let first = (top / BAND).floor();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a picture's size")]
    let count = ((bottom / BAND).floor() - first) as usize + 1;
    let mut bands = vec![(f64::INFINITY, f64::NEG_INFINITY); count];
    for polygon in shape {
        for (i, &a) in polygon.iter().enumerate() {
            edge(&mut bands, first, a, polygon[(i + 1) % polygon.len()]);
        }
    }
    Some(Extent { owner, what, left, right, top, bottom, bands })
}

/// Widens the bands that a straight edge crosses.
fn edge(bands: &mut [(f64, f64)], first: f64, a: (f64, f64), b: (f64, f64)) {
    let (low, high) = if a.1 <= b.1 { (a, b) } else { (b, a) };
    for (i, band) in bands.iter_mut().enumerate() {
        #[expect(clippy::cast_precision_loss, reason = "a few hundred")]
        let top = (first + i as f64) * BAND;
        let (from, to) = (low.1.max(top), high.1.min(top + BAND));
        if from > to {
            continue;
        }
        let x = |y: f64| {
            if high.1 - low.1 < 1e-9 {
                low.0
            } else {
                low.0 + (high.0 - low.0) * (y - low.1) / (high.1 - low.1)
            }
        };
        for x in [x(from), x(to)].into_iter().chain((high.1 - low.1 < 1e-9).then_some(high.0)) {
            *band = (band.0.min(x), band.1.max(x));
        }
    }
}

/// Pairs of marks that share room and should not.
#[must_use]
pub fn collisions(extents: &[Extent]) -> Vec<(Extent, Extent)> {
    let mut order: Vec<&Extent> = extents.iter().collect();
    order.sort_by(|a, b| a.top.total_cmp(&b.top));
    let mut found = Vec::new();
    let mut live: Vec<&Extent> = Vec::new();
    for next in order {
        live.retain(|mark| mark.bottom > next.top);
        for mark in &live {
            if apart(&mark.owner, &next.owner) && touch(mark, next) {
                found.push(((*mark).clone(), next.clone()));
            }
        }
        live.push(next);
    }
    found
}

/// Whether marks of these owners must not touch.
fn apart(a: &Owner, b: &Owner) -> bool {
    use Owner::{Bar, Header, Label, Note, Span};
    match (a, b) {
        // Parts of one thing; and ties and slurs cross bar lines.
        (Header, Header)
        | (Bar, Bar | Span(..))
        | (Span(..), Bar)
        | (Owner::Above, Owner::Above) => false,
        (Note(i), Note(j)) => i != j,
        (Owner::Cell(r, i), Owner::Cell(s, j)) => (r, i) != (s, j),
        (Label(r), Label(s)) => r != s,
        // A tie, slur or beam meets its notes.
        (Note(i), Span(from, to)) | (Span(from, to), Note(i)) => i < from || i > to,
        // What belongs to the same notes is drawn together: beams, their numbers, their slurs.
        (Span(a, b), Span(c, d)) => b < c || d < a,
        _ => a != b,
    }
}

fn touch(a: &Extent, b: &Extent) -> bool {
    let apart = |a0: f64, a1: f64, b0: f64, b1: f64| a1.min(b1) - a0.max(b0) <= SLACK;
    if apart(a.left, a.right, b.left, b.right) || apart(a.top, a.bottom, b.top, b.bottom) {
        return false;
    }
    let (first_a, first_b) = ((a.top / BAND).floor(), (b.top / BAND).floor());
    let shared = a.bands.iter().enumerate().filter(|(i, (a0, a1))| {
        #[expect(clippy::cast_precision_loss, reason = "a few hundred")]
        let at = first_a + *i as f64 - first_b;
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "checked")]
        let other = (at >= 0.0).then(|| b.bands.get(at as usize)).flatten();
        other.is_some_and(|(b0, b1)| !apart(*a0, *a1, *b0, *b1))
    });
    // One band alone may be shared by edges that only meet in it.
    shared.count() > 1
}

#[cfg(test)]
mod tests {
    use super::*;

    fn picture(inside: &str) -> String {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\"><defs>\
             <path id=\"s\" d=\"m0 0l1000 0l-1000 1000z\"/></defs>\
             <g transform=\"translate(0 0)\">{inside}</g></svg>"
        )
    }

    fn count(inside: &str) -> usize {
        collisions(&extents(&picture(inside), &Fonts::new())).len()
    }

    #[test]
    fn it_sees_what_collides_and_nothing_else() {
        let note = |i: usize, x: i32, y: i32| {
            format!("<g class=\"note\" data-i=\"{i}\"><use href=\"#s\" x=\"{x}\" y=\"{y}\"/></g>")
        };
        let pair = |x, y| count(&format!("{}{}", note(0, 0, 0), note(1, x, y)));
        assert_eq!(pair(300, 0), 1);
        assert_eq!(pair(1100, 0), 0);
        // Two triangles whose boxes overlap and whose ink does not.
        assert_eq!(pair(600, 600), 0);
        assert_eq!(count(&format!("{}{}", note(3, 0, 0), note(3, 0, 0))), 0);
        let slur =
            "<g class=\"span\" data-from=\"1\" data-to=\"2\"><path d=\"M0 0h900v900h-900z\"/></g>";
        assert_eq!(count(&format!("{slur}{}", note(1, 0, 0))), 0);
        assert_eq!(count(&format!("{slur}{}", note(3, 0, 0))), 1);
    }
}

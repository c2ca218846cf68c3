//! A sheet as PDF, from the same display list: text stays text, in a font that the document
//! carries.

use crate::ink::{Block, Ink, Point, Sheet};
use krilla::Document;
use krilla::color::luma;
use krilla::error::KrillaError;
use krilla::geom::{Path, PathBuilder, Point as At, Transform};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use modewright_glyphs::{
    Glyph, Segment,
    text::{self, Face},
};
use skrifa::MetadataProvider;
use std::collections::BTreeSet;
use std::fmt;

/// Why there is no PDF.
#[derive(Debug)]
pub enum PdfError {
    /// The size of the paper is not one that a page can have.
    Paper,
    /// The writer of PDF refused.
    Writer(KrillaError),
}

impl fmt::Display for PdfError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Paper => f.write_str("the paper has a size that no page can have"),
            Self::Writer(error) => write!(f, "the PDF could not be written: {error:?}"),
        }
    }
}

impl std::error::Error for PdfError {}

/// Points of a 72nd of an inch in a micrometre.
const POINTS: f32 = 72.0 / 25_400.0;

/// Draws a sheet as a PDF document, on as many pages as it needs. Paper without a height becomes
/// one page that is as long as the sheet.
///
/// Text can be selected and searched. Characters that the text font lacks are boxes: see
/// [`missing`].
///
/// # Errors
///
/// [`PdfError`] where the paper is impossible or the writer refuses.
pub fn pdf(sheet: &Sheet) -> Result<Vec<u8>, PdfError> {
    let paper = sheet.paper;
    let points = |micrometres: u32| micrometres as f32 * POINTS;
    let unit = paper.space as f32 / 1000.0 * POINTS;
    let whole: i64 = sheet.blocks.iter().map(|block| i64::from(block.height)).sum();
    let height = match paper.height {
        Some(height) => points(height),
        None => whole as f32 * unit + 2.0 * points(paper.margin),
    };
    let settings = || PageSettings::from_wh(points(paper.width), height).ok_or(PdfError::Paper);
    let faces = Faces::new()?;
    let mut document = Document::new();
    for page in pages(sheet) {
        let mut on = document.start_page_with(settings()?);
        let mut surface = on.surface();
        let margin = points(paper.margin);
        surface.push_transform(&Transform::from_row(unit, 0.0, 0.0, unit, margin, margin));
        let mut top = 0_i32;
        for block in page {
            for mark in &block.marks {
                draw(&mut surface, &faces, &mark.ink.clone().lowered(top));
            }
            top = top.saturating_add(block.height);
        }
        surface.pop();
        surface.finish();
        on.finish();
    }
    let mut about = Metadata::new().language("en".to_owned()).creator("Modewright".to_owned());
    if !sheet.title.is_empty() {
        about = about.title(sheet.title.clone());
    }
    if !sheet.description.is_empty() {
        about = about.description(sheet.description.clone());
    }
    document.set_metadata(about);
    document.finish().map_err(PdfError::Writer)
}

/// The characters of a sheet that the text font lacks, in order: a PDF shows a box for each. (In
/// SVG and HTML the reader's own fonts are asked for them.)
#[must_use]
pub fn missing(sheet: &Sheet) -> BTreeSet<char> {
    let marks = sheet.blocks.iter().flat_map(|block| &block.marks);
    let texts = marks.filter_map(|mark| match &mark.ink {
        Ink::Text { text, face, .. } => Some((text, *face)),
        _ => None,
    });
    texts
        .flat_map(|(text, face)| text.chars().filter(move |&c| text::advance(c, face).is_none()))
        .collect()
}

/// The blocks of each page. A block that is taller than a page has one of its own and runs over
/// its edge; no block is cut in two.
fn pages(sheet: &Sheet) -> Vec<Vec<&Block>> {
    let room = sheet.paper.inner_height().unwrap_or(i32::MAX);
    let mut pages: Vec<Vec<&Block>> = vec![Vec::new()];
    let mut used = 0_i32;
    for block in &sheet.blocks {
        if used > 0 && used.saturating_add(block.height) > room {
            pages.push(Vec::new());
            used = 0;
        }
        used = used.saturating_add(block.height);
        if let Some(page) = pages.last_mut() {
            page.push(block);
        }
    }
    pages
}

/// Both cuts of the text font, with what finds their glyphs.
struct Faces {
    fonts: [Font; 2],
    maps: [skrifa::FontRef<'static>; 2],
}

impl Faces {
    fn new() -> Result<Self, PdfError> {
        let font = |bytes: &'static [u8]| Font::new(bytes.into(), 0).ok_or(PdfError::Paper);
        let map = |bytes| skrifa::FontRef::new(bytes).map_err(|_| PdfError::Paper);
        Ok(Self {
            fonts: [font(text::REGULAR)?, font(text::BOLD)?],
            maps: [map(text::REGULAR)?, map(text::BOLD)?],
        })
    }
}

fn at((x, y): Point) -> At {
    At::from_xy(x as f32, y as f32)
}

fn draw(surface: &mut Surface<'_>, faces: &Faces, ink: &Ink) {
    let rule = FillRule::NonZero;
    match ink {
        Ink::Text { text, at: place, size, face, .. } => {
            write(surface, faces, text, *place, *size, *face);
        }
        Ink::Glyph { glyph, at: place, size } => fill(surface, sign(*glyph, *place, *size), rule),
        Ink::Rect { at: (x, y), size: (w, h) } => {
            fill(surface, polygon(&[(*x, *y), (x + w, *y), (x + w, y + h), (*x, y + h)]), rule);
        }
        Ink::Polygon(points) => fill(surface, polygon(points), rule),
        Ink::Bow { from, outer, to, inner } => {
            let mut path = PathBuilder::new();
            move_to(&mut path, *from);
            curve_to(&mut path, outer[0], outer[1], *to);
            curve_to(&mut path, inner[0], inner[1], *from);
            path.close();
            fill(surface, path.finish(), rule);
        }
        Ink::Disc { at: place, radius, hole, half } => {
            let mut path = PathBuilder::new();
            circle(&mut path, *place, *radius);
            if *hole > 0 {
                circle(&mut path, *place, *hole);
            }
            fill(surface, path.finish(), FillRule::EvenOdd);
            if *hole > 0 && *half {
                let mut path = PathBuilder::new();
                half_circle(&mut path, *place, *hole);
                path.close();
                fill(surface, path.finish(), rule);
            }
        }
    }
}

fn fill(surface: &mut Surface<'_>, path: Option<Path>, rule: FillRule) {
    let Some(path) = path else { return };
    surface.set_fill(Some(Fill { paint: luma::Color::black().into(), rule, ..Fill::default() }));
    surface.draw_path(&path);
}

fn move_to(path: &mut PathBuilder, (x, y): Point) {
    path.move_to(x as f32, y as f32);
}

fn curve_to(path: &mut PathBuilder, a: Point, b: Point, to: Point) {
    path.cubic_to(a.0 as f32, a.1 as f32, b.0 as f32, b.1 as f32, to.0 as f32, to.1 as f32);
}

fn polygon(points: &[Point]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for (i, &(x, y)) in points.iter().enumerate() {
        if i == 0 { path.move_to(x as f32, y as f32) } else { path.line_to(x as f32, y as f32) }
    }
    path.close();
    path.finish()
}

fn sign(glyph: Glyph, place: Point, size: i32) -> Option<Path> {
    let mut path = PathBuilder::new();
    let moved = |(x, y): Point| (place.0 + x * size / 1000, place.1 + y * size / 1000);
    for segment in glyph.outline().path.segments() {
        match segment {
            Segment::Move(to) => move_to(&mut path, moved(to)),
            Segment::Line(to) => {
                let (x, y) = moved(to);
                path.line_to(x as f32, y as f32);
            }
            Segment::Curve(a, b, to) => curve_to(&mut path, moved(a), moved(b), moved(to)),
            Segment::Close => path.close(),
        }
    }
    path.finish()
}

/// The left half of a circle, from its top to its bottom.
fn half_circle(path: &mut PathBuilder, (x, y): Point, r: i32) {
    // A quarter by one cubic: controls at 0.5523 of the radius.
    let k = r * 5523 / 10_000;
    move_to(path, (x, y - r));
    curve_to(path, (x - k, y - r), (x - r, y - k), (x - r, y));
    curve_to(path, (x - r, y + k), (x - k, y + r), (x, y + r));
}

fn circle(path: &mut PathBuilder, place: Point, r: i32) {
    let (x, y) = place;
    let k = r * 5523 / 10_000;
    half_circle(path, place, r);
    curve_to(path, (x + k, y + r), (x + r, y + k), (x + r, y));
    curve_to(path, (x + r, y - k), (x + k, y - r), (x, y - r));
    path.close();
}

/// Writes text with the advances that it was laid out with.
fn write(
    surface: &mut Surface<'_>,
    faces: &Faces,
    text: &str,
    place: Point,
    size: i32,
    face: Face,
) {
    let which = usize::from(face == Face::Bold);
    let map = faces.maps[which].charmap();
    let glyphs: Vec<KrillaGlyph> = text
        .char_indices()
        .map(|(i, c)| {
            let id = map.map(c).map_or(0, skrifa::GlyphId::to_u32);
            let advance = text::advance(c, face).unwrap_or(text::UNKNOWN) as f32 / 1000.0;
            let range = i..i + c.len_utf8();
            KrillaGlyph::new(GlyphId::new(id), advance, 0.0, 0.0, 0.0, range, None)
        })
        .collect();
    surface.set_fill(Some(Fill { paint: luma::Color::black().into(), ..Fill::default() }));
    let font = faces.fonts[which].clone();
    surface.draw_glyphs(at(place), &glyphs, font, text, size as f32, false);
}

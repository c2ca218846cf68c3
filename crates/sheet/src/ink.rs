//! The display list: every mark of a sheet with its place, for whatever draws it.
//!
//! All places and sizes are whole thousandths of a staff space, x to the right and y down, from
//! the upper left corner of the block that a mark stands in.

use modewright_glyphs::{Glyph, text::Face};

/// A place: x to the right, y down, in thousandths of a staff space.
pub type Point = (i32, i32);

/// A picture of a tune: blocks that stand one under the other, each as wide as the sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sheet {
    /// The width of the music and its words, without margins.
    pub width: i32,
    /// What the sheet shows, in a few words, for a reader who cannot see it.
    pub title: String,
    /// The same at more length.
    pub description: String,
    /// Heading, systems and foot, in order.
    pub blocks: Vec<Block>,
    /// The paper that it was laid out for.
    pub paper: crate::Paper,
}

impl Sheet {
    /// The most notes and rests of a tune that is printed: some two hundred pages. Nothing breaks
    /// beyond it, but no picture so long serves anybody; who asks for a sheet is told.
    pub const MAX_NOTES: usize = 20_000;
    /// The most letters of a title that a reader who cannot see the sheet is told.
    pub const MAX_TITLE: usize = 400;
}

/// A part of the sheet that a page does not cut in two.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Block {
    /// Its height; the next block begins where it ends.
    pub height: i32,
    /// What is drawn in it.
    pub marks: Vec<Mark>,
}

/// Something drawn, and what it belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// What it belongs to.
    pub owner: Owner,
    /// What it looks like.
    pub ink: Ink,
}

/// What a mark belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Owner {
    /// The lines of the stave.
    Stave,
    /// Clefs, signatures and metres.
    Header,
    /// Bar lines and repeat signs.
    Bar,
    /// A note or rest: an index into the tune's events.
    Note(usize),
    /// A beam, tie, slur or bracket from one note to another.
    Span(usize, usize),
    /// Words and signs over the stave.
    Above,
    /// Something of a row under a note: the row's number and the note.
    Cell(usize, usize),
    /// The name of a row.
    RowLabel(usize),
    /// Title, names and other words about the tune.
    Words,
}

/// What a mark looks like. Everything is filled, nothing is stroked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Ink {
    /// A music sign.
    Glyph {
        /// Which.
        glyph: Glyph,
        /// Where its origin stands.
        at: Point,
        /// Its size in thousandths of the usual one.
        size: i32,
    },
    /// An upright rectangle.
    Rect {
        /// Its upper left corner.
        at: Point,
        /// Its width and height.
        size: Point,
    },
    /// A shape with straight sides.
    Polygon(Vec<Point>),
    /// A tie or slur: out along the first curve and back along the second.
    Bow {
        /// Where it begins.
        from: Point,
        /// The two control points of the outer curve.
        outer: [Point; 2],
        /// Where it ends.
        to: Point,
        /// The two control points of the inner curve, on the way back.
        inner: [Point; 2],
    },
    /// A disc; a ring where `hole` is not 0.
    Disc {
        /// Its middle.
        at: Point,
        /// Its outer radius.
        radius: i32,
        /// The radius of the hole in it.
        hole: i32,
        /// Filled on the left half only, besides the ring.
        half: bool,
    },
    /// A line of text in one cut and size.
    Text {
        /// What it says.
        text: String,
        /// The left end of its line.
        at: Point,
        /// The size of the font.
        size: i32,
        /// The cut.
        face: Face,
        /// The width that it takes.
        width: i32,
    },
}

impl Ink {
    /// Left, top, right and bottom. A bow is given by its corners, which it does not reach.
    #[must_use]
    pub fn bounds(&self) -> [i32; 4] {
        let around = |points: &[Point]| {
            let (mut left, mut top, mut right, mut bottom) =
                (i32::MAX, i32::MAX, i32::MIN, i32::MIN);
            for &(x, y) in points {
                (left, right) = (left.min(x), right.max(x));
                (top, bottom) = (top.min(y), bottom.max(y));
            }
            [left, top, right, bottom]
        };
        match self {
            Self::Glyph { glyph, at, size } => {
                let [left, top, right, bottom] = glyph.outline().bounds;
                let scaled = |n: i32| n * size / 1000;
                [
                    at.0 + scaled(left),
                    at.1 + scaled(top),
                    at.0 + scaled(right),
                    at.1 + scaled(bottom),
                ]
            }
            Self::Rect { at, size } => [at.0, at.1, at.0 + size.0, at.1 + size.1],
            Self::Polygon(points) => around(points),
            Self::Bow { from, outer, to, inner } => {
                around(&[*from, outer[0], outer[1], *to, inner[0], inner[1]])
            }
            Self::Disc { at, radius, .. } => {
                [at.0 - radius, at.1 - radius, at.0 + radius, at.1 + radius]
            }
            Self::Text { at, size, width, .. } => {
                let height = |part: i32| part * size / 1000;
                let (ascent, descent) =
                    (modewright_glyphs::text::ASCENT, modewright_glyphs::text::DESCENT);
                [at.0, at.1 - height(ascent), at.0 + width, at.1 + height(descent)]
            }
        }
    }

    /// The same, so far lower.
    #[must_use]
    pub fn lowered(mut self, by: i32) -> Self {
        match &mut self {
            Self::Glyph { at, .. }
            | Self::Rect { at, .. }
            | Self::Disc { at, .. }
            | Self::Text { at, .. } => at.1 += by,
            Self::Polygon(points) => points.iter_mut().for_each(|p| p.1 += by),
            Self::Bow { from, outer, to, inner } => {
                from.1 += by;
                to.1 += by;
                outer.iter_mut().chain(inner).for_each(|p| p.1 += by);
            }
        }
        self
    }
}

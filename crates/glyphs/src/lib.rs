//! Outlines of music signs, and the widths of a text font, for drawing sheets.
//!
//! Lengths are in thousandths of a staff space (the distance of two lines of the stave), x to
//! the right and y **down**, from the origin that SMuFL, the standard layout of music fonts,
//! gives each sign. Widths of text are in thousandths of the font's size.
//!
//! The data is licensed under the SIL Open Font License 1.1, beside the manifest of this crate.
//!
//! # Examples
//!
//! ```
//! use modewright_glyphs::{Glyph, text};
//!
//! // A note head is one space high.
//! let [_, top, _, bottom] = Glyph::HeadBlack.outline().bounds;
//! assert_eq!(bottom - top, 1000);
//! assert!(text::width("Tide", text::Face::Bold, 1000) > text::width("Tide", text::Face::Regular, 1000));
//! ```

#[rustfmt::skip]
mod outlines;
mod path;
pub mod text;
#[rustfmt::skip]
mod widths;

pub use outlines::Glyph;
pub use path::{Path, Segment};

/// The outline of a sign with its sizes, in thousandths of a staff space, y down.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Outline {
    /// From the origin to where a following sign would begin.
    pub advance: i32,
    /// Left, top, right and bottom of its ink.
    pub bounds: [i32; 4],
    /// Where the lower right corner of an upward stem stands; `None` where it has no stem.
    pub stem_up: Option<(i32, i32)>,
    /// Where the upper left corner of a downward stem stands; `None` where it has no stem.
    pub stem_down: Option<(i32, i32)>,
    /// What is drawn.
    pub path: Path,
}

impl Glyph {
    /// The outline of the sign.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_glyphs::Glyph;
    ///
    /// assert!(Glyph::HeadBlack.outline().stem_up.is_some());
    /// // A semibreve has no stem.
    /// assert!(Glyph::HeadSemibreve.outline().stem_up.is_none());
    /// ```
    #[must_use]
    pub const fn outline(self) -> &'static Outline {
        &outlines::OUTLINES[self as usize]
    }

    /// The width of its ink.
    #[must_use]
    pub const fn width(self) -> i32 {
        let [left, _, right, _] = self.outline().bounds;
        right - left
    }

    /// The figure of a metre, for 0 to 9.
    #[must_use]
    pub fn time_figure(digit: u32) -> Self {
        Self::figure(Self::Time0, digit)
    }

    /// The figure of a tuplet, for 0 to 9.
    #[must_use]
    pub fn tuplet_figure(digit: u32) -> Self {
        Self::figure(Self::Tuplet0, digit)
    }

    fn figure(zero: Self, digit: u32) -> Self {
        Self::ALL[zero as usize + digit.min(9) as usize]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_outline_is_closed_and_stays_within_its_bounds() {
        for glyph in Glyph::ALL {
            let outline = glyph.outline();
            let [left, top, right, bottom] = outline.bounds;
            assert!(left < right && top < bottom, "{glyph:?}");
            assert_eq!(glyph as usize, Glyph::ALL.iter().position(|g| *g == glyph).unwrap());
            let mut open = false;
            let mut count = 0;
            for segment in outline.path.segments() {
                count += 1;
                let end = match segment {
                    Segment::Move(to) => {
                        assert!(!open, "{glyph:?}");
                        open = true;
                        Some(to)
                    }
                    Segment::Line(to) | Segment::Curve(_, _, to) => {
                        assert!(open, "{glyph:?}");
                        Some(to)
                    }
                    Segment::Close => {
                        open = false;
                        None
                    }
                };
                if let Some((x, y)) = end {
                    assert!(
                        (left..=right).contains(&x) && (top..=bottom).contains(&y),
                        "{glyph:?}"
                    );
                }
            }
            assert!(!open && count > 2, "{glyph:?}");
        }
    }

    /// Sizes that the SMuFL standard fixes: a head is a space high, a figure two.
    #[test]
    fn sizes_are_those_of_the_standard() {
        for glyph in [Glyph::HeadMinim, Glyph::HeadSemibreve] {
            let [_, top, _, bottom] = glyph.outline().bounds;
            assert_eq!((top, bottom), (-500, 500), "{glyph:?}");
        }
        for digit in 0..=9 {
            let [_, top, _, bottom] = Glyph::time_figure(digit).outline().bounds;
            assert!((1950..=2100).contains(&(bottom - top)), "{digit}");
        }
        assert_eq!(Glyph::tuplet_figure(3), Glyph::Tuplet3);
        assert_eq!(Glyph::time_figure(77), Glyph::Time9);
    }
}

//! The paths of outlines, packed small.
//!
//! In the table a path is text, as SVG spells it; the compiler packs it. What it becomes is half as
//! long, and a page that is sent compressed is some kilobytes lighter: each step is a byte for what
//! it is, then its numbers in quarters, in a byte each or, from 121 on, in two. A curve's second
//! control point and its end are told from the point before them.

use std::fmt;

/// A point: x to the right, y down.
type Point = (i32, i32);

/// A piece of a path, in absolute places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Segment {
    /// A new contour begins here.
    Move(Point),
    /// A straight line to here.
    Line(Point),
    /// A cubic curve: two control points and its end.
    Curve(Point, Point, Point),
    /// Back to the beginning of the contour.
    Close,
}

/// The path of an outline. Shown as text it is the path in SVG's spelling: relative steps m, l, c
/// and z in whole numbers.
///
/// # Examples
///
/// ```
/// use modewright_glyphs::{Glyph, Segment};
///
/// let dot = Glyph::Dot.outline().path;
/// assert!(matches!(dot.segments().next(), Some(Segment::Move(_))));
/// assert!(dot.to_string().ends_with('z'));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Path(&'static [u8]);

/// A path of the table, packed.
macro_rules! packed {
    ($text:literal) => {{
        const SIZE: usize = $crate::path::pack::<0>($text).1;
        const PATH: [u8; SIZE] = $crate::path::pack($text).0;
        $crate::path::Path::new(&PATH)
    }};
}
pub(crate) use packed;

/// The letters of the steps, by the number that they are packed as.
const LETTERS: [u8; 4] = *b"mlcz";
/// How many numbers each of them has.
const NUMBERS: [usize; 4] = [2, 2, 6, 0];
/// The largest number that takes one byte.
const ONE_BYTE: i32 = 120;
/// What all numbers are multiples of.
const UNIT: i32 = 4;

/// Packs a path that is written as SVG spells it; gives the first `N` bytes, and how many there
/// are. Only the compiler runs this, and stops at a path that is none.
pub(crate) const fn pack<const N: usize>(text: &str) -> ([u8; N], usize) {
    let text = text.as_bytes();
    let mut packed = ([0; N], 0);
    let mut at = 0;
    while at < text.len() {
        let mut step = 0;
        while LETTERS[step] != text[at] {
            step += 1;
        }
        at += 1;
        packed = put(packed, step.to_le_bytes()[0]);
        let mut before = [0; 2];
        let mut place = 0;
        while place < NUMBERS[step] {
            let negative = text[at] == b'-';
            if negative || text[at] == b' ' {
                at += 1;
            }
            let mut number = 0;
            while at < text.len() && text[at].is_ascii_digit() {
                number = number * 10 + (text[at] - b'0') as i32;
                at += 1;
            }
            assert!(number % UNIT == 0, "a number of a path is no multiple of the unit");
            let number = if negative { -number } else { number };
            packed = put_number(packed, (number - before[place % 2]) / UNIT);
            before[place % 2] = number;
            place += 1;
        }
    }
    packed
}

const fn put_number<const N: usize>(packed: ([u8; N], usize), number: i32) -> ([u8; N], usize) {
    if number >= -ONE_BYTE && number <= ONE_BYTE {
        return put(packed, (number + 128).to_le_bytes()[0]);
    }
    let beyond = if number > 0 { number - ONE_BYTE - 1 } else { -number - ONE_BYTE - 1 };
    let [low, high, ..] = beyond.to_le_bytes();
    assert!(high < if number > 0 { 7 } else { 8 }, "a number of a path is too large");
    put(put(packed, if number > 0 { 249 + high } else { high }), low)
}

const fn put<const N: usize>(packed: ([u8; N], usize), byte: u8) -> ([u8; N], usize) {
    let (mut bytes, length) = packed;
    if length < N {
        bytes[length] = byte;
    }
    (bytes, length + 1)
}

impl Path {
    /// A packed path.
    pub(crate) const fn new(packed: &'static [u8]) -> Self {
        Self(packed)
    }

    /// Its pieces.
    pub fn segments(self) -> impl Iterator<Item = Segment> {
        let mut here = (0, 0);
        let mut start = (0, 0);
        self.steps().map(move |(letter, steps)| {
            let point = |n: usize| (here.0 + steps[2 * n], here.1 + steps[2 * n + 1]);
            let segment = match letter {
                'm' => Segment::Move(point(0)),
                'l' => Segment::Line(point(0)),
                'c' => Segment::Curve(point(0), point(1), point(2)),
                _ => Segment::Close,
            };
            match segment {
                Segment::Move(to) => (here, start) = (to, to),
                Segment::Line(to) | Segment::Curve(_, _, to) => here = to,
                Segment::Close => here = start,
            }
            segment
        })
    }

    /// Its steps: a letter, and the numbers that SVG writes after it.
    fn steps(self) -> impl Iterator<Item = (char, [i32; 6])> {
        let mut bytes = self.0.iter().copied().map(i32::from);
        std::iter::from_fn(move || {
            let step = usize::try_from(bytes.next()?).ok()?;
            let mut numbers = [0; 6];
            for place in 0..*NUMBERS.get(step)? {
                let number = match bytes.next()? {
                    low @ 0..8 => -(low * 256 + bytes.next()? + ONE_BYTE + 1),
                    high @ 249.. => (high - 249) * 256 + bytes.next()? + ONE_BYTE + 1,
                    one => one - 128,
                };
                let before = if place < 2 { 0 } else { numbers[place - 2] };
                numbers[place] = number * UNIT + before;
            }
            Some((char::from(LETTERS[step]), numbers))
        })
    }
}

impl fmt::Display for Path {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (letter, numbers) in self.steps() {
            write!(f, "{letter}")?;
            let count = LETTERS.iter().position(|known| char::from(*known) == letter);
            let count = count.map_or(0, |step| NUMBERS[step]);
            for (place, number) in numbers[..count].iter().enumerate() {
                let gap = if place > 0 && *number >= 0 { " " } else { "" };
                write!(f, "{gap}{number}")?;
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_comes_out_as_it_went_in() {
        let path = packed!("m480-484l-4 7164c-8-4580 0-52 24-76c432-404 760-912 760-1524z");
        assert_eq!(
            path.to_string(),
            "m480-484l-4 7164c-8-4580 0-52 24-76c432-404 760-912 760-1524z"
        );
        let packed = packed!("m8 20l-4 0c0 4 4 4 4-8zm4 4");
        let pieces: Vec<Segment> = packed.segments().collect();
        let curve = Segment::Curve((4, 24), (8, 24), (8, 12));
        let first = [Segment::Move((8, 20)), Segment::Line((4, 20)), curve, Segment::Close];
        assert_eq!(pieces[..4], first);
        // After the end a contour begins where the one before began.
        assert_eq!(pieces[4..], [Segment::Move((12, 24))]);
    }

    #[test]
    fn odd_bytes_end_a_path_and_break_nothing() {
        for odd in [&[9_u8][..], &[0], &[0, 128], &[2, 128, 255], &[0, 0, 0, 3]] {
            assert_eq!(Path::new(odd).segments().count(), 0);
        }
    }
}

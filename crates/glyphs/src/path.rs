//! Reading the paths of outlines.

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

/// The pieces of a path of relative steps, as [`Outline::path`](crate::Outline::path) holds it.
/// Ends at the first thing that is no such step.
///
/// # Examples
///
/// ```
/// use modewright_glyphs::{Segment, segments};
///
/// let pieces: Vec<Segment> = segments("m10 20l-5 0z").collect();
/// assert_eq!(pieces, [Segment::Move((10, 20)), Segment::Line((5, 20)), Segment::Close]);
/// // An odd path ends early; it does not panic.
/// assert_eq!(segments("m10").count(), 0);
/// ```
pub fn segments(path: &str) -> impl Iterator<Item = Segment> + '_ {
    let mut rest = path.as_bytes();
    let mut here = (0, 0);
    let mut start = (0, 0);
    std::iter::from_fn(move || {
        let (&letter, after) = rest.split_first()?;
        rest = after;
        let point = |rest: &mut &[u8]| {
            let x = number(rest)?;
            let y = number(rest)?;
            Some((i32::checked_add(here.0, x)?, i32::checked_add(here.1, y)?))
        };
        let segment = match letter {
            b'm' => Segment::Move(point(&mut rest)?),
            b'l' => Segment::Line(point(&mut rest)?),
            b'c' => Segment::Curve(point(&mut rest)?, point(&mut rest)?, point(&mut rest)?),
            b'z' => Segment::Close,
            _ => return None,
        };
        match segment {
            Segment::Move(to) => (here, start) = (to, to),
            Segment::Line(to) | Segment::Curve(_, _, to) => here = to,
            Segment::Close => here = start,
        }
        Some(segment)
    })
}

/// Takes a whole number from the front, with the blank before it.
fn number(rest: &mut &[u8]) -> Option<i32> {
    let text = rest.strip_prefix(b" ").unwrap_or(rest);
    let sign = usize::from(text.first() == Some(&b'-'));
    let digits = text[sign..].iter().take_while(|b| b.is_ascii_digit()).count();
    let (number, after) = text.split_at(sign + digits);
    *rest = after;
    std::str::from_utf8(number).ok()?.parse().ok()
}

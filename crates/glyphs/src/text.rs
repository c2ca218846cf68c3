//! How wide text is.
//!
//! The widths are those of the text font, whose bytes the feature `fonts` adds. A page or a
//! picture that shows the text in another font can be told the width that was reckoned with.

use crate::widths;

/// A cut of the text font.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// For running text.
    #[default]
    Regular,
    /// For titles and part names.
    Bold,
}

/// Neighbouring characters with their advances, regular and bold.
pub(crate) struct Run {
    pub(crate) first: u32,
    pub(crate) widths: &'static [(u16, u16)],
}

/// Height of the tallest letters over the line, in thousandths of the size.
pub const ASCENT: i32 = widths::ASCENT;

/// Depth of the lowest letters under the line, in thousandths of the size.
pub const DESCENT: i32 = widths::DESCENT;

/// Height of capitals and figures without accents, in thousandths of the size.
pub const CAPITAL: i32 = 714;

/// The advance that is reckoned for a character that the font does not have: a square.
pub const UNKNOWN: i32 = 1000;

/// The advance of a character in thousandths of the size; `None` where the font lacks it.
///
/// # Examples
///
/// ```
/// use modewright_glyphs::text::{Face, advance};
///
/// assert_eq!(advance('1', Face::Regular), advance('8', Face::Regular));
/// // Sharps and flats are music signs, not text.
/// assert_eq!(advance('♯', Face::Regular), None);
/// ```
#[must_use]
pub fn advance(c: char, face: Face) -> Option<i32> {
    let code = u32::from(c);
    let at = widths::RUNS.partition_point(|run| run.first <= code).checked_sub(1)?;
    let run = &widths::RUNS[at];
    let &(regular, bold) = run.widths.get((code - run.first) as usize)?;
    Some(i32::from(if face == Face::Bold { bold } else { regular }))
}

/// The width of a text at a size, in the size's unit, rounded up. Characters that the font lacks
/// count as squares. Sums stop at the largest number.
///
/// # Examples
///
/// ```
/// use modewright_glyphs::text::{Face, width};
///
/// assert_eq!(width("", Face::Regular, 1800), 0);
/// assert_eq!(width("潮", Face::Regular, 1800), 1800);
/// ```
#[must_use]
pub fn width(text: &str, face: Face, size: i32) -> i32 {
    let parts: i64 = text.chars().map(|c| i64::from(advance(c, face).unwrap_or(UNKNOWN))).sum();
    let width = parts.saturating_mul(i64::from(size)).saturating_add(999).div_euclid(1000);
    i32::try_from(width).unwrap_or(if width < 0 { i32::MIN } else { i32::MAX })
}

/// The bytes of the regular cut, a TrueType font.
#[cfg(feature = "fonts")]
pub const REGULAR: &[u8] = include_bytes!("../fonts/regular.ttf");

/// The bytes of the bold cut, a TrueType font.
#[cfg(feature = "fonts")]
pub const BOLD: &[u8] = include_bytes!("../fonts/bold.ttf");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_are_apart_and_in_order() {
        let mut end = 0;
        for run in &widths::RUNS {
            assert!(run.first >= end && !run.widths.is_empty());
            end = run.first + u32::try_from(run.widths.len()).unwrap();
        }
    }

    #[test]
    fn letters_of_europe_are_there() {
        for c in "azAZ09 .,;:!?'\"()-–—’“”…éÈñßøÅŁşțđŵẁŷΩπЖяЇ€".chars()
        {
            assert!(advance(c, Face::Regular).is_some_and(|w| w > 0), "{c}");
        }
        for c in ['\u{0}', '\n', '♭', '潮', 'א', char::MAX] {
            assert_eq!(advance(c, Face::Bold), None, "{c:?}");
        }
    }
}

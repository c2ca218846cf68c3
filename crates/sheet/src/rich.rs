//! Text with music signs in it: sharps, flats and naturals are drawn as outlines, everything else
//! as letters.

use crate::ink::Ink;
use modewright_glyphs::{
    Glyph,
    text::{self, Face},
};

/// A piece of a text, with where it begins.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Piece {
    Letters {
        text: String,
        dx: i32,
        width: i32,
    },
    Sign {
        glyph: Glyph,
        dx: i32,
    },
    /// A hole as text has it: ●, ◐ or ○.
    Disc {
        c: char,
        dx: i32,
    },
}

/// A line of text in pieces, with its width.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Rich {
    pieces: Vec<Piece>,
    face: Face,
    size: i32,
    pub(crate) width: i32,
}

impl Rich {
    /// Measures a text; characters that cannot be printed are left out (see [`clean`]).
    pub(crate) fn new(text: &str, face: Face, size: i32) -> Self {
        let mut rich = Self { face, size, ..Self::default() };
        let mut letters = String::new();
        for c in clean(text) {
            match sign(c) {
                Some(glyph) => {
                    rich.flush(&mut letters);
                    rich.pieces.push(Piece::Sign { glyph, dx: rich.width });
                    rich.width += rich.sign_width(glyph);
                }
                None if is_disc(c) => {
                    rich.flush(&mut letters);
                    rich.pieces.push(Piece::Disc { c, dx: rich.width });
                    rich.width += size * DISC / 1000;
                }
                None => letters.push(c),
            }
        }
        rich.flush(&mut letters);
        rich
    }

    fn flush(&mut self, letters: &mut String) {
        let width = |letters: &str| text::width(letters, self.face, self.size);
        // Blanks before and behind are room, and no letters: a browser would leave them out.
        let text = letters.trim().to_owned();
        let lead = width(letters.trim_end()).saturating_sub(width(&text));
        let (whole, width) = (width(letters), width(&text));
        if !text.is_empty() {
            let dx = self.width.saturating_add(lead);
            self.pieces.push(Piece::Letters { text, dx, width });
        }
        self.width = self.width.saturating_add(whole);
        letters.clear();
    }

    /// Signs are as high as letters: 650 thousandths at the size of 1700.
    fn sign_scale(&self) -> i32 {
        self.size * 38 / 100
    }

    fn sign_width(&self, glyph: Glyph) -> i32 {
        (glyph.outline().advance + 160) * self.sign_scale() / 1000
    }

    /// The marks of the text, from its left end on its line.
    pub(crate) fn inks(&self, x: i32, y: i32) -> impl Iterator<Item = Ink> + '_ {
        self.pieces.iter().map(move |piece| match piece {
            Piece::Letters { text, dx, width } => Ink::Text {
                text: text.clone(),
                at: (x + dx, y),
                size: self.size,
                face: self.face,
                width: *width,
            },
            Piece::Sign { glyph, dx } => {
                let scale = self.sign_scale();
                // On the middle of the letters, flats a little higher: their belly sits there.
                let lift = if matches!(glyph, Glyph::Flat | Glyph::DoubleFlat) { 260 } else { 350 };
                let at = (x + dx + 60 * scale / 1000, y - self.size * lift / 1000);
                Ink::Glyph { glyph: *glyph, at, size: scale }
            }
            Piece::Disc { c, dx } => {
                let radius = self.size * 29 / 100;
                Ink::Disc {
                    at: (x + dx + self.size * DISC / 2000, y - self.size * 36 / 100),
                    radius,
                    hole: if *c == '●' { 0 } else { radius * 3 / 4 },
                    half: *c == '◐',
                }
            }
        })
    }

    /// Height over the line, and depth under it.
    pub(crate) fn extent(&self) -> (i32, i32) {
        (self.size * text::ASCENT / 1000, self.size * text::DESCENT / 1000)
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.pieces.is_empty()
    }
}

/// The room of a hole in a text, in thousandths of the size.
const DISC: i32 = 700;

const fn is_disc(c: char) -> bool {
    matches!(c, '●' | '◐' | '○')
}

fn sign(c: char) -> Option<Glyph> {
    Some(match c {
        '♭' => Glyph::Flat,
        '♮' => Glyph::Natural,
        '♯' => Glyph::Sharp,
        '𝄪' => Glyph::DoubleSharp,
        '𝄫' => Glyph::DoubleFlat,
        _ => return None,
    })
}

/// A text without characters that are no ink: controls become blanks, marks that turn the
/// direction of writing or have no width are left out. Blanks at the ends go, runs become one.
pub(crate) fn clean(text: &str) -> impl Iterator<Item = char> + '_ {
    let mut blank = true;
    let mut held = false;
    let mut chars = text.chars().peekable();
    std::iter::from_fn(move || {
        loop {
            if held
                && chars
                    .peek()
                    .is_some_and(|c| !c.is_whitespace() && !c.is_control() && !is_hidden(*c))
            {
                held = false;
                return Some(' ');
            }
            let c = chars.next()?;
            if is_hidden(c) {
                continue;
            }
            if c.is_whitespace() || c.is_control() {
                held = !blank;
                continue;
            }
            blank = false;
            return Some(c);
        }
    })
}

const fn is_hidden(c: char) -> bool {
    matches!(
        c,
        '\u{200B}'..='\u{200F}'
            | '\u{2028}'..='\u{202E}'
            | '\u{2060}'..='\u{206F}'
            | '\u{FE00}'..='\u{FE0F}'
            | '\u{FEFF}'
            | '\u{FFF0}'..='\u{FFFF}'
            | '\u{E0000}'..='\u{E0FFF}'
    )
}

/// A text cut to a width, with … where something is missing.
pub(crate) fn cut(text: &str, face: Face, size: i32, width: i32) -> Rich {
    let mut lines = wrap(text, face, size, width, 1);
    lines.pop().unwrap_or_default()
}

/// A text in at most so many lines of a width; where it goes on, the last ends in ….
pub(crate) fn wrap(text: &str, face: Face, size: i32, width: i32, most: usize) -> Vec<Rich> {
    // One char is at least some tenth of its size wide, so what is beyond cannot be needed.
    let enough = usize::try_from(width / (size / 10).max(1)).unwrap_or(0).saturating_mul(most) + 2;
    let text: String = clean(text).take(enough).collect();
    let more = text.chars().count() == enough;
    let mut lines: Vec<String> = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() && lines.len() < most {
        let fits = fitting(rest, face, size, width);
        let is_last = lines.len() + 1 == most;
        if fits == rest.len() && !more {
            lines.push(rest.to_owned());
            rest = "";
        } else if is_last || fits == rest.len() {
            let short = fitting(rest, face, size, width - Rich::new("…", face, size).width);
            lines.push(format!("{}…", rest[..short].trim_end()));
            rest = "";
        } else {
            let at = rest[..fits].rfind(' ').filter(|&at| at > 0).unwrap_or(fits);
            lines.push(rest[..at].trim_end().to_owned());
            rest = rest[at..].trim_start();
        }
    }
    lines.iter().map(|line| Rich::new(line, face, size)).collect()
}

/// How many bytes of a clean text fit a width; at least one character.
fn fitting(text: &str, face: Face, size: i32, width: i32) -> usize {
    let blank = Rich { face, size, ..Rich::default() };
    let mut sum = 0_i64;
    for (at, c) in text.char_indices() {
        sum += match sign(c) {
            Some(glyph) => i64::from(blank.sign_width(glyph)) * 1000,
            None if is_disc(c) => i64::from(DISC) * i64::from(size),
            None => i64::from(text::advance(c, face).unwrap_or(text::UNKNOWN)) * i64::from(size),
        };
        // The widths of pieces are rounded up, one by one.
        if at > 0 && sum > (i64::from(width) - 4) * 1000 {
            return at;
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(text: &str) -> String {
        clean(text).collect()
    }

    #[test]
    fn what_is_no_ink_is_left_out() {
        assert_eq!(told("  a\t\n b\u{202E}c\u{0}d  "), "a bc d");
        assert_eq!(told("\u{FEFF}\u{200B}"), "");
    }

    #[test]
    fn signs_are_outlines_and_have_their_width() {
        let rich = Rich::new("F♯ B♭", Face::Regular, 1700);
        assert_eq!(rich.inks(0, 0).filter(|ink| matches!(ink, Ink::Glyph { .. })).count(), 2);
        let end = rich.inks(0, 0).map(|ink| ink.bounds()[2]).max();
        assert!(end <= Some(rich.width), "{end:?} {}", rich.width);
    }

    #[test]
    fn long_texts_are_wrapped_and_cut() {
        let lines = wrap("The ebb at the quay", Face::Bold, 3000, 20_000, 3);
        assert!(lines.len() == 2 && lines.iter().all(|line| line.width <= 20_000));
        for text in ["x".repeat(10_000), "♯".repeat(10_000), "潮 ".repeat(10_000)] {
            let lines = wrap(&text, Face::Bold, 3000, 20_000, 3);
            assert_eq!(lines.len(), 3);
            assert!(lines.iter().all(|line| line.width <= 20_000));
        }
        assert!(wrap("", Face::Bold, 3000, 20_000, 3).is_empty());
        assert_eq!(cut("Slipway", Face::Bold, 3000, 0).pieces.len(), 1);
    }
}

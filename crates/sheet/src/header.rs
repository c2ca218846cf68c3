//! What stands at the beginning of a system: clef, signature, metre, and the sign of a repeat.

use crate::clef::{self, Places};
use crate::column::metre_width;
use crate::ink::Ink;
use modewright_core::tune::{Clef, WrittenKey};
use modewright_core::{Metre, MetreSign};
use modewright_glyphs::Glyph;

/// From one thing to the next.
const GAP: i32 = 700;
/// A metre of more groups is printed as their sum.
const MOST_GROUPS: usize = 4;
/// Between signs of a signature.
const SIGN_GAP: i32 = 80;

/// What the beginning of a system shows.
#[derive(Clone, Debug, Default)]
pub(crate) struct Header {
    pub(crate) inks: Vec<Ink>,
    /// Where the music may begin.
    pub(crate) width: i32,
}

impl Header {
    /// Clef and signature, and the metre where it is new.
    pub(crate) fn new(clef: Clef, key: Option<&WrittenKey>, metre: Option<Metre>) -> Self {
        let mut inks = Vec::new();
        let width = lay_out(clef, key, metre, |more| inks.extend(more));
        Self { inks, width }
    }

    /// Its width alone.
    pub(crate) fn width_of(clef: Clef, key: Option<&WrittenKey>, metre: Option<Metre>) -> i32 {
        lay_out(clef, key, metre, |_| ())
    }
}

fn lay_out(
    clef: Clef,
    key: Option<&WrittenKey>,
    metre: Option<Metre>,
    mut draw: impl FnMut(Vec<Ink>),
) -> i32 {
    let mut x = 500;
    if let Some((glyph, y)) = clef::sign_of(clef) {
        draw(vec![Ink::Glyph { glyph, at: (x, y), size: 1000 }]);
        x += glyph.outline().bounds[2] + GAP;
    }
    let signs = key.map(|key| Places::of(clef).signature(key)).unwrap_or_default();
    if !signs.is_empty() {
        draw(signature(&signs, x));
        x += signature_width(&signs) + GAP;
    }
    if let Some(metre) = metre
        && let Some(width) = metre_width(metre)
    {
        draw(self::metre(metre, x, width));
        x += width + GAP;
    }
    x + 300
}

/// The signs of a change of key: naturals where the new signature is empty.
pub(crate) fn change(
    places: Places,
    new: Option<&WrittenKey>,
    old: Option<&WrittenKey>,
) -> Vec<(i32, Glyph)> {
    let signs = new.map(|key| places.signature(key)).unwrap_or_default();
    if signs.is_empty()
        && let Some(old) = old
    {
        return places.taken_back(old);
    }
    signs
}

/// The width of a signature.
pub(crate) fn signature_width(signs: &[(i32, Glyph)]) -> i32 {
    let widths: i32 = signs.iter().map(|(_, glyph)| glyph.width() + SIGN_GAP).sum();
    (widths - SIGN_GAP).max(0)
}

/// The signs of a signature from x on.
pub(crate) fn signature(signs: &[(i32, Glyph)], mut x: i32) -> Vec<Ink> {
    let mut inks = Vec::with_capacity(signs.len());
    for &(place, glyph) in signs {
        let left = glyph.outline().bounds[0];
        inks.push(Ink::Glyph { glyph, at: (x - left, crate::stem::y_of(place)), size: 1000 });
        x += glyph.width() + SIGN_GAP;
    }
    inks
}

/// The figures of a number.
pub(crate) fn figures(number: u32) -> Vec<Glyph> {
    let text = number.to_string();
    text.chars().filter_map(|c| c.to_digit(10)).map(Glyph::time_figure).collect()
}

/// The figures of the upper number, with plus signs where it is in groups.
pub(crate) fn upper(metre: Metre) -> Vec<Glyph> {
    if metre.groups().len() > MOST_GROUPS {
        return figures(metre.upper());
    }
    let mut signs = Vec::new();
    for &group in metre.groups() {
        if !signs.is_empty() {
            signs.push(Glyph::TimePlus);
        }
        signs.extend(figures(u32::from(group)));
    }
    signs
}

pub(crate) fn line_width(figures: &[Glyph]) -> i32 {
    figures.iter().map(|glyph| glyph.width() + 60).sum::<i32>() - 60
}

/// The signs of a metre from x on, in a width.
pub(crate) fn metre(metre: Metre, x: i32, width: i32) -> Vec<Ink> {
    let whole = |glyph: Glyph| {
        vec![Ink::Glyph { glyph, at: (x - glyph.outline().bounds[0], 2000), size: 1000 }]
    };
    match metre.sign() {
        MetreSign::Common => return whole(Glyph::TimeCommon),
        MetreSign::Cut => return whole(Glyph::TimeCut),
        MetreSign::Numbers => {}
    }
    let mut inks = Vec::new();
    for (line, y) in [(upper(metre), 1000), (figures(metre.lower()), 3000)] {
        let mut x = x + (width - line_width(&line)) / 2;
        for glyph in line {
            inks.push(Ink::Glyph { glyph, at: (x - glyph.outline().bounds[0], y), size: 1000 });
            x += glyph.width() + 60;
        }
    }
    inks
}

//! Rows under the notes: what a tutor writes below each of them.

use crate::ink::Ink;
use crate::rich::{Rich, cut};
use crate::size::ROW_TEXT;
use modewright_core::instrument::Hole;
use modewright_glyphs::text::{self, Face};

/// What stands under one note.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Cell {
    /// Nothing.
    #[default]
    Empty,
    /// A word or a few letters; ♯, ♭ and ♮ become music signs.
    Text(String),
    /// A syllable whose word goes on at the next: a hyphen stands between them.
    Syllable(String),
    /// The syllable before is held: a line runs to here.
    Held,
    /// Holes from the top down, and whether to blow into the upper octave.
    Holes {
        /// The holes, the one nearest to the mouth first.
        holes: Vec<Hole>,
        /// A plus sign stands under the holes.
        upper: bool,
    },
    /// The bellows are pushed: two arrow heads that point at each other.
    Push,
    /// The bellows are drawn: two arrow heads that point away from each other.
    Draw,
}

/// A row: its name and what stands under each note.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Row {
    /// Its name, at the left of every system.
    pub label: String,
    /// One for each of the tune's events; what is missing is empty.
    pub cells: Vec<Cell>,
}

/// The most holes of one picture.
pub const MOST_HOLES: usize = 12;
/// The widest that one cell may be.
const WIDEST: i32 = 14_000;

const HOLE: i32 = 380;
const HOLE_STEP: i32 = 980;
/// A gap after the third hole parts the hands.
const HAND_GAP: i32 = 350;
const ARROW: (i32, i32) = (650, 900);

/// A cell, measured.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Drawn {
    Text(Rich),
    Holes { holes: Vec<Hole>, upper: bool },
    Arrows { inwards: bool },
}

impl Drawn {
    /// Measures a cell; `None` for one without ink of its own.
    pub(crate) fn of(cell: &Cell) -> Option<Self> {
        match cell {
            Cell::Empty | Cell::Held => None,
            Cell::Text(text) | Cell::Syllable(text) => {
                let rich = cut(text, Face::Regular, ROW_TEXT, WIDEST);
                (!rich.is_empty()).then_some(Self::Text(rich))
            }
            Cell::Holes { holes, upper } => {
                let holes: Vec<Hole> = holes.iter().copied().take(MOST_HOLES).collect();
                (!holes.is_empty()).then_some(Self::Holes { holes, upper: *upper })
            }
            Cell::Push => Some(Self::Arrows { inwards: true }),
            Cell::Draw => Some(Self::Arrows { inwards: false }),
        }
    }

    pub(crate) fn width(&self) -> i32 {
        match self {
            Self::Text(rich) => rich.width,
            Self::Holes { .. } => 2 * HOLE,
            Self::Arrows { .. } => 2 * ARROW.0 + 300,
        }
    }

    /// Height over the row's line, and depth under it.
    pub(crate) fn extent(&self) -> (i32, i32) {
        match self {
            Self::Text(rich) => rich.extent(),
            Self::Holes { holes, upper } => {
                let height = hole_y(holes.len() - 1) + HOLE + if *upper { 1000 } else { 0 };
                (HOLE, height)
            }
            Self::Arrows { .. } => (ARROW.1 + 150, 0),
        }
    }

    /// The marks, about a middle, from the row's line.
    pub(crate) fn inks(&self, middle: i32, y: i32) -> Vec<Ink> {
        match self {
            Self::Text(rich) => rich.inks(middle - rich.width / 2, y).collect(),
            Self::Holes { holes, upper } => {
                let hole = |(i, hole): (usize, &Hole)| Ink::Disc {
                    at: (middle, y + hole_y(i)),
                    radius: HOLE,
                    hole: if *hole == Hole::Closed { 0 } else { HOLE - 100 },
                    half: *hole == Hole::Half,
                };
                let mut inks: Vec<Ink> = holes.iter().enumerate().map(hole).collect();
                if *upper {
                    let at = y + hole_y(holes.len() - 1) + HOLE + 550;
                    inks.push(Ink::Rect { at: (middle - 320, at - 55), size: (640, 110) });
                    inks.push(Ink::Rect { at: (middle - 55, at - 320), size: (110, 640) });
                }
                inks
            }
            Self::Arrows { inwards } => {
                let (width, height) = ARROW;
                let (top, low) = (y - height - 75, y - 75);
                let arrow = |tip: i32, back: i32| {
                    Ink::Polygon(vec![(tip, (top + low) / 2), (back, top), (back, low)])
                };
                let (near, far) = (150, 150 + width);
                if *inwards {
                    vec![arrow(middle - near, middle - far), arrow(middle + near, middle + far)]
                } else {
                    vec![arrow(middle - far, middle - near), arrow(middle + far, middle + near)]
                }
            }
        }
    }
}

fn hole_y(index: usize) -> i32 {
    let index = crate::size::int(index);
    index * HOLE_STEP + if index >= 3 { HAND_GAP } else { 0 }
}

/// The line of a row of text stands so far under its top.
pub(crate) fn text_ascent() -> i32 {
    ROW_TEXT * text::ASCENT / 1000
}

//! Rows under the notes: what a tutor writes below each of them.

use crate::ink::Ink;
use crate::rich::{Rich, cut};
use crate::size::ROW_TEXT;
use modewright_core::instrument::Hole;
use modewright_glyphs::text::{self, Face};
use modewright_lesson::words;

/// What stands under one note.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Cell {
    /// Nothing.
    #[default]
    Empty,
    /// A word or a few letters; ♯, ♭ and ♮ become music signs.
    Text(String),
    /// A count under the note, and what is counted while the note is held, after it.
    Counted {
        /// What stands under the note.
        struck: String,
        /// What follows.
        held: String,
    },
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
        /// No public source confirms it: an asterisk stands under all.
        unconfirmed: bool,
    },
    /// The bellows are pushed: two arrow heads that point at each other.
    Push,
    /// The bellows are drawn: two arrow heads that point away from each other.
    Draw,
}

impl Cell {
    /// The cell as letters alone, for programs that have no other signs under a note.
    #[must_use]
    pub fn plain(&self) -> String {
        match self {
            Self::Empty | Self::Held => String::new(),
            Self::Text(text) | Self::Syllable(text) => text.clone(),
            Self::Counted { struck, held } => format!("{struck} {held}"),
            Self::Holes { holes, upper, unconfirmed } => {
                let hole = |hole: &Hole| match hole {
                    Hole::Closed => '●',
                    Hole::Half => '◐',
                    Hole::Open => '○',
                };
                let mut text: String = holes.iter().map(hole).collect();
                text.push_str(if *upper { "+" } else { "" });
                text.push_str(if *unconfirmed { words::UNCONFIRMED } else { "" });
                text
            }
            Self::Push => "push".to_owned(),
            Self::Draw => "draw".to_owned(),
        }
    }
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
pub(crate) const WIDEST: i32 = 14_000;

const HOLE: i32 = 380;
const HOLE_STEP: i32 = 980;
/// A gap after the third hole parts the hands.
const HAND_GAP: i32 = 350;
const ARROW: (i32, i32) = (650, 900);

/// A cell, measured.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Drawn {
    /// A text, and how far its left end stands before the middle of the head.
    Text(Rich, i32),
    Holes {
        holes: Vec<Hole>,
        upper: bool,
        unconfirmed: bool,
    },
    Arrows {
        inwards: bool,
    },
}

impl Drawn {
    /// Measures a cell; `None` for one without ink of its own.
    pub(crate) fn of(cell: &Cell) -> Option<Self> {
        match cell {
            Cell::Empty | Cell::Held => None,
            Cell::Text(text) | Cell::Syllable(text) => {
                let rich = cut(text, Face::Regular, ROW_TEXT, WIDEST);
                let before = rich.width / 2;
                (!rich.is_empty()).then_some(Self::Text(rich, before))
            }
            Cell::Counted { struck, held } => {
                let lead = cut(struck, Face::Regular, ROW_TEXT, WIDEST / 2);
                let whole = format!("{struck} {held}");
                let rich = cut(&whole, Face::Regular, ROW_TEXT, WIDEST);
                (!rich.is_empty()).then_some(Self::Text(rich, lead.width / 2))
            }
            Cell::Holes { holes, upper, unconfirmed } => {
                let holes: Vec<Hole> = holes.iter().copied().take(MOST_HOLES).collect();
                (!holes.is_empty()).then_some(Self::Holes {
                    holes,
                    upper: *upper,
                    unconfirmed: *unconfirmed,
                })
            }
            Cell::Push => Some(Self::Arrows { inwards: true }),
            Cell::Draw => Some(Self::Arrows { inwards: false }),
        }
    }

    /// How far it reaches to the left and to the right of the middle of the head.
    pub(crate) fn reach(&self) -> (i32, i32) {
        match self {
            Self::Text(rich, before) => (*before, rich.width - before),
            Self::Holes { .. } => (HOLE, HOLE),
            Self::Arrows { .. } => (ARROW.0 + 150, ARROW.0 + 150),
        }
    }

    /// Height over the row's line, and depth under it.
    pub(crate) fn extent(&self) -> (i32, i32) {
        match self {
            Self::Text(rich, _) => rich.extent(),
            Self::Holes { holes, upper, unconfirmed } => {
                let below = i32::from(*upper) * 1000 + i32::from(*unconfirmed) * ROW_TEXT * 3 / 4;
                (HOLE, hole_y(holes.len() - 1) + HOLE + below)
            }
            Self::Arrows { .. } => (ARROW.1 + 150, 0),
        }
    }

    /// The marks, about a middle, from the row's line.
    pub(crate) fn inks(&self, middle: i32, y: i32) -> Vec<Ink> {
        match self {
            Self::Text(rich, before) => rich.inks(middle - before, y).collect(),
            Self::Holes { holes, upper, unconfirmed } => {
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
                if *unconfirmed {
                    let star = Rich::new("*", Face::Regular, ROW_TEXT);
                    // The asterisk sits high over its line.
                    let below = i32::from(*upper) * 1000 + ROW_TEXT;
                    let line = y + hole_y(holes.len() - 1) + HOLE + below;
                    inks.extend(star.inks(middle - star.width / 2, line));
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

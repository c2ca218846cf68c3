//! What a sheet is asked for besides the tune.

use crate::{Paper, Row};

/// The shape that marks a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shape {
    /// A little house, for the home note. Over the stave.
    House,
    /// A triangle that points up, for the highest note. Over the stave.
    Up,
    /// A triangle that points down, for the lowest note. Under the stave.
    Down,
    /// A diamond, for the other form of a degree. Over the stave.
    Diamond,
}

/// A note that is marked, by a shape and a word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Flag {
    /// The note, as an index into the tune's events.
    pub note: usize,
    /// The shape.
    pub shape: Shape,
    /// The word beside it; may be empty where the shape was explained before.
    pub word: String,
}

/// What a sheet is asked for besides the tune.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// The paper.
    pub paper: Paper,
    /// The rows under the notes, from the top down.
    pub rows: Vec<Row>,
    /// Notes that are marked.
    pub flags: Vec<Flag>,
    /// Lines under the music, like a legend of its signs.
    pub foot: Vec<String>,
    /// What the sheet shows, for a reader who cannot see it; the tune's title where it is empty.
    pub description: String,
}

impl Options {
    /// The most rows; more are left out.
    pub const MAX_ROWS: usize = 12;
    /// The most lines of the foot.
    pub const MAX_FOOT: usize = 12;
}

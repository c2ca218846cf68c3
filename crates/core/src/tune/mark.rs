//! What hangs on a note without changing its length.

use crate::{Length, Metre, Pitch};

use super::{Span, Tempo};

/// Something that stands at an event.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The event it belongs to or stands before, as an index into the tune's events; equal to
    /// their number for what stands after the last.
    pub event: usize,
    /// What it is.
    pub kind: MarkKind,
    /// Where it stands in the source.
    pub span: Span,
}

/// Where a text stands about its note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Above the stave.
    Above,
    /// Below the stave.
    Below,
    /// Left of the note.
    Left,
    /// Right of the note.
    Right,
    /// Wherever there is room.
    Free,
}

/// What a note has of a line of words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Syllable {
    /// A syllable; `hyphen` where the word goes on at the next.
    Text {
        /// The syllable itself.
        text: String,
        /// Whether a hyphen follows.
        hyphen: bool,
    },
    /// The syllable before is held.
    Held,
}

/// Kinds of marks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MarkKind {
    /// Grace notes before the event.
    Grace {
        /// Their pitches, as written, with the lengths that the source gives them.
        notes: Vec<(Pitch, Length)>,
        /// Whether the first is crossed by a stroke.
        slashed: bool,
    },
    /// An ornament or a sign by its name: `roll`, `fermata`, `staccato`.
    Sign(String),
    /// A chord sign above the melody: `Am7`.
    ChordSign(String),
    /// Free text at a note.
    Text {
        /// Where it stands.
        place: Place,
        /// What it says.
        text: String,
    },
    /// Another note of a chord, below the melody.
    ChordNote(Pitch),
    /// A slur begins at this note.
    SlurStart,
    /// A slur ends at this note.
    SlurEnd,
    /// From this note on `count` notes are played `actual` in the time of `normal`.
    Tuplet {
        /// The number that is printed.
        actual: u8,
        /// In the time of how many.
        normal: u8,
        /// Over how many notes.
        count: u16,
    },
    /// A syllable under the note.
    Lyric {
        /// Verse, from 0.
        verse: u16,
        /// The syllable.
        syllable: Syllable,
    },
    /// The key changes here: an index into the tune's keys.
    Key(usize),
    /// The metre changes here.
    Metre(Metre),
    /// The speed changes here.
    Tempo(Tempo),
    /// A part of this name begins here.
    Part(String),
    /// A line of the page ends here.
    LineEnd,
}

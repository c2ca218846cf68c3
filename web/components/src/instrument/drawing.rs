//! What a picture of an instrument is made of, in whole units, before any browser.

use crate::wheel::note_name;
use modewright_core::instrument::{Hole, Way};
use modewright_core::{Pitch, Spelling};

/// How a note stands in the tune.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The home note, and the tune uses it.
    Home,
    /// The tune uses it, and this is the usual way to play it.
    Used,
    /// Another way to play a note of the tune.
    Other,
    /// The tune does not use it.
    Idle,
}

/// Where the words begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// At the place.
    Start,
    /// Around the place.
    Middle,
}

/// A part of a picture; `x` and `y` are its middle, or where words begin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// A place that sounds a note.
    Note {
        /// From the left.
        x: i32,
        /// From the top.
        y: i32,
        /// Its width.
        width: i32,
        /// Its height.
        height: i32,
        /// Its name as it is read.
        name: String,
        /// How it stands in the tune.
        role: Role,
    },
    /// A finger hole.
    Hole {
        /// From the left.
        x: i32,
        /// From the top.
        y: i32,
        /// What the finger does.
        hole: Hole,
    },
    /// A body, a key or a frame.
    Frame {
        /// Its left edge.
        x: i32,
        /// Its top edge.
        y: i32,
        /// Its width.
        width: i32,
        /// Its height.
        height: i32,
        /// How round its corners are.
        round: i32,
        /// Whether it is dark, as the upper keys of a keyboard.
        dark: bool,
    },
    /// A string, a fret, a nut.
    Line {
        /// Where it begins.
        from: (i32, i32),
        /// Where it ends.
        to: (i32, i32),
        /// Whether it is thick.
        thick: bool,
    },
    /// Words.
    Words {
        /// From the left.
        x: i32,
        /// The line that they stand on, from the top.
        y: i32,
        /// What they say.
        text: String,
        /// Where they begin.
        anchor: Anchor,
    },
}

/// A picture.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Drawing {
    /// Its width.
    pub width: i32,
    /// Its height.
    pub height: i32,
    /// Its parts, those behind first.
    pub parts: Vec<Part>,
}

impl Drawing {
    pub(super) fn words(&mut self, x: i32, y: i32, text: impl Into<String>, anchor: Anchor) {
        self.parts.push(Part::Words { x, y, text: text.into(), anchor });
    }

    pub(super) fn line(&mut self, from: (i32, i32), to: (i32, i32), thick: bool) {
        self.parts.push(Part::Line { from, to, thick });
    }

    /// Makes it large enough for all that is in it.
    pub(super) fn fit(mut self, width: i32, height: i32) -> Self {
        (self.width, self.height) = (width, height);
        self
    }
}

/// The notes of a tune, as written for the instrument.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct TuneNotes {
    /// Each note once.
    pub pitches: Vec<Pitch>,
    /// Home.
    pub home: Option<Spelling>,
}

impl TuneNotes {
    /// The name of a note as the tune spells it, otherwise as the instrument does.
    pub(super) fn name(&self, written: Pitch) -> String {
        let as_spelled = self.pitches.iter().find(|pitch| pitch.midi() == written.midi());
        note_name(as_spelled.copied().unwrap_or(written).spelling())
    }

    pub(super) fn uses(&self, written: Pitch) -> bool {
        self.pitches.iter().any(|pitch| pitch.midi() == written.midi())
    }

    /// How a way to play a note stands in the tune; the usual way is the easiest that is not
    /// doubtful.
    pub(super) fn role(&self, written: Pitch, ways: &[Way], way: usize) -> Role {
        if !self.uses(written) {
            return Role::Idle;
        }
        if usual(ways) != way {
            return Role::Other;
        }
        let is_home = |home: Spelling| home.pitch_class() == written.spelling().pitch_class();
        if self.home.is_some_and(is_home) { Role::Home } else { Role::Used }
    }
}

/// The place of the usual way: the easiest of those that are not doubtful.
pub(super) fn usual(ways: &[Way]) -> usize {
    let known = ways.iter().enumerate().filter(|(_, way)| !way.certainty.is_doubtful());
    known.min_by_key(|(_, way)| way.ease).map_or(0, |(at, _)| at)
}

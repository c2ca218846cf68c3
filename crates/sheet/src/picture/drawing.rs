//! What a picture is made of, in whole units.

use modewright_core::fingering::Plan;
use modewright_core::instrument::{Hole, Playable, Way};
use modewright_core::{Pitch, PitchClass, Spelling};
use modewright_lesson::words::{self, PictureSign};
use std::collections::BTreeSet;

/// How a note stands in the tune.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Home, played this way.
    Home,
    /// The tune is played this way.
    Used,
    /// Another way to play a note of the tune.
    Other,
    /// The tune does not use it.
    Idle,
}

/// Where words begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Anchor {
    /// At the place.
    Start,
    /// Around the place.
    Middle,
}

/// A part of a picture; `at` is its middle, or where words begin on their line.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Part {
    /// A place that sounds a note.
    Spot {
        /// From the left and from the top.
        at: (i32, i32),
        /// Width and height.
        size: (i32, i32),
        /// The name of the note as the tune spells it.
        name: String,
        /// How it stands in the tune.
        role: Role,
    },
    /// A finger hole.
    Hole {
        /// From the left and from the top.
        at: (i32, i32),
        /// What the finger does.
        hole: Hole,
    },
    /// A body or a key, by its upper left corner.
    Frame {
        /// From the left and from the top.
        at: (i32, i32),
        /// Width and height.
        size: (i32, i32),
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
        /// From the left and from the top.
        at: (i32, i32),
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
    /// The whole of it in a few words.
    pub title: String,
    /// What its signs mean, a sentence each.
    pub legend: Vec<String>,
    pub(super) signs: BTreeSet<PictureSign>,
}

impl Drawing {
    pub(super) fn words(&mut self, at: (i32, i32), text: impl Into<String>, anchor: Anchor) {
        self.parts.push(Part::Words { at, text: text.into(), anchor });
    }

    pub(super) fn line(&mut self, from: (i32, i32), to: (i32, i32), thick: bool) {
        self.parts.push(Part::Line { from, to, thick });
    }

    pub(super) fn spot(&mut self, at: (i32, i32), size: (i32, i32), name: String, role: Role) {
        self.signs.insert(match role {
            Role::Home => PictureSign::Home,
            Role::Used => PictureSign::Used,
            Role::Other => PictureSign::Other,
            Role::Idle => PictureSign::Idle,
        });
        self.parts.push(Part::Spot { at, size, name, role });
    }

    pub(super) fn fit(mut self, width: i32, height: i32) -> Self {
        (self.width, self.height) = (width, height);
        self
    }
}

/// What the tune asks of the instrument.
#[derive(Clone, Debug)]
pub(super) struct Asked<'a> {
    played: Vec<(Pitch, &'a Way)>,
    home: Option<PitchClass>,
}

impl<'a> Asked<'a> {
    pub(super) fn of(plan: &Plan<'a>, home: Option<Spelling>) -> Self {
        let mut played: Vec<(Pitch, &Way)> = Vec::new();
        for note in &plan.notes {
            let pitch = note.sounding.pitch;
            let Some(way) = note.way else { continue };
            if !played.iter().any(|(other, by)| other.midi() == pitch.midi() && *by == way) {
                played.push((pitch, way));
            }
        }
        Self { played, home: home.map(Spelling::pitch_class) }
    }

    pub(super) fn is_nothing(&self) -> bool {
        self.played.is_empty()
    }

    /// The name of a note as the tune spells it, otherwise as the instrument does.
    pub(super) fn name(&self, written: Pitch) -> String {
        let spelled = self.played.iter().find(|(pitch, _)| pitch.midi() == written.midi());
        words::note(spelled.map_or(written, |(pitch, _)| *pitch).spelling())
    }

    /// Whether the tune plays a note that the instrument has, in whatever way.
    pub(super) fn uses(&self, note: &Playable) -> bool {
        self.played.iter().any(|(pitch, _)| pitch.midi() == note.written.midi())
    }

    /// How a way to play a note stands in the tune.
    pub(super) fn role(&self, note: &Playable, way: &Way) -> Role {
        let mut of_note =
            self.played.iter().filter(|(pitch, _)| pitch.midi() == note.written.midi()).peekable();
        if of_note.peek().is_none() {
            Role::Idle
        } else if !of_note.any(|(_, by)| *by == way) {
            Role::Other
        } else if self.home == Some(note.written.pitch_class()) {
            Role::Home
        } else {
            Role::Used
        }
    }
}

/// A count as a number of units.
pub(super) fn units(count: usize) -> i32 {
    i32::try_from(count).unwrap_or(i32::MAX / 10_000)
}

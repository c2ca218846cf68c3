//! What a rewriter must know of a reading: where notes, keys and chord signs stand in the text,
//! and what was in force there.

use super::accidentals::Reach;
use super::key::KeyReading;
use super::note::Head;
use modewright_core::{Alter, Pitch};

/// A note's letters in the text.
#[derive(Clone, Copy, Debug)]
pub(super) struct NoteSite {
    /// First byte of its accidental or letter.
    pub(super) start: usize,
    /// One past its last octave mark.
    pub(super) end: usize,
    /// Octaves that `octave=` adds to what is written.
    pub(super) shift: i32,
    /// Its own accidental.
    pub(super) alter: Option<Alter>,
    /// The pitch that it was read as.
    pub(super) pitch: Option<Pitch>,
    /// Whether it is a grace note.
    pub(super) is_grace: bool,
    /// Whether a tie was open before it.
    pub(super) is_after_tie: bool,
    /// How far its accidental reaches.
    pub(super) reach: Reach,
}

/// One thing that was read.
#[derive(Clone, Debug)]
pub(super) enum Site {
    /// A note, a grace note or a note of a chord.
    Note(NoteSite),
    /// A note, chord or rest has ended: where it began, how many of its pitches count, and which
    /// event it is.
    Sound { start: usize, kept: usize, event: usize },
    /// A bar begins: accidentals are forgotten.
    Bar,
    /// A key, with its index among the keys of the tune.
    Key { index: usize, reading: KeyReading },
    /// A chord sign, without its quotation marks.
    ChordSign { start: usize, end: usize },
    /// A note of a second strand, which is not read.
    Overlaid { start: usize, head: Head, shift: i32 },
}

/// Where what was read is told; a reader that rewrites nothing pays nothing for it.
pub(super) trait Log: Default {
    /// Whether anything is kept.
    const IS_KEPT: bool;

    /// Something was read.
    fn add(&mut self, site: impl FnOnce() -> Site);
}

/// The log of a plain reader: nothing.
#[derive(Debug, Default)]
pub(super) struct Nothing;

impl Log for Nothing {
    const IS_KEPT: bool = false;

    fn add(&mut self, _: impl FnOnce() -> Site) {}
}

/// The log of a rewriter: everything, in order.
#[derive(Debug, Default)]
pub(super) struct Sites(pub(super) Vec<Site>);

impl Log for Sites {
    const IS_KEPT: bool = true;

    fn add(&mut self, site: impl FnOnce() -> Site) {
        self.0.push(site());
    }
}

//! What a line of letters is made of.

use super::scanner::Place;
use crate::ProblemKind;
use modewright_core::tune::BarLine;
use modewright_core::{Alter, Key, Metre, Spelling, Step};

/// A piece of the text with its meaning and place.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Token {
    pub(super) kind: TokenKind,
    pub(super) place: Place,
}

/// What pieces mean.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum TokenKind {
    Note(Note),
    Rest(Duration),
    /// A dash between blanks: nothing, or a rest, as the whole text decides.
    Dash,
    Bar(BarLine),
    /// The passes of an ending begin here: `|1`.
    Ending(u32),
    /// What stands before is played so many times: `x2`.
    Times(u8),
    /// Here begins the line that is played so many times.
    TimesFrom(u8),
    Part(String),
    Title(String),
    Key(Key),
    Metre(Metre),
    /// The end of a line of notes.
    LineEnd,
    /// An empty line.
    Gap,
    /// What has no meaning; kept apart, so that the many pieces that have one stay small.
    Bad(Box<ProblemKind>),
}

/// A length as written, in units.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Duration {
    /// The number before the stroke.
    pub(super) over: Option<u32>,
    /// The number behind it; `D/` is a half.
    pub(super) under: Option<u32>,
}

/// A note as written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Note {
    pub(super) step: Step,
    pub(super) alter: Alter,
    /// Whether a sign or word says what the alteration is.
    pub(super) signed: bool,
    /// Whether the letter is a capital.
    pub(super) capital: bool,
    /// Whether it is the first of a line or sentence, where a capital may mean nothing.
    pub(super) opens: bool,
    /// Strokes behind it: each an octave up.
    pub(super) up: u8,
    /// Commas behind it: each perhaps an octave down.
    pub(super) commas: u8,
    /// Whether something stands behind the comma without a blank.
    pub(super) tight_comma: bool,
    /// Its number: an octave or a length.
    pub(super) number: Option<u32>,
    /// What stands behind a stroke of length.
    pub(super) under: Option<u32>,
    /// Whether no blank parts it from the note before.
    pub(super) joined: bool,
    /// Whether a roll is written before it.
    pub(super) roll: bool,
}

impl Note {
    pub(super) const fn spelling(&self) -> Spelling {
        Spelling::new(self.step, self.alter)
    }

    /// Its length, where numbers are lengths.
    pub(super) const fn duration(&self) -> Duration {
        Duration { over: self.number, under: self.under }
    }
}

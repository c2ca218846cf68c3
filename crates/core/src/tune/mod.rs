//! A single melody, as every format makes it and every analysis reads it.
//!
//! Notes and rests stand in one flat list in the order of the page; bars are ranges of it.
//! What hangs on a note without changing its length (grace notes, ornaments, words, chord
//! signs) stands beside it in a list of marks, so that the analysis walks over notes alone.

mod bar;
mod builder;
mod clef;
mod event;
mod form;
mod header;
mod mark;
mod play;
mod written_key;

pub use bar::{Bar, BarLine, BarStyle, Passes};
pub use builder::{BuildError, TuneBuilder};
pub use clef::{Clef, ClefSign};
pub(crate) use event::sounding;
pub use event::{Event, Sound, Sounding, Span};
pub use form::{FormError, FormSign, Until};
pub use header::{Header, Tempo};
pub use mark::{Mark, MarkKind, Place, Syllable};
pub use written_key::{KeyForm, WrittenKey};

use crate::{Length, Metre};

/// A melody with everything a lesson needs to know of it.
///
/// Pitches are as written; [`Tune::sounding_shift`] says how far away it sounds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tune {
    /// Titles, names and other words about the tune.
    pub header: Header,
    /// The keys it is written in: the first at the start, the others where a bar or a mark
    /// refers to them. Never empty in a tune that was built.
    pub keys: Vec<WrittenKey>,
    /// The metre at the start.
    pub metre: Metre,
    /// The length that the source counts in at the start, where it counts in one.
    pub unit: Option<Length>,
    /// The speed at the start, where one is given.
    pub tempo: Option<Tempo>,
    /// Notes and rests in the order of the page.
    pub events: Vec<Event>,
    /// Bars in the order of the page, each a range of events.
    pub bars: Vec<Bar>,
    /// What hangs on the notes, in the order of the events.
    pub marks: Vec<Mark>,
    /// The order in which named parts are played, where the tune says so: `AABB`.
    pub part_order: Vec<String>,
    /// The clef at the start.
    pub clef: Clef,
    /// Semitones from the written pitch to the sounding one.
    pub sounding_shift: i16,
}

/// A section of a tune between repeat signs, double bars or part names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Strain {
    /// Its part name where the page gives one, otherwise A, B, C by order.
    pub label: String,
    /// First bar, as an index into [`Tune::bars`].
    pub first: usize,
    /// One past its last bar.
    pub end: usize,
}

impl Tune {
    /// The events of a bar; empty for a bar that is not there.
    #[must_use]
    pub fn events_of(&self, bar: usize) -> &[Event] {
        let Some(bar) = self.bars.get(bar) else { return &[] };
        self.events.get(bar.first..bar.end).unwrap_or(&[])
    }

    /// The key at the start.
    #[must_use]
    pub fn key(&self) -> Option<&WrittenKey> {
        self.keys.first()
    }

    /// The number of the bar that an event stands in; 0 is the pickup.
    #[must_use]
    pub fn bar_number(&self, event: &Event) -> u32 {
        self.bars.get(event.bar as usize).map_or(0, |bar| bar.number)
    }

    /// The notes as they are heard: tied notes joined, rests left out, in the order of the page.
    pub fn soundings(&self) -> impl Iterator<Item = Sounding> + '_ {
        event::soundings(&self.events)
    }

    /// The strains in the order of the page.
    ///
    /// A strain ends at a repeat sign, a double or final bar line, or where a part name stands.
    /// Endings belong to the strain that they close.
    #[must_use]
    pub fn strains(&self) -> Vec<Strain> {
        bar::strains(self)
    }

    /// The bars of the strains: the first of each, and one past its last.
    pub(crate) fn strain_bars(&self) -> impl Iterator<Item = (usize, usize)> {
        bar::strain_bars(self, &bar::part_starts(self)).into_iter()
    }

    /// The bars in the order in which they are played, as indices into [`Tune::bars`]:
    /// repeats unfolded, endings chosen, named parts in the order the header gives; without such
    /// an order, da capo and dal segno followed where they can be ([`Tune::form_error`]), the
    /// second time without repeats and with last endings.
    ///
    /// Stops at [`Tune::MAX_PLAYED_BARS`].
    #[must_use]
    pub fn play_order(&self) -> Vec<usize> {
        play::order(self)
    }

    /// The most bars that unfolding gives.
    pub const MAX_PLAYED_BARS: usize = 100_000;
}

#[cfg(test)]
mod tests;

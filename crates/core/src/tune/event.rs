//! Notes and rests.

use crate::{Length, Pitch};

/// Where something stands in the text it was read from, in bytes from the tune's start.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

/// What an event is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sound {
    /// A note of a written pitch.
    Note(Pitch),
    /// A rest that is printed.
    Rest,
    /// A rest that is not printed.
    HiddenRest,
}

impl Sound {
    /// The pitch of a note; `None` for a rest.
    #[must_use]
    pub const fn pitch(self) -> Option<Pitch> {
        match self {
            Self::Note(pitch) => Some(pitch),
            Self::Rest | Self::HiddenRest => None,
        }
    }
}

/// A note or a rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Event {
    /// Note or rest.
    pub sound: Sound,
    /// How long it lasts.
    pub length: Length,
    /// Where it begins, counted from the start of its bar.
    pub at: Length,
    /// The bar it stands in, as an index into the tune's bars.
    pub bar: u32,
    /// Whether it is tied to the next note, of the same pitch.
    pub tied: bool,
    /// Whether the source writes it together with the next (no space between them).
    pub joined: bool,
    /// Where it stands in the source.
    pub span: Span,
}

/// A note as it is heard: one or more written notes joined by ties.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sounding {
    /// Its written pitch.
    pub pitch: Pitch,
    /// How long it sounds; the first note's length alone where the sum no longer fits.
    pub length: Length,
    /// The first of its written notes, as an index into the tune's events.
    pub event: usize,
    /// How many written notes it joins.
    pub count: usize,
}

/// Joins ties. A tie to anything but a note of the same pitch joins nothing.
pub(super) fn soundings(events: &[Event]) -> impl Iterator<Item = Sounding> + '_ {
    let mut next = 0;
    std::iter::from_fn(move || {
        loop {
            let at = next;
            let event = events.get(at)?;
            next += 1;
            let Some(pitch) = event.sound.pitch() else { continue };
            let sounding = sounding(events, at, event, pitch);
            next = at + sounding.count;
            return Some(sounding);
        }
    })
}

/// What is heard of the note at a place, with all that is tied to it.
#[inline]
pub(crate) fn sounding(events: &[Event], at: usize, event: &Event, pitch: Pitch) -> Sounding {
    let mut length = event.length;
    let mut next = at + 1;
    let mut open = event.tied;
    while open
        && let Some(more) = events.get(next)
        && more.sound.pitch() == Some(pitch)
        && let Ok(sum) = length.plus(more.length)
    {
        length = sum;
        open = more.tied;
        next += 1;
    }
    Sounding { pitch, length, event: at, count: next - at }
}

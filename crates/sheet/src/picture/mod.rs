//! An instrument as a picture, with the notes of a tune marked where they are played.
//!
//! What is drawn follows from what the instrument's ways say: finger holes, buttons, strings with
//! frets or fingers, strings with levers, or else a keyboard.

mod buttons;
mod draw;
mod drawing;
mod holes;
mod keys;
mod strings;

pub use draw::{file, svg};
pub use drawing::{Anchor, Drawing, Part, Role};

use drawing::Asked;
use modewright_core::Spelling;
use modewright_core::fingering::Plan;
use modewright_core::instrument::Instrument;
use modewright_lesson::words;

/// The picture of an instrument and of a path on it. Without any note played, all of its notes are
/// shown, none of them marked.
///
/// # Examples
///
/// ```
/// use modewright_core::fingering::{Options, plan};
/// use modewright_formats::instrument::builtin;
/// use modewright_formats::{ReadOptions, read, source::split};
/// use modewright_sheet::picture::{Part, Role, picture, svg};
///
/// let text = split("X:1\nL:1/4\nK:D\nDFAd|").next().unwrap();
/// let tune = read(&text, &ReadOptions::default()).tune;
/// let whistle = builtin::find("tin-whistle-d").unwrap();
/// let path = plan(&tune, whistle, Options::default());
/// let drawing = picture(whistle, &path, "D".parse().ok());
/// let homes = drawing.parts.iter();
/// let homes = homes.filter(|p| matches!(p, Part::Spot { role: Role::Home, .. }));
/// assert_eq!(homes.count(), 2);
/// assert!(svg(&drawing).starts_with("<svg "));
/// ```
#[must_use]
pub fn picture(instrument: &Instrument, plan: &Plan<'_>, home: Option<Spelling>) -> Drawing {
    let asked = Asked::of(plan, home);
    let ways = || instrument.notes().iter().flat_map(|note| &note.ways);
    let mut drawing = if ways().any(|way| !way.holes.is_empty() || way.closed.is_some()) {
        holes::draw(instrument, &asked)
    } else if ways().any(|way| way.button.is_some()) {
        buttons::draw(instrument, &asked)
    } else if ways().any(|way| way.lever.is_some()) {
        strings::harp(instrument, &asked)
    } else if ways().any(|way| way.string.is_some()) {
        strings::neck(instrument, &asked)
    } else {
        keys::draw(instrument, &asked)
    };
    drawing.title = words::picture(instrument, !asked.is_nothing());
    let signs = drawing.signs.iter();
    drawing.legend =
        signs.map(|sign| words::picture_sign(*sign, instrument.air).to_owned()).collect();
    drawing
}

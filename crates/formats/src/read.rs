//! Reading whatever a tune is written in.

use crate::source::{Kind, TuneText};
use crate::{ReadOptions, Reading, abc, letters};

/// Reads one tune as its kind says.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, read, source::split};
///
/// let tune = split("D E F# G A B c# d").next().expect("one tune");
/// let reading = read(&tune, &ReadOptions::default());
/// assert_eq!(reading.tune.events.len(), 8);
/// ```
#[must_use]
pub fn read(text: &TuneText, options: &ReadOptions) -> Reading {
    match text.kind {
        Kind::Abc => abc::read(text, options),
        Kind::Letters => letters::read(text, options),
        #[cfg(feature = "musicxml")]
        Kind::MusicXml => crate::musicxml::read(text, options),
        #[cfg(feature = "midi")]
        Kind::Midi => crate::midi::read(text, options),
    }
}

//! The sound of tunes and scales.
//!
//! A [`Performance`] says which note sounds when: of a tune with its repeats and a count-in
//! ([`Performance::of`]), or of scales to compare by ear ([`compare`]). [`render`] turns it into
//! samples with a plucked or a reed [`Voice`], and [`wav`] into a file. Times are in nanoseconds,
//! samples are `f32` between -1 and 1, mono, [`RATE`] a second; they are sums and products in a
//! fixed order, with `libm` where a real function is needed, so every machine gives the same.
//!
//! # Examples
//!
//! ```
//! use modewright_core::tune::{Sound, Span, TuneBuilder};
//! use modewright_core::{Length, Metre};
//! use modewright_sound::{PerformOptions, Performance, RATE, Voice, render};
//!
//! let mut builder = TuneBuilder::new();
//! builder.metre(Metre::FOUR_FOUR);
//! builder.event(Sound::Note("A4".parse()?), Length::SEMIBREVE, Span::default()).unwrap();
//! let options = PerformOptions { per_minute: Some(60), ..PerformOptions::default() };
//! let performance = Performance::of(&builder.finish(), &options).unwrap();
//! // A bar of count-in, then the note: eight seconds at a crotchet a second.
//! assert_eq!(performance.notes[0].start, 4_000_000_000);
//! let samples = render(&performance, Voice::Plucked);
//! assert_eq!(samples.len(), 8 * RATE as usize);
//! # Ok::<(), modewright_core::TheoryError>(())
//! ```

mod compare;
mod partials;
mod performance;
mod render;
mod voice;
mod wav;

pub use compare::compare;
pub use performance::{Click, Note, PerformOptions, Performance, SoundError};
pub use render::{render, render_click, render_note};
pub use voice::Voice;
pub use wav::wav;

/// Samples a second.
pub const RATE: u32 = 44_100;

/// Hertz of a place on the MIDI scale in equal temperament, A above middle C at 440.
#[must_use]
pub fn hertz(midi: i32) -> f64 {
    440.0 * libm::exp2(f64::from(midi - 69) / 12.0)
}

#[cfg(test)]
mod tests;

//! Standard MIDI Files: types 0 and 1, and the first tune of type 2.
//!
//! Reading goes from the bytes to notes by track (`file`), from those to one melody (`melody`),
//! from ticks to exact lengths (`grid`), and from there to bars (`bars`) with names for the notes
//! (`spell`). MIDI holds sounding pitch; the tune that is read has no shift.

mod bars;
mod file;
mod grid;
mod melody;
mod played;
mod problem;
mod reader;
mod spell;
mod write;

pub use problem::MidiProblem;
pub use reader::read;
pub use write::{FileType, write};

/// The most bytes of a MIDI file: 16 MiB.
pub const MAX_BYTES: u64 = crate::limits::MIDI_BYTES;

#[cfg(test)]
mod tests;

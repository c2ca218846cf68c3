//! The limits of what is read, in one place. `DEVELOPERS.md` and `tests/fixtures/limits.json` list
//! them with what happens beyond; a test holds the three together.

/// The most bytes of one tune's text.
pub const TUNE_BYTES: usize = 8 << 20;
/// The most that a number in a length may be, above the line and below it.
pub const NUMBER_IN_LENGTH: u32 = 999_999;
/// The most notes of a chord, and of a group of grace notes in a score.
pub const CHORD_NOTES: usize = 64;
/// The most parts of a play order.
pub const PLAY_ORDER_PARTS: usize = 10_000;
/// The most brackets in each other in a play order.
pub const PLAY_ORDER_DEPTH: usize = 100;
/// The most notes that a tuplet of ABC is written for.
pub const TUPLET_NOTES: u32 = 99;
/// The most bars of rest that one sign stands for.
pub const BARS_OF_REST: u32 = 999;
/// The most voices of a text or a score that are told apart.
pub const VOICES: usize = 100;
/// The most problems that are told of one tune, beside those of the whole text.
pub const PROBLEMS: usize = 1000;
/// The most bytes of a score, once it is unpacked.
pub const SCORE_BYTES: u64 = 32 << 20;
/// The most elements and texts of a score.
pub const SCORE_NODES: u32 = 4_000_000;
/// The most attributes of a tag of a score.
pub const TAG_ATTRIBUTES: usize = 200;
/// The most namespaces of a score.
pub const SCORE_NAMESPACES: usize = 100;
/// The most divisions of a crotchet in a score.
pub const DIVISIONS: u32 = 1_000_000;
/// The most bytes of a MIDI file.
pub const MIDI_BYTES: u64 = 16 << 20;
/// The most bars of a MIDI file.
pub const MIDI_BARS: usize = 100_000;
/// The most bytes of an instrument file.
pub const INSTRUMENT_BYTES: usize = 1 << 20;
/// The most families of an instrument file, and the most sizes of a family.
pub const INSTRUMENT_SIZES: usize = 64;

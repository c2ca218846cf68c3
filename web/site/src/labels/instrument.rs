//! Labels of the instrument.

/// Heading of the instrument.
pub const INSTRUMENT: &str = "The instrument";
/// Name of the choice of instruments.
pub const INSTRUMENTS: &str = "Who plays it?";
/// Nobody.
pub const NO_INSTRUMENT: &str = "Choose an instrument …";
/// The button that opens a file of instruments.
pub const OPEN_INSTRUMENT: &str = "Open an instrument of your own";
/// The button that puts that file away.
pub const PUT_AWAY: &str = "Put your own away";
/// An instrument that is not among those that are known.
pub const NO_SUCH_INSTRUMENT: &str =
    "The instrument that was chosen is not known here. Choose one from the list.";
/// What is said before an instrument is chosen.
pub const INSTRUMENT_HINT: &str = "Choose one, and see whether the tune lies on it, where it lies better, and how each note is played.";
/// Heading of one's own instruments in the choice.
pub const OWN_INSTRUMENTS: &str = "from your own file";
/// Said while the part of the engine loads.
pub const UNPACKING: &str = "The instruments are being unpacked …";
/// The button that tries again.
pub const AGAIN: &str = "Try again";
/// Whether one has the instrument.
pub const MINE: &str = "I have this one";
/// Heading of what troubles.
pub const TROUBLE: &str = "Where it stands";
/// Heading of the heights.
pub const HEIGHTS: &str = "Where it lies best";
/// What the heights are.
pub const HEIGHTS_HINT: &str =
    "The best first. Moving changes the text above; “Text before” brings it back.";
/// The button that moves the tune.
pub const MOVE: &str = "Move";
/// The button that moves the tune and folds notes.
pub const FOLD: &str = "Move and fold";
/// The button that folds notes of the tune where it stands.
pub const FOLD_HERE: &str = "Fold";
/// Said of the height at which the tune stands.
pub const HERE: &str = "it stands here";
/// Name of the choice of manners.
pub const STYLE: &str = "Played";
/// Heading of the path.
pub const PATH: &str = "How it is played";

/// How a note is played.
#[must_use]
pub fn way(sign: &str) -> String {
    format!("Played {sign}.")
}

/// What is known of a layout.
#[must_use]
pub fn layout(standing: &str) -> String {
    format!("Its layout is {standing}.")
}

/// A file that is not read at all.
#[must_use]
pub fn not_read(name: &str) -> String {
    format!(
        "{name} could not be read. A file of instruments is a small text of a few thousand bytes."
    )
}

//! Sizes that the whole engraving shares, in thousandths of a staff space.
//!
//! Thicknesses are the engraving defaults that the music font comes with (its metadata, as SMuFL
//! describes it); distances without a source are ours, tried by eye.

/// Height of the stave.
pub(crate) const STAVE: i32 = 4000;
/// Thickness of a line of the stave.
pub(crate) const STAVE_LINE: i32 = 130;
/// Thickness of a ledger line, and how far it sticks out of the head.
pub(crate) const LEDGER_LINE: i32 = 160;
pub(crate) const LEDGER_OUT: i32 = 400;
/// Thickness of a stem.
pub(crate) const STEM: i32 = 120;
/// Length of a stem (an octave; common practice, no source).
pub(crate) const STEM_LENGTH: i32 = 3500;
/// Thickness of a beam, and the gap between two.
pub(crate) const BEAM: i32 = 500;
pub(crate) const BEAM_GAP: i32 = 250;
/// Thin and thick lines of bars, and the gap between them.
pub(crate) const THIN: i32 = 160;
pub(crate) const THICK: i32 = 500;
pub(crate) const BAR_GAP: i32 = 400;
/// From a repeat's line to its dots.
pub(crate) const REPEAT_GAP: i32 = 250;
/// Brackets of tuplets and endings.
pub(crate) const BRACKET: i32 = 160;
/// Ties and slurs in the middle.
pub(crate) const BOW_MIDDLE: i32 = 220;
/// Least gap between the marks of two notes.
pub(crate) const NOTE_GAP: i32 = 300;
/// From an accidental to its head, and between accidentals.
pub(crate) const ACCIDENTAL_GAP: i32 = 200;
/// From a head to its dots, and between dots.
pub(crate) const DOT_GAP: i32 = 350;
/// Grace notes, in thousandths of the usual size.
pub(crate) const GRACE: i32 = 620;
/// Text of rows, of row labels, of words over the stave.
pub(crate) const ROW_TEXT: i32 = 1700;
pub(crate) const LABEL_TEXT: i32 = 1350;
pub(crate) const SMALL_TEXT: i32 = 1500;
/// Title and the words under it.
pub(crate) const TITLE_TEXT: i32 = 3200;
/// Least gap between texts of one row.
pub(crate) const TEXT_GAP: i32 = 450;
/// Least gap between the name of a row and its first text: wider, so that they are not read as one.
pub(crate) const LABEL_GAP: i32 = 1600;

/// A count as a coordinate.
pub(crate) fn int(count: usize) -> i32 {
    i32::try_from(count).unwrap_or(i32::MAX)
}

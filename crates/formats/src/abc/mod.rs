//! The ABC reader: one melody by the ABC music standard 2.1, read as real files are written.
//!
//! [`read`] walks over the lines once. Fields set the state (`fields`), lines of music add
//! notes and bar lines to the tune (`music`), lines of words hang on the notes before them
//! (`lyrics`); the length of bars is looked at when all are there (`check`).

mod accidentals;
mod barline;
mod check;
mod chord;
mod fields;
mod key;
mod key_parts;
mod line;
mod log;
mod lyrics;
mod metre;
mod music;
mod note;
mod parts;
mod plain;
mod rewrite;
mod rhythm;
mod signs;
mod spelled;
mod state;
mod tempo;
mod text;
mod unit;
mod voices;
pub(crate) mod write;

pub use key::read_key;
pub(crate) use rewrite::mark_folded;
pub use rewrite::{RewriteError, Rewritten, transpose};
pub use write::write;

#[cfg(feature = "musicxml")]
pub(crate) use check::{bar_lengths, form};

use crate::source::{TuneText, is_music};
use crate::{ProblemKind, ReadOptions, Reading};
use line::{Line, LineKind, line_at};
use log::{Log, Nothing};
use state::State;

/// Reads the text of one tune.
///
/// The reader goes on after every mistake. Of several voices one is read; of chords the top
/// note is the melody; grace notes hang on their notes and have no length.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, abc, source::TuneText};
///
/// let text = TuneText::abc("X:1\nM:3/4\nL:1/4\nK:G\nG A F-|F G2|]\n");
/// let reading = abc::read(&text, &ReadOptions::default());
/// assert!(reading.problems.is_empty());
/// let heard: Vec<String> = reading.tune.soundings().map(|s| s.pitch.to_string()).collect();
/// assert_eq!(heard, ["G4", "A4", "F#4", "G4"]);
///
/// // A mistake costs what it touches, and nothing more.
/// let reading = abc::read(&TuneText::abc("X:1\nK:C\nC D \u{2603} E|\n"), &ReadOptions::default());
/// assert_eq!(reading.tune.events.len(), 3);
/// assert_eq!((reading.problems[0].line, reading.problems[0].column), (3, 5));
/// ```
#[must_use]
pub fn read(text: &TuneText, options: &ReadOptions) -> Reading {
    read_logged::<Nothing>(text, options).0
}

/// Reads the text of one tune, and tells a log where things stand.
fn read_logged<L: Log>(text: &TuneText, options: &ReadOptions) -> (Reading, L) {
    let whole = text.text.get(..text.text.floor_char_boundary(TuneText::MAX_BYTES));
    let whole = whole.unwrap_or_default();
    let mut state = State::<L>::new(whole, options);
    state.defaults(&text.defaults);
    if whole.len() < text.text.len() {
        let limit = TuneText::MAX_BYTES;
        state.report.add(whole.len(), whole.len(), ProblemKind::TuneTooLong { limit });
    }
    let bytes = whole.as_bytes();
    // A byte order mark is no part of the text.
    let mut at = if whole.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    let mut typeset_ends = true;
    let mut blank: Option<Line> = None;
    while let Some(line) = line_at(bytes, at) {
        at = line.next;
        let said = whole.get(line.start..line.end).unwrap_or_default();
        match line.kind {
            LineKind::Empty => {
                if state.in_body() {
                    blank.get_or_insert(line);
                }
                continue;
            }
            LineKind::Comment => continue,
            LineKind::Directive => {
                let said = said.get(2..).unwrap_or_default();
                state.directive(said);
                if said.trim_start().starts_with("begin") && typeset_ends {
                    let end = typeset_end(bytes, at);
                    typeset_ends = end.is_some();
                    at = end.unwrap_or(at);
                }
                continue;
            }
            LineKind::Field(_) | LineKind::Other => {}
        }
        if let Some(empty) = blank.take() {
            let goes_on = matches!(line.kind, LineKind::Field(b) if state.is_body_field(b))
                || is_music(said.as_bytes());
            if !goes_on {
                state.report.add(line.start, line.end, ProblemKind::TextAfterEnd);
                break;
            }
            state.report.add(empty.start, empty.end, ProblemKind::EmptyLine);
        }
        match line.kind {
            LineKind::Field(letter) if state.is_field(letter, said) => {
                if letter == b'X' && state.has_number() {
                    state.report.add(line.start, line.end, ProblemKind::SecondTune);
                    break;
                }
                at = state.field_line(&line, letter, at);
            }
            _ => state.music_line(&line),
        }
        if state.is_full() {
            break;
        }
    }
    let log = std::mem::take(&mut state.log);
    (state.finish(text), log)
}

/// Where the line after `%%endtext` or the like begins; `None` where there is none such.
fn typeset_end(text: &[u8], mut at: usize) -> Option<usize> {
    while let Some(line) = line_at(text, at) {
        at = line.next;
        if text.get(line.start..line.end)?.starts_with(b"%%end") {
            return Some(at);
        }
    }
    None
}

#[cfg(test)]
mod tests;

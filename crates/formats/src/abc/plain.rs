//! The short way through plain notes, which are most of every tune: a letter, or a letter and one
//! digit.

use super::line::is_blank;
use super::log::Log;
use super::note::plain;
use super::state::State;
use modewright_core::tune::{Sound, Span};
use modewright_core::{Pitch, Spelling, Step};

/// What [`plain`] says of every byte.
const LETTERS: [Option<(Step, i8)>; 256] = {
    let mut letters = [None; 256];
    let mut byte = 0;
    while byte < 128 {
        letters[byte as usize] = plain(byte);
        byte += 1;
    }
    letters
};

/// Bytes behind a letter, or behind its digit, that make more of the note: its length goes on, it has
/// octave marks, or a curly apostrophe may stand for one.
const GOES_ON: [bool; 256] = {
    let mut goes_on = [false; 256];
    let bytes = b"0123456789/',\xe2";
    let mut i = 0;
    while i < bytes.len() {
        goes_on[bytes[i] as usize] = true;
        i += 1;
    }
    goes_on
};

impl<L: Log> State<'_, L> {
    /// Reads notes and the spaces between them, as long as nothing is open that would change
    /// them; gives the place of what must be read the long way.
    pub(super) fn plain_notes(&mut self, mut at: usize, end: usize) -> usize {
        let is_open = self.tie.is_some() || self.tuplet.is_some() || self.broken.is_some();
        if L::IS_KEPT || is_open || self.octave != 0 {
            return at;
        }
        let bytes = self.text.as_bytes().get(..end).unwrap_or_default();
        while let Some(&byte) = bytes.get(at) {
            let Some((step, octave)) = LETTERS[usize::from(byte)] else {
                if is_blank(byte) {
                    self.touches = false;
                    at += 1;
                    continue;
                }
                break;
            };
            // One digit or none are one way, for there is no telling which will come.
            let digit = bytes.get(at + 1).map_or(0, |&digit| digit.wrapping_sub(b'0'));
            let digit = if matches!(digit, 1..=9) { digit } else { 0 };
            let after = at + 1 + usize::from(digit > 0);
            if bytes.get(after).is_some_and(|&next| GOES_ON[usize::from(next)]) {
                break;
            }
            self.begin_sound();
            let in_force = self.accidentals.in_force(self.reach, step, octave);
            let alter = in_force.unwrap_or_else(|| self.key.alter(step));
            let Ok(pitch) = Pitch::new(Spelling::new(step, alter), i32::from(octave)) else {
                break;
            };
            self.builder.join_last_in_bar(self.touches);
            self.last.note = Some(pitch);
            self.last.chord.clear();
            #[expect(clippy::cast_possible_truncation, reason = "a text has some MiB at most")]
            let place = Span { start: at as u32, end: after as u32 };
            match self.builder.event(Sound::Note(pitch), self.unit.times(digit), place) {
                Ok(()) => self.touches = true,
                Err(error) => self.not_added(error, at, after),
            }
            at = after;
            if self.is_full() {
                break;
            }
        }
        at
    }
}

//! The short way through plain notes, which are most of every tune.

use super::line::is_blank;
use super::log::Log;
use super::note::{MOST_MARKS, plain};
use super::state::State;
use modewright_core::tune::{Sound, Span};
use modewright_core::{Alter, Pitch, Spelling};

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
            if is_blank(byte) {
                self.touches = false;
                at += 1;
                continue;
            }
            let (written, letter) = match byte {
                b'^' => (Some(Alter::SHARP), at + 1),
                b'_' => (Some(Alter::FLAT), at + 1),
                b'=' => (Some(Alter::NATURAL), at + 1),
                _ => (None, at),
            };
            let Some((step, mut octave)) = bytes.get(letter).and_then(|&letter| plain(letter))
            else {
                break;
            };
            let mut after = letter + 1;
            let (from, to) = (octave - MOST_MARKS, octave + MOST_MARKS);
            let next = loop {
                match bytes.get(after) {
                    Some(b'\'') if octave < to => octave += 1,
                    Some(b',') if octave > from => octave -= 1,
                    next => break next,
                }
                after += 1;
            };
            // More marks than count, or a curly one.
            if matches!(next, Some(b'\'' | b',' | 0xe2)) {
                break;
            }
            self.begin_sound();
            let in_force = || self.accidentals.in_force(self.reach, step, octave);
            let alter = written.or_else(in_force).unwrap_or_else(|| self.key.alter(step));
            let Ok(pitch) = Pitch::new(Spelling::new(step, alter), i32::from(octave)) else {
                break;
            };
            if written.is_some() {
                self.accidentals.set(self.reach, step, octave, alter);
            }
            // One digit or none are one way, for there is no telling which will come.
            let digit = next.map_or(0, |&digit| digit.wrapping_sub(b'0'));
            let is_digit = matches!(digit, 1..=9);
            let follows = bytes.get(after + usize::from(is_digit));
            let length;
            if matches!(follows, Some(b'/' | b'0'..=b'9')) {
                (length, after) = self.length(after, end);
            } else {
                length = self.unit.times(if is_digit { digit } else { 0 });
                after += usize::from(is_digit);
            }
            self.builder.join_last_in_bar(self.touches);
            self.last.note = Some(pitch);
            self.last.chord.clear();
            #[expect(clippy::cast_possible_truncation, reason = "a text has some MiB at most")]
            let place = Span { start: at as u32, end: after as u32 };
            match self.builder.event(Sound::Note(pitch), length, place) {
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

//! Chords, of which the top note is the melody, and grace notes.

use super::log::Log;
use super::state::State;
use crate::ProblemKind;
use crate::report::span;
use modewright_core::tune::{MarkKind, Sound};
use modewright_core::{Length, Pitch};

/// The most notes of one chord or group of grace notes.
const MOST: usize = crate::limits::CHORD_NOTES;

/// The pitches of a sound: none of a rest, one of a note, all of a chord.
#[derive(Debug, Default)]
pub(super) struct Pitches {
    pub(super) note: Option<Pitch>,
    pub(super) chord: Vec<Pitch>,
}

impl Pitches {
    pub(super) fn all(&self) -> &[Pitch] {
        if self.chord.is_empty() { self.note.as_slice() } else { &self.chord }
    }
}

impl<L: Log> State<'_, L> {
    /// Reads a chord from its bracket on; gives the place after its length.
    pub(super) fn chord(&mut self, at: usize, end: usize) -> usize {
        self.begin_sound();
        let mut notes: Vec<Pitch> = Vec::new();
        let mut length: Option<Length> = None;
        let mut tied = false;
        let mut too_many = false;
        let mut next = at + 1;
        let mut closed = false;
        while let Some(&byte) = self.text.as_bytes().get(next).filter(|_| next < end) {
            match byte {
                b']' => {
                    next += 1;
                    closed = true;
                    break;
                }
                b'A'..=b'G' | b'a'..=b'g' | b'^' | b'_' | b'=' => {
                    let Some(head) = self.head(next, end) else {
                        next += 1;
                        continue;
                    };
                    let pitch = self.pitch(head, next);
                    let (inner, after) = self.length(head.after, end);
                    next = after;
                    length.get_or_insert(inner);
                    match pitch {
                        Some(pitch) if notes.len() < MOST => notes.push(pitch),
                        Some(_) => too_many = true,
                        None => {}
                    }
                }
                b'-' => {
                    tied = true;
                    next += 1;
                }
                b'|' => break,
                // Signs, text and blanks within a chord hang on the chord.
                b'"' => {
                    let rest = self.text.get(next + 1..end).unwrap_or_default();
                    next += 1 + rest.find('"').map_or(rest.len(), |i| i + 1);
                }
                _ => next += 1,
            }
        }
        if !closed {
            self.report.add(at, next, ProblemKind::ChordNotClosed);
        }
        if too_many {
            self.report.add(at, next, ProblemKind::ChordTooLarge { limit: MOST });
        }
        let (Some(&first), Some(inner)) = (notes.first(), length) else {
            self.report.add(at, next, ProblemKind::EmptyChord);
            return next;
        };
        let (over, under, after) = self.multiplier(next, end);
        let top =
            notes.iter().copied().fold(first, |top, p| if p.midi() > top.midi() { p } else { top });
        let mut others = notes.clone();
        if let Some(i) = others.iter().position(|&p| p == top) {
            others.remove(i);
        }
        if others.iter().any(|&p| p != top) {
            if self.chords.0 == 0 {
                self.chords.1 = at;
            }
            self.chords.0 += 1;
        }
        self.chord.clear();
        self.chord.extend_from_slice(&notes);
        let event = self.builder.next_event();
        self.add(Sound::Note(top), inner.times(over, under).unwrap_or(inner), at, after);
        // A chord that found no room leaves nothing to the next note.
        if self.builder.next_event() > event {
            for pitch in others {
                self.builder.mark_at(event, MarkKind::ChordNote(pitch), span(at, after));
            }
        }
        if tied {
            self.touches = true;
            self.tie_sign(after.saturating_sub(1));
        }
        after
    }

    /// Reads grace notes from their brace on; gives the place after them. They take accidentals
    /// from bar and key and give none.
    pub(super) fn grace(&mut self, at: usize, end: usize) -> usize {
        self.begin_sound();
        let searched = at < self.no_brace_before;
        let close = self.text.get(at..end).filter(|_| !searched).and_then(|rest| rest.find('}'));
        let Some(close) = close else {
            self.no_brace_before = end;
            self.report.add(at, at + 1, ProblemKind::GraceNotClosed);
            return at + 1;
        };
        let close = at + close;
        let slashed = self.text.as_bytes().get(at + 1) == Some(&b'/');
        let mut notes: Vec<(Pitch, Length)> = Vec::new();
        self.in_grace = true;
        let tie = self.tie.take();
        let mut next = at + 1 + usize::from(slashed);
        while next < close {
            match self.head(next, close) {
                Some(head) => {
                    let pitch = self.pitch(head, next);
                    let (length, after) = self.length(head.after, close);
                    next = after;
                    if let Some(pitch) = pitch.filter(|_| notes.len() < MOST) {
                        notes.push((pitch, length));
                    }
                }
                None => next = self.text.ceil_char_boundary(next + 1),
            }
        }
        self.in_grace = false;
        self.tie = tie;
        if !notes.is_empty() {
            self.mark(MarkKind::Grace { notes, slashed }, at, close + 1);
        }
        close + 1
    }
}

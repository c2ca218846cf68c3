//! Notes, chords, rests and grace notes.

use super::{Writer, fields};
use crate::abc::spelled;
use modewright_core::tune::{Bar, Event, MarkKind, Sound};
use modewright_core::{Length, Pitch};

impl Writer<'_> {
    pub(super) fn grace(&mut self, notes: &[(Pitch, Length)], slashed: bool) {
        self.line.push_str(if slashed { "{/" } else { "{" });
        for &(pitch, length) in notes {
            let sign = self.accidentals.grace_sign(pitch).map_or("", spelled::sign);
            let head = head(pitch.writable());
            self.line.push_str(&format!("{sign}{head}{}", fields::length(length, self.unit)));
        }
        self.line.push('}');
    }

    pub(super) fn event(&mut self, at: usize, event: &Event, bar: &Bar) {
        let mut length = event.length;
        if let Some(open) = &mut self.tuplet {
            length = length.times(open.actual, open.normal).unwrap_or(length);
            open.left -= 1;
            if open.left == 0 {
                self.tuplet = None;
            }
        } else if let Some(second) = self.broken.take() {
            length = second;
        } else if let Some((written, sign)) = self.broken_rhythm(at, event, bar) {
            self.broken = Some(written);
            self.sound(event, written);
            self.pitches.clear();
            self.accidentals.tie(&[]);
            self.slur_ends(at);
            self.line.push(sign);
            return;
        }
        self.sound(event, length);
        let next = self.tune.events.get(at + 1);
        let tied = event.tied
            && event.sound.pitch().is_some()
            && next.is_some_and(|n| n.sound.pitch() == event.sound.pitch());
        if tied {
            self.line.push('-');
        } else {
            self.pitches.clear();
        }
        let pitches = std::mem::take(&mut self.pitches);
        self.accidentals.tie(&pitches);
        self.slur_ends(at);
    }

    /// The length that both notes of a broken rhythm are written with, and its sign.
    fn broken_rhythm(&self, at: usize, event: &Event, bar: &Bar) -> Option<(Length, char)> {
        let next = self.tune.events.get(at + 1).filter(|_| at + 1 < bar.end)?;
        let plain = event.joined
            && !event.tied
            && event.sound.pitch().is_some()
            && next.sound.pitch().is_some();
        let marks = self.tune.marks.get(self.mark..).unwrap_or(&[]);
        // Only what stands after a note, or on none of the two.
        let bare = marks.iter().take_while(|m| m.event <= at + 1).all(|m| {
            matches!(
                m.kind,
                MarkKind::Lyric { .. } | MarkKind::SlurEnd | MarkKind::Sign(_) | MarkKind::LineEnd
            )
        });
        if !plain || !bare || self.line_ends_at(at + 1) {
            return None;
        }
        let half = event.length.plus(next.length).ok()?.times(1, 2).ok()?;
        let (dotted, short) = (half.times(3, 2).ok()?, half.times(1, 2).ok()?);
        let fits = half <= self.unit && half.denominator().is_power_of_two();
        match (event.length, next.length) {
            _ if !fits || half.numerator() != 1 => None,
            (a, b) if (a, b) == (dotted, short) => Some((half, '>')),
            (a, b) if (a, b) == (short, dotted) => Some((half, '<')),
            _ => None,
        }
    }

    /// A note, a chord or a rest of a written length; its pitches are kept for its tie.
    fn sound(&mut self, event: &Event, length: Length) {
        let length = fields::length(length, self.unit);
        let top = match event.sound {
            Sound::Note(pitch) => pitch,
            Sound::Rest | Sound::HiddenRest => {
                let letter = if event.sound == Sound::Rest { 'z' } else { 'x' };
                self.pitches.clear();
                self.line.push_str(&format!("{letter}{length}"));
                return;
            }
        };
        // The reader takes the first of the highest notes for the melody.
        let is_last = self.pitches.iter().all(|p| p.midi() < top.midi());
        let place = if is_last { self.pitches.len() } else { 0 };
        let is_chord = !self.pitches.is_empty();
        self.pitches.insert(place, top);
        if is_chord {
            self.line.push('[');
        }
        for i in 0..self.pitches.len() {
            let Some(&pitch) = self.pitches.get(i) else { continue };
            let pitch = pitch.writable();
            let sign = self.accidentals.sign(pitch).map_or("", spelled::sign);
            self.line.push_str(sign);
            self.line.push_str(&head(pitch));
        }
        if is_chord {
            self.line.push(']');
        }
        self.line.push_str(&length);
    }

    fn slur_ends(&mut self, event: usize) {
        let marks = self.tune.marks.as_slice();
        let from = marks.partition_point(|m| m.event < event);
        let here = marks.iter().skip(from).take_while(|m| m.event == event);
        let ends = here.filter(|m| m.kind == MarkKind::SlurEnd).count().min(self.slurs);
        self.slurs -= ends;
        self.line.push_str(&")".repeat(ends));
    }
}

/// Letter and octave marks.
fn head(pitch: Pitch) -> String {
    spelled::letters(pitch.spelling().step, pitch.octave().into())
}

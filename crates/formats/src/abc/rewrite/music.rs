//! Notes and chord signs in the text.

use super::super::accidentals::Accidentals;
use super::super::log::{NoteSite, Site};
use super::super::note::{Head, tied_to};
use super::super::spelled;
use super::{Edit, key, word};
use modewright_core::transpose::{Transposition, chord_sign};
use modewright_core::tune::WrittenKey;
use modewright_core::{Interval, Pitch, Spelling, Tune};

/// What is in force in the new text.
struct Page<'a> {
    by: &'a Transposition,
    intervals: &'a [Interval],
    /// The interval that the part in hand moves by.
    interval: Interval,
    old_key: WrittenKey,
    key: WrittenKey,
    accidentals: Accidentals,
    /// The last sound: its pitches now.
    last: Vec<Pitch>,
    /// The interval that the last melody note moved by.
    last_by: Interval,
    /// The sound in hand.
    pitches: Vec<Pitch>,
    edits: Vec<Edit>,
}

/// What a note is in its sound.
#[derive(Clone, Copy, Debug, Default)]
struct Part {
    /// The octaves that it is folded by.
    octaves: i8,
    /// Whether it is the melody note.
    is_melody: bool,
    /// Whether it is tied to the melody note before.
    is_tied: bool,
}

/// The changes that a move makes in a text, from what was read there.
pub(super) fn edits(
    sites: &[Site],
    tune: &Tune,
    text: &str,
    by: &Transposition,
    intervals: &[Interval],
) -> Vec<Edit> {
    let interval = intervals.first().copied().unwrap_or_else(|| by.by());
    let mut page = Page {
        by,
        intervals,
        interval,
        old_key: WrittenKey::default(),
        key: WrittenKey::default(),
        accidentals: Accidentals::default(),
        last: Vec::new(),
        last_by: interval,
        pitches: Vec::new(),
        edits: Vec::new(),
    };
    let parts = page.parts(sites, tune);
    for (site, part) in sites.iter().zip(parts) {
        match *site {
            Site::Note(ref note) => page.note(note, part),
            Site::Sound { kept, .. } => page.sound(kept),
            Site::Bar => page.accidentals.clear(),
            Site::Key { index, ref reading } => {
                page.interval = page.intervals.get(index).copied().unwrap_or(page.interval);
                page.old_key = reading.key.unwrap_or_default();
                let (edits, key) = key::edits(reading, page.interval);
                page.key = key;
                page.edits.extend(edits);
            }
            Site::ChordSign { start, end } => {
                let old = text.get(start..end).unwrap_or_default();
                let new = chord_sign(old, page.by.by());
                if new != old {
                    page.edits.push(Edit { start, end, text: new });
                }
            }
            Site::Overlaid { start, head, shift } => page.overlaid(start, head, shift),
        }
    }
    page.edits
}

impl Page<'_> {
    /// For each site what its note is in its sound. A chord, and the grace notes before it, are
    /// folded as the melody note is; folded notes are marked.
    fn parts(&mut self, sites: &[Site], tune: &Tune) -> Vec<Part> {
        let mut parts = vec![Part::default(); sites.len()];
        let mut begun = 0;
        for (i, site) in sites.iter().enumerate() {
            let Site::Sound { start, kept, event } = *site else { continue };
            let heard = (begun..i).filter_map(|at| match sites.get(at)? {
                Site::Note(note) if !note.is_grace => Some((at, note.pitch?)),
                _ => None,
            });
            let higher = |top: (usize, Pitch), next: (usize, Pitch)| {
                if next.1.midi() > top.1.midi() { next } else { top }
            };
            if let Some((at, top)) = heard.take(kept).reduce(higher) {
                let octaves = self.by.fold_of(top);
                if octaves != 0 {
                    self.mark(start, octaves);
                }
                for part in parts.get_mut(begun..i).unwrap_or_default() {
                    part.octaves = octaves;
                }
                let before = event.checked_sub(1).and_then(|before| tune.events.get(before));
                if let Some(part) = parts.get_mut(at) {
                    part.is_melody = true;
                    part.is_tied = before.is_some_and(|before| before.tied);
                }
            }
            begun = i + 1;
        }
        parts
    }

    /// A note, a chord or a rest has ended.
    fn sound(&mut self, kept: usize) {
        self.pitches.truncate(kept);
        std::mem::swap(&mut self.last, &mut self.pitches);
        self.pitches.clear();
    }

    fn note(&mut self, note: &NoteSite, part: Part) {
        let Some(pitch) = note.pitch else { return };
        // A note tied over a change of key moves as the note before it did.
        let by = if part.is_tied { self.last_by } else { self.interval };
        if part.is_melody {
            self.last_by = by;
        }
        let moved = if note.is_grace {
            self.by.grace(pitch, by, part.octaves)
        } else {
            self.by.pitch(pitch, by, part.octaves)
        };
        let Ok(new) = moved else { return };
        let (step, octave) = (new.spelling().step, new.octave());
        let tied =
            if note.is_after_tie { tied_to(&self.last, step, i32::from(octave)) } else { None };
        let in_force = tied
            .or_else(|| self.accidentals.in_force(note.reach, step, octave))
            .unwrap_or_else(|| self.key.alter(step));
        let is_signed = note.alter.is_some() || in_force != new.spelling().alter;
        if is_signed && !note.is_grace {
            self.accidentals.set(note.reach, step, octave, new.spelling().alter);
        }
        let text = letters_of(new, is_signed, note.shift);
        self.edits.push(Edit { start: note.start, end: note.end, text });
        if !note.is_grace {
            self.pitches.push(new);
        }
    }

    /// A note of a second strand keeps or lacks its accidental as it did before: whichever rule
    /// its reader follows, it is the same note moved.
    fn overlaid(&mut self, start: usize, head: Head, shift: i32) {
        let alter = head.alter.unwrap_or_else(|| self.old_key.alter(head.step));
        let old = Pitch::new(Spelling::new(head.step, alter), head.octave + shift);
        let Ok(old) = old else { return };
        let octaves = self.by.fold_of(old);
        let Ok(new) = self.by.pitch(old, self.interval, octaves) else { return };
        if octaves != 0 {
            self.mark(start, octaves);
        }
        let is_signed = head.alter.is_some()
            || self.old_key.form == modewright_core::tune::KeyForm::None
                && new.spelling().alter != self.key.alter(new.spelling().step);
        let text = letters_of(new, is_signed, shift);
        self.edits.push(Edit { start, end: head.after, text });
    }

    /// Tells under a note that it was folded.
    fn mark(&mut self, start: usize, octaves: i8) {
        let text = format!("\"_{}\"", word(octaves));
        self.edits.push(Edit { start, end: start, text });
    }
}

/// A note in letters: `^F,`, `c'`.
fn letters_of(pitch: Pitch, is_signed: bool, shift: i32) -> String {
    let sign = if is_signed { spelled::sign(pitch.spelling().alter) } else { "" };
    let letters = spelled::letters(pitch.spelling().step, i32::from(pitch.octave()) - shift);
    format!("{sign}{letters}")
}

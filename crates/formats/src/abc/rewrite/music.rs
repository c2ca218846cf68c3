//! Notes and chord signs in the text.

use super::super::accidentals::Accidentals;
use super::super::log::{NoteSite, Site};
use super::super::note::{Head, tied_to};
use super::{Edit, key, word};
use modewright_core::transpose::{Transposition, chord_sign};
use modewright_core::tune::WrittenKey;
use modewright_core::{Interval, Pitch, Spelling};

/// What is in force in the new text.
struct Page<'a> {
    by: &'a Transposition,
    intervals: &'a [Interval],
    /// The interval that the part in hand moves by.
    interval: Interval,
    old_key: WrittenKey,
    key: WrittenKey,
    accidentals: Accidentals,
    /// The last sound: its pitches now, with the interval that they moved by.
    last: Vec<Pitch>,
    last_by: Interval,
    now_by: Option<Interval>,
    /// The sound in hand.
    pitches: Vec<Pitch>,
    edits: Vec<Edit>,
}

/// The changes that a move makes in a text, from what was read there.
pub(super) fn edits(
    sites: Vec<Site>,
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
        now_by: None,
        pitches: Vec::new(),
        edits: Vec::new(),
    };
    let octaves = page.folds(&sites);
    for (site, octaves) in sites.into_iter().zip(octaves) {
        match site {
            Site::Note(note) => page.note(&note, octaves),
            Site::Sound { kept, .. } => page.sound(kept),
            Site::Bar => page.accidentals.clear(),
            Site::Key { index, reading } => {
                page.interval = page.intervals.get(index).copied().unwrap_or(page.interval);
                page.old_key = reading.key.unwrap_or_default();
                let (edits, key) = key::edits(&reading, page.interval);
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
    /// For each site the octaves that its note is folded by: a chord, and the grace notes before
    /// it, as the melody note is. Folded notes are marked.
    fn folds(&mut self, sites: &[Site]) -> Vec<i8> {
        let mut folds = vec![0; sites.len()];
        let mut begun = 0;
        for (i, site) in sites.iter().enumerate() {
            let Site::Sound { start, kept } = *site else { continue };
            let heard = sites.get(begun..i).unwrap_or(&[]).iter().filter_map(|site| match site {
                Site::Note(note) if !note.is_grace => note.pitch,
                _ => None,
            });
            let top = heard.take(kept).reduce(|top, p| if p.midi() > top.midi() { p } else { top });
            let octaves = top.map_or(0, |top| self.by.fold_of(top));
            if octaves != 0 {
                self.mark(start, octaves);
                folds.get_mut(begun..i).unwrap_or_default().fill(octaves);
            }
            begun = i + 1;
        }
        folds
    }

    /// A note, a chord or a rest has ended.
    fn sound(&mut self, kept: usize) {
        self.pitches.truncate(kept);
        std::mem::swap(&mut self.last, &mut self.pitches);
        self.pitches.clear();
        self.last_by = self.now_by.take().unwrap_or(self.interval);
    }

    fn note(&mut self, note: &NoteSite, octaves: i8) {
        let Some(pitch) = note.pitch else { return };
        // A note tied over a change of key moves as the note before it did.
        let by = if note.is_after_tie { self.last_by } else { self.interval };
        let moved = if note.is_grace {
            self.by.grace(pitch, by, octaves)
        } else {
            self.now_by = Some(by);
            self.by.pitch(pitch, by, octaves)
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
pub(in super::super) fn letters_of(pitch: Pitch, is_signed: bool, shift: i32) -> String {
    let sign = if is_signed { key::sign(pitch.spelling().alter) } else { "" };
    let octave = i32::from(pitch.octave()) - shift;
    let letter = pitch.spelling().step.letter();
    let marks = |sign: &str, count: i32| sign.repeat(usize::try_from(count).unwrap_or(0));
    if octave >= 5 {
        format!("{sign}{}{}", letter.to_ascii_lowercase(), marks("'", octave - 5))
    } else {
        format!("{sign}{letter}{}", marks(",", 4 - octave))
    }
}

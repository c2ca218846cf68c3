//! Where a strain comes to rest.
//!
//! A repeated strain often ends in a few notes that lead back to its beginning. They belong to
//! the repeat, not to the rest: the note that tells home stands before them.

use super::view::{Note, TICKS, View};

impl View<'_> {
    /// The bar that a strain comes to rest in: its last one with notes for at least half a bar,
    /// else its last one with notes. `first` where there is none.
    pub(super) fn rest_bar(&self, first: usize, end: usize) -> usize {
        let bars = || (first..end).rev();
        bars()
            .find(|&bar| self.is_substantial(bar))
            .or_else(|| bars().find(|&bar| !self.notes_of(bar).is_empty()))
            .unwrap_or(first)
    }

    /// The note that a bar comes to rest on, as an index into its notes; the bar has notes.
    ///
    /// The last note where it is long (two thirds of a beat), where the bar stops short of its
    /// full length so that nothing leads on, where it is longer than the note before or repeats
    /// it. Otherwise notes lead back, and the last note that begins by mid-bar is taken.
    pub(super) fn rest_note(&self, bar: usize) -> usize {
        let (notes, bar) = (self.notes_of(bar), &self.bars[bar]);
        let last = notes.len().saturating_sub(1);
        let Some(note) = notes.last() else { return last };
        let beat = if is_compound(bar.beat) { bar.beat } else { bar.beat.min(TICKS / 4) };
        let long = 3 * u64::from(note.ticks) >= 2 * u64::from(beat);
        let short_bar = bar.length < bar.full && note.at + note.ticks + 1 >= bar.length;
        let rests = notes.len() > 1 && {
            let before = &notes[last - 1];
            note.ticks > before.ticks || note.midi == before.midi
        };
        if long || short_bar || rests {
            return last;
        }
        notes.iter().rposition(|n| 2 * n.at <= bar.full).unwrap_or(last)
    }

    /// The first bar of a strain with notes for at least half a bar, else its first with notes.
    pub(super) fn opening_bar(&self, first: usize, end: usize) -> usize {
        (first..end)
            .find(|&bar| self.is_substantial(bar))
            .or_else(|| (first..end).find(|&bar| !self.notes_of(bar).is_empty()))
            .unwrap_or(first)
    }

    /// The last note before a place that is not of a pitch class.
    pub(super) fn note_before(
        &self,
        first: usize,
        bar: usize,
        place: usize,
        class: u8,
    ) -> Option<&Note> {
        let here = self.notes_of(bar)[..place].iter().rev();
        let earlier = (first..bar).rev().flat_map(|b| self.notes_of(b).iter().rev());
        here.chain(earlier).find(|n| n.class != class)
    }
}

/// Whether a beat is a dotted value.
const fn is_compound(beat: u32) -> bool {
    beat.is_multiple_of(3) && !beat.is_multiple_of(TICKS / 4)
}

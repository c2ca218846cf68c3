//! A tune as it is played: repeats unfolded, ties joined.

use modewright_core::tune::{MarkKind, Tempo};
use modewright_core::{Length, Metre, Pitch, Tune};

/// A note as it sounds, counted from the beginning.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Played {
    pub(super) at: Length,
    pub(super) length: Length,
    pub(super) pitch: Pitch,
    /// The other notes of its chord.
    pub(super) others: Vec<Pitch>,
    /// The first of its events.
    pub(super) event: usize,
}

/// What happens between the notes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Change {
    Metre(Metre),
    Key(usize),
    Tempo(Tempo),
}

/// A tune in time.
#[derive(Clone, Debug, Default)]
pub(super) struct Performance {
    pub(super) notes: Vec<Played>,
    pub(super) changes: Vec<(Length, Change)>,
    pub(super) end: Length,
}

/// A tune as it is played; `None` where it lasts longer than can be counted.
pub(super) fn play(tune: &Tune) -> Option<Performance> {
    let mut notes: Vec<Played> = Vec::new();
    let mut changes: Vec<(Length, Change)> = Vec::new();
    let mut now = Length::ZERO;
    // Whether the last note is tied on.
    let mut tied = false;
    let (mut metre, mut key) = (None, None);
    for index in tune.play_order() {
        let bar = tune.bars.get(index)?;
        if metre != Some(bar.metre) {
            metre = Some(bar.metre);
            changes.push((now, Change::Metre(bar.metre)));
        }
        if key != Some(bar.key) {
            key = Some(bar.key);
            changes.push((now, Change::Key(bar.key)));
        }
        let mut mark = tune.marks.partition_point(|m| m.event < bar.first);
        for (event, at) in tune.events_of(index).iter().zip(bar.first..) {
            let mut others = Vec::new();
            while let Some(next) = tune.marks.get(mark).filter(|m| m.event <= at) {
                mark += 1;
                match &next.kind {
                    MarkKind::ChordNote(pitch) => others.push(*pitch),
                    MarkKind::Tempo(tempo) => changes.push((now, Change::Tempo(tempo.clone()))),
                    MarkKind::Key(index) if key != Some(*index) => {
                        key = Some(*index);
                        changes.push((now, Change::Key(*index)));
                    }
                    _ => {}
                }
            }
            let end = now.plus(event.length).ok()?;
            if let Some(pitch) = event.sound.pitch() {
                match notes.last_mut().filter(|last| tied && last.pitch == pitch) {
                    Some(last) => last.length = last.length.plus(event.length).ok()?,
                    None => {
                        let length = event.length;
                        notes.push(Played { at: now, length, pitch, others, event: at });
                    }
                }
            }
            tied = event.tied && event.sound.pitch().is_some();
            now = end;
        }
    }
    Some(Performance { notes, changes, end: now })
}

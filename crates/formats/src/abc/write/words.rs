//! Lines of words under the notes.

use super::escape;
use modewright_core::Tune;
use modewright_core::tune::{MarkKind, Syllable};
use std::collections::BTreeMap;

/// The lines of words for the notes from `first` to `end`; empty where they have none.
///
/// Every note has its place in every line: a star where it has no syllable. Before the note
/// `looked` none has.
pub(super) fn lines(tune: &Tune, first: usize, looked: usize, end: usize) -> String {
    let from = tune.marks.partition_point(|mark| mark.event < looked);
    let mut verses: BTreeMap<u16, BTreeMap<usize, &Syllable>> = BTreeMap::new();
    for mark in tune.marks.get(from..).unwrap_or(&[]).iter().take_while(|mark| mark.event < end) {
        let sounds = tune.events.get(mark.event).is_some_and(|e| e.sound.pitch().is_some());
        if let MarkKind::Lyric { verse, syllable } = &mark.kind
            && sounds
        {
            verses.entry(*verse).or_default().insert(mark.event, syllable);
        }
    }
    let Some((&last, _)) = verses.last_key_value() else { return String::new() };
    let mut out = String::new();
    for verse in 0..=last.min(VERSES - 1) {
        out.push_str("w:");
        if let Some(syllables) = verses.get(&verse) {
            line(tune, first, end, syllables, &mut out);
        }
        out.push('\n');
    }
    out
}

/// The most verses that are written, here and in a score.
pub(crate) const VERSES: u16 = 100;

fn line(
    tune: &Tune,
    first: usize,
    end: usize,
    syllables: &BTreeMap<usize, &Syllable>,
    out: &mut String,
) {
    let begin = out.len();
    let last = syllables.last_key_value().map_or(0, |(&event, _)| event);
    let mut joins = true;
    for (i, event) in (first..end).zip(tune.events.get(first..end).unwrap_or(&[])) {
        if event.sound.pitch().is_none() || i > last {
            continue;
        }
        if !joins {
            out.push(' ');
        }
        joins = false;
        match syllables.get(&i) {
            None => out.push('*'),
            Some(Syllable::Held) => out.push('_'),
            Some(Syllable::Text { text, hyphen }) => {
                let said = escape::syllable(text, out.len() == begin);
                out.push_str(if said.is_empty() { "*" } else { &said });
                if *hyphen && !said.is_empty() {
                    out.push('-');
                    joins = true;
                }
            }
        }
    }
}

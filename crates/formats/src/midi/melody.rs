//! One melody of a file: which track, and one note at a time.

use super::MidiProblem as P;
use super::file::{File, Note};
use crate::{ProblemKind, ReadOptions};

/// Chooses the track: the one that is asked for by its name or its number, else the first that
/// mostly has one note at a time, else the first.
pub(super) fn choose(
    file: &File,
    options: &ReadOptions,
    problems: &mut Vec<ProblemKind>,
) -> Option<usize> {
    let names: Vec<String> = file.tracks.iter().map(|track| track.name.clone()).collect();
    // A file of this kind has no voices but its tracks.
    let asked = options.part.as_ref().or(options.voice.as_ref());
    let found = asked.and_then(|asked| {
        let by_name = names.iter().position(|name| name.eq_ignore_ascii_case(asked));
        let number = asked.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
        by_name.or(number.filter(|&n| n < names.len()))
    });
    if let (Some(asked), None) = (asked, found) {
        problems.push(P::NoSuchTrack { asked: asked.clone(), names: names.clone() }.into());
    }
    let single = || file.tracks.iter().position(|track| is_single(&track.notes));
    let chosen = found.or_else(single).or((!names.is_empty()).then_some(0))?;
    if names.len() > 1 {
        let read = names.get(chosen).cloned().unwrap_or_default();
        problems.push(P::SeveralTracks { names, read }.into());
    }
    Some(chosen)
}

/// Whether at most one note of ten begins together with another.
fn is_single(notes: &[Note]) -> bool {
    let together = notes.windows(2).filter(|w| w[0].start == w[1].start).count();
    together * 10 <= notes.len()
}

/// A melody in ticks, with what was left out of it.
#[derive(Clone, Debug, Default)]
pub(super) struct Melody {
    pub(super) notes: Vec<Note>,
    /// Notes below another that begins with them or sounds on over them.
    pub(super) below: usize,
    /// Notes that were cut where the next begins.
    pub(super) cut: usize,
}

/// One note at a time: of those that begin together the highest; a note that sounds into the
/// next ends there, and one that lies wholly under a higher one is left out. `near` is how many
/// ticks apart notes still begin together.
pub(super) fn single(notes: &[Note], near: u64) -> Melody {
    let mut melody = Melody::default();
    for &note in notes {
        let Some(last) = melody.notes.last_mut() else {
            melody.notes.push(note);
            continue;
        };
        let together = note.start - last.start <= near;
        let under = note.key < last.key && note.end <= last.end && note.start < last.end;
        if together && note.key > last.key {
            melody.below += 1;
            let start = last.start;
            *last = Note { start, ..note };
        } else if together || under {
            melody.below += 1;
        } else {
            if last.end > note.start {
                last.end = note.start;
                melody.cut += 1;
            }
            melody.notes.push(note);
        }
    }
    melody
}

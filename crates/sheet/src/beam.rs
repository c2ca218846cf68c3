//! Which notes are beamed together: those of one beat, as the metre has it.

use crate::plan::{Kind, Note};
use modewright_core::{Length, Metre, MetreKind};

/// Notes under one beam: first and last, as indices into the plan's notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Group {
    pub(crate) first: usize,
    pub(crate) last: usize,
}

/// Groups of two notes and more. Beats are those of the metre; two beats of a simple metre over 4
/// are joined where they hold nothing but plain quavers, and so is a whole bar of 3/4 or 3/8
/// (common practice, no source). In free metre the source's spaces decide. A rest, a tuplet's
/// edge and a bar line end a group.
pub(crate) fn groups(notes: &[Note], metre_of: impl Fn(usize) -> Metre) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    let mut from = 0;
    while from < notes.len() {
        let bar = notes[from].bar;
        let count = notes[from..].iter().take_while(|n| n.bar == bar).count();
        bar_groups(notes, from, from + count, metre_of(bar), &mut groups);
        from += count;
    }
    groups
}

fn bar_groups(notes: &[Note], from: usize, end: usize, metre: Metre, groups: &mut Vec<Group>) {
    let beats = Beats::of(metre);
    let mut at = from;
    while at < end {
        if !is_beamed(&notes[at]) {
            at += 1;
            continue;
        }
        let mut last = at;
        while last + 1 < end && joins(last - from, &beats, &notes[from..end]) {
            last += 1;
        }
        if last > at {
            groups.push(Group { first: at, last });
        }
        at = last + 1;
    }
}

/// Notes of a beat that are looked at on each side.
const FAR: usize = 32;

fn is_beamed(note: &Note) -> bool {
    note.kind == Kind::Note && note.value.flags() > 0
}

fn joins(at: usize, beats: &Beats, bar: &[Note]) -> bool {
    let (note, next) = (&bar[at], &bar[at + 1]);
    if !is_beamed(next) || note.tuplet != next.tuplet {
        return false;
    }
    match beats {
        Beats::None => note.joined || note.tuplet.is_some(),
        // What the source calls one number stays together.
        _ if note.tuplet.is_some() => true,
        Beats::Even { beat, group } => {
            if beat_of(note.at, *beat) == beat_of(next.at, *beat) {
                return true;
            }
            let wide = beat_of(note.at, *group);
            let within = |n: &&Note| beat_of(n.at, *group) == wide;
            let plain = |n: &Note| {
                !is_beamed(n) || n.value.flags() == 1 && n.value.dots == 0 && n.tuplet.is_none()
            };
            wide == beat_of(next.at, *group)
                && bar[..at].iter().rev().take_while(within).take(FAR).all(plain)
                && bar[at..].iter().take_while(within).take(FAR).all(plain)
        }
        Beats::Uneven(ends) => {
            let beat = |at: Length| ends.iter().position(|&end| at < end);
            beat(note.at) == beat(next.at)
        }
    }
}

fn beat_of(at: Length, beat: Length) -> u64 {
    at.count(beat)
}

/// Where beams may not cross.
enum Beats {
    /// Beats of one length, and what plain quavers are joined over.
    Even {
        beat: Length,
        group: Length,
    },
    /// The ends of beats of several lengths.
    Uneven(Vec<Length>),
    None,
}

impl Beats {
    fn of(metre: Metre) -> Self {
        let Some(unit) = metre.unit() else { return Self::None };
        let whole = metre.bar_length().unwrap_or(unit);
        let times = |n: u32| unit.times(n, 1).unwrap_or(unit);
        match metre.kind() {
            MetreKind::Free => Self::None,
            MetreKind::Compound => {
                // Six crotchets are beamed by crotchets in threes, six quavers by threes.
                Self::Even { beat: times(3), group: times(3) }
            }
            MetreKind::Simple if metre.groups().len() > 1 => {
                let beat = times(u32::from(metre.groups()[0]));
                Self::Even { beat, group: beat }
            }
            MetreKind::Simple => match (metre.upper(), metre.lower()) {
                (4, 4) => Self::Even { beat: unit, group: times(2) },
                (_, 4) => Self::Even { beat: unit, group: whole },
                (_, 1 | 2) => Self::Even { beat: Length::CROTCHET, group: unit },
                _ => Self::Even { beat: whole, group: whole },
            },
            MetreKind::Irregular => {
                let mut sum = 0;
                let mut ends = Vec::new();
                for beat in metre.beats() {
                    sum += beat;
                    ends.push(times(sum));
                }
                Self::Uneven(ends)
            }
        }
    }
}

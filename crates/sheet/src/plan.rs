//! The tune as what will be printed: values, places on the stave, accidentals, in order.

use crate::accidental::Scope;
use crate::clef::{Places, accidental};
use crate::value::{Value, values};
use modewright_core::tune::{Event, Mark, MarkKind, Sound, WrittenKey};
use modewright_core::{Length, Metre, Pitch, Tune};
use modewright_glyphs::Glyph;

/// A head of a note or chord.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Head {
    /// Where on the stave.
    pub(crate) place: i32,
    /// The sign before it.
    pub(crate) accidental: Option<Glyph>,
}

/// What a printed value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    Note,
    Rest,
    /// A rest for a whole bar, in its middle.
    BarRest,
    /// Room without ink.
    Hidden,
}

/// A note or rest as it is printed. A length that no single value has is several of these.
#[derive(Clone, Debug)]
pub(crate) struct Note {
    /// The event it belongs to.
    pub(crate) event: usize,
    /// Whether it is the first of its event's values.
    pub(crate) is_first: bool,
    pub(crate) kind: Kind,
    pub(crate) value: Value,
    /// Lowest first; none for a rest.
    pub(crate) heads: Vec<Head>,
    /// Grace notes before it.
    pub(crate) graces: Vec<Head>,
    pub(crate) graces_slashed: bool,
    /// Tied to the note printed next.
    pub(crate) tied: bool,
    /// Where it begins, counted from where its metre's bar would begin.
    pub(crate) at: Length,
    /// How long it sounds.
    pub(crate) length: Length,
    pub(crate) bar: usize,
    /// The bracket that it stands in, an index into [`Plan::tuplets`].
    pub(crate) tuplet: Option<usize>,
    /// The source joins it to the next.
    pub(crate) joined: bool,
}

/// Notes under one number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Tuplet {
    /// First and last note, as indices into [`Plan::notes`].
    pub(crate) first: usize,
    pub(crate) last: usize,
    pub(crate) number: u8,
}

/// What stands in a row on the stave.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Item {
    /// A note, as an index.
    Note(usize),
    /// The line at the end of a bar, as an index into the tune's bars.
    BarEnd(usize),
    /// A key from here on, as an index into the tune's keys.
    Key(usize),
    /// A metre from here on.
    Metre(Metre),
}

/// The tune as what will be printed.
#[derive(Clone, Debug, Default)]
pub(crate) struct Plan {
    pub(crate) notes: Vec<Note>,
    pub(crate) items: Vec<Item>,
    pub(crate) tuplets: Vec<Tuplet>,
    /// First and last note of each slur.
    pub(crate) slurs: Vec<(usize, usize)>,
    /// The first printed note of each event.
    pub(crate) first_of: Vec<usize>,
}

/// The most heads of one chord, and of grace notes before one note, that are printed.
pub(crate) const MOST_HEADS: usize = 8;
/// The most slurs that are open at a time.
const MOST_SLURS: usize = 16;

/// Lays out what the tune says, bar by bar.
pub(crate) fn plan(tune: &Tune) -> Plan {
    let places = Places::of(tune.clef);
    let mut plan = Plan::default();
    let mut scope = Scope::default();
    let mut marks = tune.marks.as_slice();
    let no_key = WrittenKey::default();
    let mut key = tune.keys.first().unwrap_or(&no_key);
    let mut slurs: Vec<usize> = Vec::new();
    let mut tuplet: Option<(usize, Length)> = None;
    let mut tuplet_end = 0;

    for (b, bar) in tune.bars.iter().enumerate() {
        let offset = offset(tune, b);
        scope.new_bar();
        let mut was_tied: Option<Pitch> = last_tied(tune, bar.first);
        for (i, event) in tune.events_of(b).iter().enumerate() {
            let index = bar.first + i;
            let here = take(&mut marks, index);
            // A signature stands before a metre, whichever the source says first.
            let new_key = here.iter().rev().find_map(|mark| match mark.kind {
                MarkKind::Key(k) => Some(k),
                _ => None,
            });
            if let Some(k) = new_key {
                plan.items.push(Item::Key(k));
                key = tune.keys.get(k).unwrap_or(key);
            }
            let new_metre = here.iter().rev().find_map(|mark| match mark.kind {
                MarkKind::Metre(metre) => Some(metre),
                _ => None,
            });
            plan.items.extend(new_metre.map(Item::Metre));
            for mark in here {
                if let MarkKind::Tuplet { actual, normal, count } = &mark.kind {
                    let last = (index + usize::from(*count)).min(bar.end);
                    if last > index + 1
                        && let Ok(ratio) = Length::new(u32::from(*actual), u32::from(*normal))
                    {
                        let number = plan.tuplets.len();
                        let first = plan.notes.len();
                        plan.tuplets.push(Tuplet { first, last: first, number: *actual });
                        (tuplet, tuplet_end) = (Some((number, ratio)), last);
                    }
                }
            }
            if index >= tuplet_end {
                tuplet = None;
            }
            let first = plan.notes.len();
            plan.first_of.push(first);
            let mut note = Note {
                event: index,
                is_first: true,
                kind: kind(event, tune, b),
                value: Value { power: 2, dots: 0 },
                heads: Vec::new(),
                graces: Vec::new(),
                graces_slashed: false,
                tied: false,
                at: event.at.plus(offset).unwrap_or(event.at),
                length: event.length,
                bar: b,
                tuplet: tuplet.map(|(number, _)| number),
                joined: event.joined,
            };
            graces(&mut note, here, &mut scope, places, key);
            heads(&mut note, event, here, &mut scope, places, key, was_tied);
            was_tied = event.sound.pitch().filter(|_| event.tied);
            let written = match tuplet {
                Some((_, ratio)) => event
                    .length
                    .times(ratio.numerator(), ratio.denominator())
                    .unwrap_or(event.length),
                None => event.length,
            };
            let next = tune.events.get(index + 1);
            let tied = event.tied
                && event.sound.pitch().is_some()
                && next.is_some_and(|n| n.sound.pitch() == event.sound.pitch());
            push(&mut plan, note, written, tied);
            if let Some((number, _)) = tuplet {
                plan.tuplets[number].last = plan.notes.len() - 1;
            }
            for mark in here {
                match mark.kind {
                    MarkKind::SlurStart if slurs.len() < MOST_SLURS => slurs.push(first),
                    MarkKind::SlurEnd => {
                        if let Some(from) = slurs.pop().filter(|&from| from < first) {
                            plan.slurs.push((from, first));
                        }
                    }
                    _ => {}
                }
            }
        }
        plan.items.push(Item::BarEnd(b));
    }
    plan
}

/// The pitch of the note before an event, where it is tied over.
fn last_tied(tune: &Tune, first: usize) -> Option<Pitch> {
    let before = tune.events.get(first.checked_sub(1)?)?;
    before.sound.pitch().filter(|_| before.tied)
}

/// The marks of an event, off the front of the list.
pub(crate) fn take<'m>(marks: &mut &'m [Mark], event: usize) -> &'m [Mark] {
    let before = marks.partition_point(|mark| mark.event < event);
    let here = &marks[before..];
    let count = here.iter().take_while(|mark| mark.event == event).count();
    *marks = &here[count..];
    &here[..count]
}

/// How far into its metre's bar a bar begins: pickups and the second sides of split bars.
fn offset(tune: &Tune, at: usize) -> Length {
    let bar = &tune.bars[at];
    let Some(full) = bar.metre.bar_length() else { return Length::ZERO };
    let before = at.checked_sub(1).map(|b| &tune.bars[b]);
    let lacks = full.minus(bar.length).unwrap_or(Length::ZERO);
    match before {
        Some(before) if before.number == bar.number && before.length <= lacks => before.length,
        _ if bar.number == 0 => lacks,
        _ => Length::ZERO,
    }
}

fn kind(event: &Event, tune: &Tune, b: usize) -> Kind {
    match event.sound {
        Sound::Note(_) => Kind::Note,
        Sound::HiddenRest => Kind::Hidden,
        Sound::Rest => {
            let bar = &tune.bars[b];
            let alone = bar.end == bar.first + 1;
            let fills = bar.metre.bar_length().is_some_and(|full| full == event.length);
            if alone && fills { Kind::BarRest } else { Kind::Rest }
        }
    }
}

fn graces(note: &mut Note, marks: &[Mark], scope: &mut Scope, places: Places, key: &WrittenKey) {
    for mark in marks {
        let MarkKind::Grace { notes, slashed } = &mark.kind else { continue };
        note.graces_slashed |= *slashed;
        for &(pitch, _) in notes.iter().take(MOST_HEADS - note.graces.len().min(MOST_HEADS)) {
            let sign = scope.needs(pitch, key).then(|| accidental(pitch.spelling().alter));
            note.graces.push(Head { place: places.place(pitch), accidental: sign.flatten() });
        }
    }
}

fn heads(
    note: &mut Note,
    event: &Event,
    marks: &[Mark],
    scope: &mut Scope,
    places: Places,
    key: &WrittenKey,
    was_tied: Option<Pitch>,
) {
    let mut head = |pitch: Pitch| {
        // A tied note keeps what it has, and the bar learns nothing of it.
        let tied_on = was_tied == Some(pitch);
        let sign =
            (!tied_on && scope.needs(pitch, key)).then(|| accidental(pitch.spelling().alter));
        Head { place: places.place(pitch), accidental: sign.flatten() }
    };
    let Some(pitch) = event.sound.pitch() else { return };
    note.heads.push(head(pitch));
    for mark in marks {
        if let MarkKind::ChordNote(pitch) = mark.kind
            && note.heads.len() < MOST_HEADS
        {
            note.heads.push(head(pitch));
        }
    }
    note.heads.sort_unstable_by_key(|head| head.place);
    note.heads.dedup_by_key(|head| head.place);
}

/// Adds the values of a written length, tied to each other.
fn push(plan: &mut Plan, mut note: Note, written: Length, tied: bool) {
    let is_bar_rest = note.kind == Kind::BarRest;
    let parts = if is_bar_rest { vec![Value { power: 0, dots: 0 }] } else { values(written) };
    let sounding = note.kind == Kind::Note;
    let whole = note.length;
    for (i, &value) in parts.iter().enumerate() {
        let is_last = i + 1 == parts.len();
        note.is_first = i == 0;
        note.value = value;
        note.tied = if is_last { tied } else { sounding };
        let length = if parts.len() == 1 { whole } else { value.length() };
        note.length = length;
        plan.items.push(Item::Note(plan.notes.len()));
        plan.notes.push(note.clone());
        note.at = note.at.plus(length).unwrap_or(note.at);
        note.graces.clear();
        for head in &mut note.heads {
            head.accidental = None;
        }
    }
}

//! Pipes: one for each note of the tune, with its holes top to bottom, filled, half or open.

use super::PictureWords;
use super::drawing::{Anchor, Drawing, Part, Role, TuneNotes, usual};
use modewright_core::instrument::{Instrument, Playable, Register, Way};

const COLUMN: i32 = 48;
const ACROSS: usize = 12;
const HOLE: i32 = 19;
const BETWEEN: i32 = 8;

pub(super) fn draw(instrument: &Instrument, tune: &TuneNotes, words: &PictureWords) -> Drawing {
    let mut drawing = Drawing::default();
    let used: Vec<(&Playable, usize)> = instrument
        .notes()
        .iter()
        .filter(|note| tune.uses(note.written))
        .map(|note| (note, usual(&note.ways)))
        .collect();
    let groups: Vec<usize> =
        instrument.holes.iter().map(|group| usize::from(group.count)).collect();
    let holes: usize = groups.iter().sum();
    let shown =
        used.iter().any(|(note, way)| note.ways.get(*way).is_some_and(|w| !w.holes.is_empty()));
    let tall = if shown { span(holes) * HOLE + span(groups.len()) * BETWEEN } else { 34 };
    let mut y = 0;
    for line in used.chunks(ACROSS) {
        for (at, (note, way)) in line.iter().enumerate() {
            let x = span(at) * COLUMN + COLUMN / 2;
            let role = tune.role(note.written, &note.ways, *way);
            if let Some(way) = note.ways.get(*way) {
                pipe(&mut drawing, (x, y + 30), tall, way, &groups, words);
            }
            let role = if role == Role::Home { Role::Home } else { Role::Used };
            let name = tune.name(note.written);
            let y = y + 15;
            drawing.parts.push(Part::Note { x, y, width: COLUMN - 6, height: 24, name, role });
        }
        y += tall + 62;
    }
    drawing.fit(span(used.len().min(ACROSS)).max(1) * COLUMN, y.max(1))
}

fn pipe(
    drawing: &mut Drawing,
    (x, y): (i32, i32),
    tall: i32,
    way: &Way,
    groups: &[usize],
    words: &PictureWords,
) {
    let frame =
        |width| Part::Frame { x: x - width / 2, y, width, height: tall, round: 9, dark: false };
    if way.holes.is_empty() {
        let closed = way.closed.unwrap_or(0);
        drawing.parts.push(frame(COLUMN - 8));
        drawing.words(x, y + tall / 2 + 5, closed.to_string(), Anchor::Middle);
        return;
    }
    drawing.parts.push(frame(24));
    let mut at = 0;
    let mut top = y + BETWEEN / 2;
    for group in groups {
        for hole in way.holes.iter().skip(at).take(*group) {
            drawing.parts.push(Part::Hole { x, y: top + HOLE / 2, hole: *hole });
            top += HOLE;
        }
        at += group;
        top += BETWEEN;
    }
    let blown = match way.register {
        Some(Register::High) => &words.high,
        Some(Register::Third) => &words.third,
        _ => return,
    };
    drawing.words(x, y + tall + 18, &**blown, Anchor::Middle);
}

fn span(count: usize) -> i32 {
    i32::try_from(count).unwrap_or(i32::MAX / 1000)
}

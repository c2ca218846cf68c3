//! Pipes: one for each way in which a note of the tune is played, with its holes top to bottom,
//! filled, half or open.

use super::drawing::{Anchor, Asked, Drawing, Part, Role, units};
use modewright_core::instrument::{Instrument, Playable, Register, Way};
use modewright_lesson::words::PictureSign;

const COLUMN: i32 = 48;
/// The most pipes side by side; more are spread evenly over lines.
const ACROSS: usize = 14;
const HOLE: i32 = 19;
const BETWEEN: i32 = 8;

pub(super) fn draw(instrument: &Instrument, asked: &Asked<'_>) -> Drawing {
    let mut drawing = Drawing::default();
    let of = |note: &'_ Playable| -> Vec<usize> {
        if asked.is_nothing() {
            return vec![0];
        }
        let ways = note.ways.iter().enumerate();
        let used = ways.filter(|(_, way)| matches!(asked.role(note, way), Role::Home | Role::Used));
        used.map(|(at, _)| at).collect()
    };
    let pipes: Vec<(&Playable, &Way)> = instrument
        .notes()
        .iter()
        .flat_map(|note| {
            of(note).into_iter().filter_map(move |at| Some((note, note.ways.get(at)?)))
        })
        .collect();
    let groups: Vec<usize> =
        instrument.holes.iter().map(|group| usize::from(group.count)).collect();
    let with_holes = pipes.iter().any(|(_, way)| !way.holes.is_empty());
    let holes: usize = groups.iter().sum();
    let tall = if with_holes { units(holes) * HOLE + units(groups.len()) * BETWEEN } else { 34 };
    let blown = pipes.iter().any(|(_, way)| plus(way).is_some());
    let lines = pipes.len().div_ceil(ACROSS).max(1);
    let across = pipes.len().div_ceil(lines).max(1);
    let mut y = 0;
    for line in pipes.chunks(across) {
        for (at, (note, way)) in line.iter().enumerate() {
            let x = units(at) * COLUMN + COLUMN / 2;
            pipe(&mut drawing, (x, y + 32), tall, way, &groups);
            let name = asked.name(note.written);
            drawing.spot((x, y + 16), (COLUMN - 6, 24), name, asked.role(note, way));
        }
        y += tall + 44 + if blown { 18 } else { 0 };
    }
    drawing.fit(units(across) * COLUMN, (y - 8).max(1))
}

fn pipe(drawing: &mut Drawing, (x, y): (i32, i32), tall: i32, way: &Way, groups: &[usize]) {
    let frame =
        |width| Part::Frame { at: (x - width / 2, y), size: (width, tall), round: 9, dark: false };
    if way.holes.is_empty() {
        drawing.parts.push(frame(COLUMN - 8));
        let (text, sign) = match way.closed {
            Some(closed) => (closed.to_string(), PictureSign::Closed),
            None => ("?".to_owned(), PictureSign::Unsure),
        };
        drawing.signs.insert(sign);
        drawing.words((x, y + tall / 2 + 5), text, Anchor::Middle);
        return;
    }
    drawing.parts.push(frame(24));
    let mut holes = way.holes.iter();
    let mut top = y + BETWEEN / 2;
    for group in groups {
        for hole in holes.by_ref().take(*group) {
            drawing.parts.push(Part::Hole { at: (x, top + HOLE / 2), hole: *hole });
            top += HOLE;
        }
        top += BETWEEN;
    }
    if let Some((text, sign)) = plus(way) {
        drawing.signs.insert(sign);
        drawing.words((x, y + tall + 16), text, Anchor::Middle);
    }
}

const fn plus(way: &Way) -> Option<(&'static str, PictureSign)> {
    match way.register {
        Some(Register::High) => Some(("+", PictureSign::Upper)),
        Some(Register::Third) => Some(("++", PictureSign::Third)),
        _ => None,
    }
}

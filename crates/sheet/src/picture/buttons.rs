//! Buttons by hand and row, the lowest on the left; push above, draw below. The holes of a
//! harmonica are one such row, with bent notes beyond the two.

use super::drawing::{Anchor, Asked, Drawing, Role, units};
use modewright_core::instrument::{Direction, Hand, Instrument, Playable, RowName, Way};
use modewright_lesson::words::{self, PictureSign};

const WIDTH: i32 = 46;
const HEIGHT: i32 = 26;
const GAP: i32 = 10;
/// About the width of a letter.
const LETTER: i32 = 9;

pub(super) fn draw(instrument: &Instrument, asked: &Asked<'_>) -> Drawing {
    let mut drawing = Drawing::default();
    let all = || {
        let ways = |note: &'_ Playable| note.ways.len();
        let places = instrument.notes().iter().map(move |note| (note, ways(note)));
        places.flat_map(|(note, count)| {
            (0..count).filter_map(move |at| Some((note, note.ways.get(at)?)))
        })
    };
    if all().any(|(_, way)| way.direction.is_some()) {
        drawing.signs.insert(PictureSign::Turn);
    }
    let rows = all().filter_map(|(_, way)| way.row).max().unwrap_or(0);
    let names: Vec<String> = (0..=rows).map(|row| name(instrument, row)).collect();
    let longest = names.iter().map(|name| name.chars().count()).max().unwrap_or(0);
    let left = if longest == 0 { 0 } else { units(longest) * LETTER + 10 };
    let least = instrument.rows.iter().map(|row| i32::from(row.offset)).min().unwrap_or(0).min(0);
    let (mut y, mut widest) = (6, 0);
    for hand in [Some(Hand::Left), Some(Hand::Right), None] {
        let of_hand = || all().filter(move |(_, way)| way.hand == hand && way.button.is_some());
        if of_hand().next().is_none() {
            continue;
        }
        if let Some(hand) = hand {
            drawing.words((0, y + 16), words::hand(hand), Anchor::Start);
            y += 28;
        }
        for (row, name) in (0..=rows).zip(&names) {
            // What is bent is shown where the tune needs it.
            let shown = |note: &Playable, way: &Way| {
                way.bend == 0 || matches!(asked.role(note, way), Role::Home | Role::Used)
            };
            let of_row: Vec<(&Playable, &Way)> = of_hand()
                .filter(|(note, way)| way.row.unwrap_or(0) == row && shown(note, way))
                .collect();
            if of_row.is_empty() {
                continue;
            }
            let bent = |direction: Direction| {
                let ways = of_row.iter().filter(|(_, way)| way.direction == Some(direction));
                ways.map(|(_, way)| i32::from(way.bend)).max().unwrap_or(0)
            };
            let above = bent(Direction::Push);
            let turns = of_row.iter().any(|(_, way)| way.direction.is_some());
            let lines = above + if turns { 2 + bent(Direction::Draw) } else { 1 };
            let middle = y + if turns { (above + 1) * HEIGHT } else { HEIGHT / 2 };
            drawing.words((0, middle + 5), name.clone(), Anchor::Start);
            let offset =
                instrument.rows.get(usize::from(row)).map_or(0, |row| i32::from(row.offset));
            for (note, way) in of_row {
                if way.bend > 0 {
                    drawing.signs.insert(PictureSign::Bent);
                }
                let bend = i32::from(way.bend);
                let line = match way.direction {
                    Some(Direction::Draw) => above + 1 + bend,
                    _ => above - bend,
                };
                let button = i32::from(way.button.unwrap_or(1));
                let x = left + (offset - least) * WIDTH / 2 + (button - 1) * WIDTH + WIDTH / 2;
                let at = (x, y + line * HEIGHT + HEIGHT / 2);
                let name = asked.name(note.written);
                drawing.spot(at, (WIDTH - 4, HEIGHT - 2), name, asked.role(note, way));
                widest = widest.max(x + WIDTH / 2);
            }
            y += lines * HEIGHT + GAP;
        }
        y += GAP;
    }
    drawing.fit(widest + 4, y - GAP)
}

/// The name of a row; a single row needs none.
fn name(instrument: &Instrument, row: u8) -> String {
    match instrument.rows.get(usize::from(row)).map(|row| &row.name) {
        _ if instrument.rows.len() < 2 => String::new(),
        Some(RowName::Key(key)) => format!("{} row", words::note(*key)),
        Some(RowName::Place(place)) => format!("{place} row"),
        None => String::new(),
    }
}

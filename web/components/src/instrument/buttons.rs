//! Buttons by hand and row, the lowest on the left; push above, draw below. The holes of a
//! harmonica are one such row.

use super::PictureWords;
use super::drawing::{Anchor, Drawing, Part, TuneNotes};
use modewright_core::instrument::{Direction, Hand, Instrument};

const WIDTH: i32 = 46;
const HEIGHT: i32 = 26;
const LEFT: i32 = 76;
const GAP: i32 = 10;

pub(super) fn draw(instrument: &Instrument, tune: &TuneNotes, words: &PictureWords) -> Drawing {
    let mut drawing = Drawing::default();
    let ways = || {
        instrument
            .notes()
            .iter()
            .flat_map(|note| note.ways.iter().enumerate().map(move |(at, way)| (note, at, way)))
    };
    let turns = ways().any(|(_, _, way)| way.direction.is_some());
    let rows = ways().filter_map(|(_, _, way)| way.row).max().unwrap_or(0);
    let mut y = 6;
    let mut widest = 0;
    for hand in [Some(Hand::Left), Some(Hand::Right), None] {
        let of_hand = || ways().filter(move |(_, _, way)| way.hand == hand && way.button.is_some());
        if of_hand().next().is_none() {
            continue;
        }
        if let Some(hand) = hand {
            let name = if hand == Hand::Left { &words.left } else { &words.right };
            drawing.words(0, y + 18, &**name, Anchor::Start);
            y += 28;
        }
        for row in 0..=rows {
            let of_row = || of_hand().filter(move |(_, _, way)| way.row.unwrap_or(0) == row);
            if of_row().next().is_none() {
                continue;
            }
            let named = instrument.rows.get(usize::from(row));
            if let Some(named) = named {
                let name = words.row(&named.name.to_string());
                drawing.words(
                    0,
                    y + if turns { HEIGHT + 5 } else { HEIGHT / 2 + 5 },
                    name,
                    Anchor::Start,
                );
            }
            let shift = named.map_or(0, |row| i32::from(row.offset) * WIDTH / 2);
            let least = instrument.rows.iter().map(|row| i32::from(row.offset)).min().unwrap_or(0);
            let shift = shift - least.min(0) * WIDTH / 2;
            for (note, at, way) in of_row() {
                let button = i32::from(way.button.unwrap_or(1));
                let role = tune.role(note.written, &note.ways, at);
                // What is bent is shown where the tune needs it.
                if way.bend > 0 {
                    continue;
                }
                let x = LEFT + shift + (button - 1) * WIDTH + WIDTH / 2;
                let down = if way.direction == Some(Direction::Draw) { HEIGHT } else { 0 };
                drawing.parts.push(Part::Note {
                    x,
                    y: y + down + HEIGHT / 2,
                    width: WIDTH - 4,
                    height: HEIGHT - 2,
                    name: tune.name(note.written),
                    role,
                });
                widest = widest.max(x + WIDTH / 2);
            }
            y += GAP + if turns { 2 * HEIGHT } else { HEIGHT };
        }
        y += GAP;
    }
    drawing.fit(widest + 4, y)
}

//! The rows under a system.

use crate::column::head_width;
use crate::fill::Join;
use crate::ink::{Ink, Owner};
use crate::row::text_ascent;
use crate::size::ROW_TEXT;
use crate::system::System;

/// From the music to the first row, and from row to row.
const ABOVE: i32 = 700;
const BETWEEN: i32 = 300;
const HYPHEN: i32 = 500;
const LINE: i32 = 110;

impl System<'_> {
    pub(crate) fn draw_rows(&mut self) {
        let filled = self.layout.filled;
        let firsts = self.firsts();
        let mut top = self.under.extreme() + ABOVE;
        for (row, cells) in filled.cells.iter().enumerate() {
            let here: Vec<_> = firsts
                .iter()
                .filter_map(|&(n, event, middle)| Some((n, event, middle, cells.get(event)?)))
                .collect();
            if here.iter().all(|(.., cell)| cell.is_none()) {
                continue;
            }
            let extents =
                here.iter().filter_map(|(.., cell)| cell.as_ref().map(crate::row::Drawn::extent));
            let (mut height, mut depth) = (text_ascent(), ROW_TEXT / 4);
            // Holes hang from the line; letters stand on it.
            for (up, down) in extents {
                (height, depth) = (height.max(up), depth.max(down));
            }
            let y = top + height;
            let label = &filled.labels[row];
            for ink in label.inks(0, y) {
                self.put(Owner::RowLabel(row), ink);
            }
            let mut last: Option<(usize, i32)> = None;
            for &(n, event, middle, cell) in &here {
                let join = filled.joins[row].get(event).copied().unwrap_or_default();
                if let Some(cell) = cell {
                    let (before, after) = cell.reach();
                    let left = middle - before;
                    self.hyphen(row, last.take(), left, y);
                    for ink in cell.inks(middle, y) {
                        self.put(Owner::Cell(row, event), ink);
                    }
                    last = (join == Join::Hyphen).then_some((event, middle + after));
                }
                if join == Join::Held {
                    let from = self.held_from(row, &here, event).unwrap_or(label.width + 400);
                    let right = self.x(n).unwrap_or(0) + head_width(self.note(n));
                    if right - from > 300 {
                        let ink = Ink::Rect { at: (from, y), size: (right - from, LINE) };
                        self.put(Owner::Cell(row, event), ink);
                    }
                }
            }
            let edge = self.placed.width;
            self.hyphen(row, last, edge, y);
            top = y + depth + BETWEEN;
        }
        self.under.add(0, self.placed.width, top - BETWEEN);
    }

    /// The end of the text, or of the line, before a held note.
    fn held_from(
        &self,
        row: usize,
        here: &[(usize, usize, i32, &Option<crate::row::Drawn>)],
        event: usize,
    ) -> Option<i32> {
        let at = here.iter().position(|&(_, e, ..)| e == event)?;
        let &(n, before, middle, cell) = here.get(at.checked_sub(1)?)?;
        if let Some(cell) = cell {
            return Some(middle + cell.reach().1 + 200);
        }
        let held = self.layout.filled.joins[row].get(before) == Some(&Join::Held);
        held.then(|| self.x(n).unwrap_or(0) + head_width(self.note(n)))
    }

    /// A hyphen in the middle of the gap between two syllables, where there is room for it.
    fn hyphen(&mut self, row: usize, from: Option<(usize, i32)>, to: i32, y: i32) {
        let Some((event, from)) = from else { return };
        let width = HYPHEN.min(to - from - 120);
        if width >= 200 {
            let at = (i32::midpoint(from, to) - width / 2, y - ROW_TEXT * 28 / 100);
            self.put(Owner::Cell(row, event), Ink::Rect { at, size: (width, LINE) });
        }
    }
}

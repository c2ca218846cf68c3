//! Ties and slurs.

use crate::column::head_width;
use crate::ink::{Ink, Owner, Point};
use crate::plan::Kind;
use crate::size::BOW_MIDDLE;
use crate::stem::{has_stem, y_of};
use crate::system::System;

impl System<'_> {
    /// Ties lie on the side of the heads, those of a chord parted in the middle.
    pub(crate) fn draw_ties(&mut self) {
        let (from, end) = (self.notes.start, self.notes.end);
        for n in from.saturating_sub(1)..end {
            let note = self.note(n);
            if !note.tied || note.kind != Kind::Note {
                continue;
            }
            let Some(next) = self.layout.plan.notes.get(n + 1) else { continue };
            let owner = Owner::Span(note.event, next.event);
            let dots = crate::column::dots_width(note);
            let left = self.x(n).map_or_else(
                || self.comes_in(self.x(n + 1).unwrap_or(0) - 2200),
                |x| x + head_width(note) + dots + 100,
            );
            let right = self.x(n + 1).map_or(self.placed.width - 150, |x| x - 100);
            if right - left < 400 {
                continue;
            }
            let count = note.heads.len();
            for (i, head) in note.heads.iter().enumerate() {
                if !next.heads.iter().any(|h| h.place == head.place) {
                    continue;
                }
                let over =
                    if count == 1 { !(self.up[n] && has_stem(note)) } else { i * 2 >= count };
                // Off the lines of the stave.
                let y = y_of(head.place) + if over { -250 } else { 250 };
                let height = ((right - left) / 6).clamp(350, 900);
                self.bow(owner, (left, y), (right, y), height, over);
            }
        }
    }

    /// Slurs lie on the side of the heads; over the stave where stems point both ways.
    pub(crate) fn draw_slurs(&mut self) {
        let (from, end) = (self.notes.start, self.notes.end);
        let slurs: Vec<(usize, usize)> = self
            .layout
            .plan
            .slurs
            .iter()
            .copied()
            .filter(|&(first, last)| last >= from && first < end)
            .collect();
        for (first, last) in slurs {
            let owner = Owner::Span(self.note(first).event, self.note(last).event);
            let inside = first.max(from)..last.min(end - 1) + 1;
            let over = !inside.clone().all(|n| self.up[n] && self.note(n).kind == Kind::Note);
            let left = self.bow_end(first, over, true);
            let right = self.bow_end(last, over, false);
            let (left, right) = match (left, right) {
                (Some(left), Some(right)) => (left, right),
                (Some(left), None) => (left, (self.placed.width - 150, left.1)),
                (None, Some(right)) => ((self.comes_in(self.note_x[0] - 1500), right.1), right),
                (None, None) => {
                    let y = if over { -1000 } else { 5000 };
                    ((self.comes_in(self.note_x[0] - 1500), y), (self.placed.width - 150, y))
                }
            };
            if right.0 - left.0 > 600 {
                self.slur(owner, left, right, over);
            }
        }
    }

    /// Where a bow begins that comes from the system before: clear of clef and signature.
    fn comes_in(&self, x: i32) -> i32 {
        self.bars.first().map_or(x, |first| x.max(first.left - 350))
    }

    /// Where a slur meets a note.
    fn bow_end(&self, n: usize, over: bool, begins: bool) -> Option<Point> {
        let x = self.x(n)?;
        let note = self.note(n);
        let middle = x + head_width(note) / 2;
        let ink = |left: i32, right: i32| {
            if over { self.over_near(n, left, right) } else { self.under_near(n, left, right) }
        };
        let (left, right) = if begins { (middle, middle + 200) } else { (middle - 200, middle) };
        let y = ink(left, right);
        Some((middle, if over { y - 450 } else { y + 450 }))
    }

    fn over_near(&self, n: usize, left: i32, right: i32) -> i32 {
        let head = self.note(n).heads.last().map_or(2000, |h| y_of(h.place) - 500);
        let edge = self.over.edge(left, right);
        // The stave itself is no obstacle to a bow at a low head.
        if edge >= 0 { head.min(2000) } else { edge.min(head) }
    }

    fn under_near(&self, n: usize, left: i32, right: i32) -> i32 {
        let head = self.note(n).heads.first().map_or(2000, |h| y_of(h.place) + 500);
        let edge = self.under.edge(left, right);
        if edge <= 4000 { head.max(2000) } else { edge.max(head) }
    }

    /// A slur that clears what lies between its ends.
    fn slur(&mut self, owner: Owner, from: Point, to: Point, over: bool) {
        let length = i64::from(to.0 - from.0);
        let mut height = i64::from(((to.0 - from.0) / 7).clamp(700, 2500));
        let line = if over { &self.over } else { &self.under };
        for (x, edge) in line.along(from.0, to.0) {
            let along = i64::from(x - from.0).clamp(0, length);
            let base = i64::from(from.1) + i64::from(to.1 - from.1) * along / length;
            let lacks = if over { base - i64::from(edge) } else { i64::from(edge) - base } + 300;
            // What a curve with both controls at a height of 4/3 reaches: 4 t (1 − t) of it.
            let reach = 4 * along * (length - along) * 1000 / (length * length);
            let inside = along > 700 && length - along > 700;
            // Only what sticks out of the stave counts: its lines are crossed.
            let sticks_out = if over { edge < 0 } else { edge > 4000 };
            if inside && sticks_out && lacks > 0 {
                height = height.max(lacks * 1000 / reach.max(250));
            }
        }
        let height = i32::try_from(height.min(6000)).unwrap_or(6000);
        self.bow(owner, from, to, height, over);
    }

    /// A bow that is thin at its ends, `height` over (under) the line between them.
    fn bow(&mut self, owner: Owner, from: Point, to: Point, height: i32, over: bool) {
        let side = if over { -1 } else { 1 };
        let reach = height * 4 / 3 * side;
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let control =
            |part: i32, reach: i32| (from.0 + dx * part / 100, from.1 + dy * part / 100 + reach);
        let thick = BOW_MIDDLE * 4 / 3 * side;
        let outer = [control(25, reach), control(75, reach)];
        let inner = [control(75, reach - thick), control(25, reach - thick)];
        let ink = Ink::Bow { from, outer, to, inner };
        // What the curve truly covers, in eight steps: its corners lie beyond it.
        for step in 0..8 {
            let (a, b) = (from.0 + dx * step / 8, from.0 + dx * (step + 1) / 8);
            // The farther of the two ends of the step, in hundredths of the height.
            let part = [44, 75, 94, 100, 100, 94, 75, 44][usize::try_from(step).unwrap_or(0)];
            let (y0, y1) = (from.1 + dy * step / 8, from.1 + dy * (step + 1) / 8);
            let reach = height * part / 100 + 100;
            if over {
                self.over.add(a, b, y0.min(y1) - reach);
            } else {
                self.under.add(a, b, y0.max(y1) + reach);
            }
        }
        self.put(owner, ink);
    }
}

//! Drawing beams, and the stems that they join.

use crate::beam::Group;
use crate::ink::{Ink, Owner};
use crate::size::{BEAM, BEAM_GAP, STEM, int};
use crate::stem::{self, Slope};
use crate::system::System;

/// How long a beam is that joins no other note.
const SHORT: i32 = 1100;

impl System<'_> {
    pub(crate) fn draw_beams(&mut self) {
        let groups: Vec<Group> = self.groups().filter(|group| group.last > group.first).collect();
        for group in groups {
            self.draw_beam(group);
        }
    }

    fn draw_beam(&mut self, group: Group) {
        let notes = &self.layout.plan.notes[group.first..=group.last];
        let up = self.up[group.first];
        let xs: Vec<i32> = (group.first..=group.last).filter_map(|n| self.x(n)).collect();
        let stems: Vec<i32> = (group.first..).zip(&xs).map(|(n, &x)| self.stem_x(n, x)).collect();
        if stems.len() != notes.len() {
            return;
        }
        let slope = stem::slope(notes, &stems, up);
        for (i, n) in (group.first..=group.last).enumerate() {
            self.stem(n, self.note(n), xs[i], slope.at(stems[i]));
        }
        let owner = Owner::Span(notes[0].event, notes[notes.len() - 1].event);
        let most = notes.iter().map(|note| note.value.flags()).max().unwrap_or(0);
        for level in 0..most {
            for (from, to) in stem::runs(notes, level) {
                let (left, right) = if from < to {
                    (stems[from], stems[to] + STEM)
                } else if stem::points_right(notes, from, level) {
                    let room = stems.get(from + 1).map_or(SHORT, |next| (next - stems[from]) / 2);
                    (stems[from], stems[from] + SHORT.min(room))
                } else {
                    let room = (stems[from] - stems[from.saturating_sub(1)]) / 2;
                    (stems[from] + STEM - SHORT.min(room), stems[from] + STEM)
                };
                self.beam(owner, slope, level, up, (left, right));
            }
        }
    }

    fn beam(&mut self, owner: Owner, slope: Slope, level: u8, up: bool, (left, right): (i32, i32)) {
        let step = int(usize::from(level)) * (BEAM + BEAM_GAP);
        let (near, far) = if up { (step, step + BEAM) } else { (-step - BEAM, -step) };
        let corner = |x: i32, dy: i32| (x, slope.at(x) + dy);
        let corners = [(left, near), (right, near), (right, far), (left, far)];
        let corners: Vec<_> = corners.into_iter().map(|(x, dy)| corner(x, dy)).collect();
        self.put_solid(owner, Ink::Polygon(corners));
    }
}

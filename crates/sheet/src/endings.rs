//! Brackets over first and second endings, and how often a repeat is played.

use crate::ink::{Ink, Owner};
use crate::rich::Rich;
use crate::size::{BRACKET, SMALL_TEXT};
use crate::system::System;
use modewright_core::Tune;
use modewright_core::tune::Passes;
use modewright_glyphs::text::Face;

/// An ending: its bars, and whether its bracket is closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Ending {
    first: usize,
    last: usize,
    passes: Passes,
    is_closed: bool,
}

/// The endings of a tune. One goes on to the next line that ends a strain, or to the next ending.
pub(crate) fn endings(tune: &Tune) -> Vec<Ending> {
    let mut endings: Vec<Ending> = Vec::new();
    let mut open: Option<Ending> = None;
    for (b, bar) in tune.bars.iter().enumerate() {
        if let Some(passes) = bar.ending {
            endings.extend(open.take());
            open = Some(Ending { first: b, last: b, passes, is_closed: false });
        }
        let Some(ending) = &mut open else { continue };
        ending.last = b;
        if bar.close.ends_strain() {
            ending.is_closed = true;
            endings.extend(open.take());
        }
    }
    endings.extend(open);
    endings
}

/// The passes as they are printed: `1`, `1, 3`, `1–3`.
fn told(passes: Passes) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for pass in (1..=Passes::MAX).filter(|&pass| passes.contains(pass)) {
        match runs.last_mut() {
            Some(run) if run.1 + 1 == pass => run.1 = pass,
            _ => runs.push((pass, pass)),
        }
    }
    let run = |&(from, to): &(u32, u32)| match to - from {
        0 => from.to_string(),
        1 => format!("{from}, {to}"),
        _ => format!("{from}–{to}"),
    };
    runs.iter().map(run).collect::<Vec<_>>().join(", ")
}

impl System<'_> {
    pub(crate) fn draw_endings(&mut self) {
        let (Some(first), Some(last)) = (self.bars.first().copied(), self.bars.last().copied())
        else {
            return;
        };
        let here = |ending: &&Ending| ending.last >= first.bar && ending.first <= last.bar;
        let endings: Vec<Ending> = self.endings.iter().filter(here).copied().collect();
        // All on one height.
        let mut drawn = Vec::new();
        for ending in endings {
            let begins = self.bars.iter().find(|place| place.bar == ending.first);
            let ends = self.bars.iter().find(|place| place.bar == ending.last && place.is_whole);
            let left = begins
                .map_or(first.left.min(self.note_x.first().copied().unwrap_or(0)), |p| p.left);
            let right = ends.map_or(self.placed.width, |place| place.right);
            drawn.push((ending, left + 150, right - 100, begins.is_some(), ends.is_some()));
        }
        let edge = drawn.iter().map(|&(_, left, right, ..)| self.over.edge(left, right)).min();
        let y = edge.unwrap_or(0).min(-300) - 2100;
        for (ending, left, right, begins, ends) in drawn {
            let line = |x: i32| Ink::Rect { at: (x, y), size: (BRACKET, 1900) };
            self.put_solid(
                Owner::Above,
                Ink::Rect { at: (left, y), size: (right - left, BRACKET) },
            );
            if begins {
                self.put_solid(Owner::Above, line(left));
                let rich = Rich::new(&told(ending.passes), Face::Regular, SMALL_TEXT);
                self.draw_rich(Owner::Above, &rich, left + 500, y + 1600);
            }
            if ends && ending.is_closed {
                self.put_solid(Owner::Above, line(right - BRACKET));
            }
        }
        self.draw_counts();
    }

    /// Over a repeat that is played more than twice: how often.
    fn draw_counts(&mut self) {
        for place in self.bars.clone() {
            let times = self.layout.tune.bars[place.bar].close.repeat_back;
            if times > 1 && place.is_whole {
                let rich =
                    Rich::new(&format!("{}×", u32::from(times) + 1), Face::Regular, SMALL_TEXT);
                self.words_over(Owner::Above, &rich, place.right - rich.width);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn passes_are_told_shortly() {
        for (passes, wanted) in [
            (&[1][..], "1"),
            (&[1, 2], "1, 2"),
            (&[1, 2, 3], "1–3"),
            (&[1, 3, 5, 6, 7], "1, 3, 5–7"),
        ] {
            let set = passes.iter().fold(Passes::default(), |set, &pass| set.with(pass));
            assert_eq!(told(set), wanted);
        }
        assert_eq!(told(Passes::default()), "");
    }
}

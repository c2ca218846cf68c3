//! Numbers and brackets of tuplets.

use crate::column::head_width;
use crate::ink::{Ink, Owner};
use crate::plan::Tuplet;
use crate::size::{BRACKET, STEM};
use crate::system::System;
use modewright_glyphs::Glyph;

/// Height of the hooks of a bracket.
const HOOK: i32 = 700;

impl System<'_> {
    pub(crate) fn draw_tuplets(&mut self) {
        let (from, end) = (self.notes.start, self.notes.end);
        let tuplets = &self.layout.plan.tuplets;
        let start = tuplets.partition_point(|tuplet| tuplet.last < from);
        for tuplet in tuplets[start..].iter().take_while(|tuplet| tuplet.first < end) {
            let inside =
                Tuplet { first: tuplet.first.max(from), last: tuplet.last.min(end - 1), ..*tuplet };
            self.draw_tuplet(inside);
        }
    }

    fn draw_tuplet(&mut self, tuplet: Tuplet) {
        let (Some(left), Some(right)) = (self.x(tuplet.first), self.x(tuplet.last)) else { return };
        let owner = Owner::Span(self.note(tuplet.first).event, self.note(tuplet.last).event);
        let right = right + head_width(self.note(tuplet.last));
        let beamed = self.groups().any(|g| g.first == tuplet.first && g.last == tuplet.last);
        let figures = figures(tuplet.number);
        let width: i32 = figures.iter().map(|glyph| glyph.width()).sum();
        let up = self.up[tuplet.first];
        if beamed {
            let (a, b) = if up {
                (left + head_width(self.note(tuplet.first)), right)
            } else {
                (left, right - head_width(self.note(tuplet.last)) + STEM)
            };
            let x = (a + b) / 2 - width / 2;
            let y = if up {
                self.over.edge(x - 200, x + width + 200) - 250
            } else {
                self.under.edge(x - 200, x + width + 200) + 250 + 1400
            };
            // Outside the stave, where nothing crosses the number.
            let y = if up { y.min(-250) } else { y.max(4000 + 1650) };
            self.number(owner, &figures, x, y);
            return;
        }
        let y = self.over.edge(left - 100, right + 100).min(0) - 600;
        let middle = i32::midpoint(left, right);
        let gap = width / 2 + 250;
        for (a, b) in [(left, middle - gap), (middle + gap, right)] {
            if b > a {
                self.put_solid(
                    owner,
                    Ink::Rect { at: (a, y - BRACKET / 2), size: (b - a, BRACKET) },
                );
            }
        }
        for x in [left, right - BRACKET] {
            let at = (x, y - BRACKET / 2);
            self.put_solid(owner, Ink::Rect { at, size: (BRACKET, HOOK.min(450)) });
        }
        self.number(owner, &figures, middle - width / 2, y + 650);
    }

    /// A number from its left edge, on its line.
    fn number(&mut self, owner: Owner, figures: &[Glyph], mut x: i32, y: i32) {
        for &glyph in figures {
            let left = glyph.outline().bounds[0];
            self.put_solid(owner, Ink::Glyph { glyph, at: (x - left, y), size: 1000 });
            x += glyph.width();
        }
    }
}

fn figures(number: u8) -> Vec<Glyph> {
    let text = number.to_string();
    text.chars().filter_map(|c| c.to_digit(10)).map(Glyph::tuplet_figure).collect()
}

//! Notes and rests: heads, ledger lines, accidentals, dots, stems, flags, grace notes.

use crate::column::{self, accidentals, flag_glyph, head_glyph, head_width, rest_glyph};
use crate::ink::{Ink, Owner};
use crate::plan::{Head, Kind, Note};
use crate::size::{DOT_GAP, GRACE, LEDGER_LINE, LEDGER_OUT, STEM};
use crate::stem::{self, y_of};
use crate::system::System;
use modewright_glyphs::Glyph;

impl System<'_> {
    pub(crate) fn draw_notes(&mut self) {
        let mut beamed = vec![false; self.notes.len()];
        for group in self.groups() {
            if group.last > group.first {
                let from = self.notes.start;
                beamed[group.first - from..=group.last - from].fill(true);
            }
        }
        for n in self.notes.clone() {
            let Some(x) = self.x(n) else { continue };
            let note = self.note(n);
            match note.kind {
                Kind::Note => {
                    let is_beamed = beamed[n - self.notes.start];
                    self.draw_note(n, note, x, is_beamed);
                }
                Kind::Rest => self.draw_rest(note, x),
                Kind::BarRest => {
                    let x = self.bar_middle(note.bar).map_or(x, |m| m - head_width(note) / 2);
                    self.draw_rest(note, x);
                }
                Kind::Hidden => {}
            }
            self.draw_graces(note, x);
        }
    }

    /// The middle of a bar that stands whole in the system.
    pub(crate) fn bar_middle(&self, bar: usize) -> Option<i32> {
        let at = self.bars.binary_search_by_key(&bar, |place| place.bar).ok()?;
        let place = self.bars[at];
        place.is_whole.then_some((place.left + place.line) / 2)
    }

    fn draw_rest(&mut self, note: &Note, x: i32) {
        let (glyph, y) = rest_glyph(note.value.power);
        let owner = Owner::Note(note.event);
        let left = glyph.outline().bounds[0];
        self.put_solid(owner, Ink::Glyph { glyph, at: (x - left, y), size: 1000 });
        if note.kind == Kind::Rest {
            self.dots(note, x + glyph.width(), &[1500]);
        }
    }

    fn dots(&mut self, note: &Note, mut x: i32, ys: &[i32]) {
        for _ in 0..note.value.dots {
            x += DOT_GAP;
            for &y in ys {
                let at = (x, y);
                self.put_solid(
                    Owner::Note(note.event),
                    Ink::Glyph { glyph: Glyph::Dot, at, size: 1000 },
                );
            }
            x += Glyph::Dot.width();
        }
    }

    fn draw_note(&mut self, n: usize, note: &Note, x: i32, is_beamed: bool) {
        let owner = Owner::Note(note.event);
        let up = self.up[n];
        let glyph = head_glyph(note.value.power);
        let width = glyph.width();
        let moved = stem::displaced(note, up);
        let to_right = up || !note.value.has_stem();
        let head_x = |i: usize| match moved[i] {
            true if to_right => x + width - STEM,
            true => x - width + STEM,
            false => x,
        };
        self.ledgers(owner, &note.heads, x, width, 1000);
        for (i, head) in note.heads.iter().enumerate() {
            let left = glyph.outline().bounds[0];
            let at = (head_x(i) - left, y_of(head.place));
            self.put_solid(owner, Ink::Glyph { glyph, at, size: 1000 });
        }
        let (moved_left, moved_right) = column::displacement(note, up);
        let leftmost = x - if moved_left { width - STEM } else { 0 };
        self.signs_before(owner, &note.heads, leftmost, 1000);
        let mut right = x + width + if moved_right { width - STEM } else { 0 };
        if stem::has_stem(note) && !is_beamed {
            let end = stem::end(note, up);
            self.stem(n, note, x, end);
            if note.value.flags() > 0 {
                let glyph = flag_glyph(note.value.flags(), up);
                let at = (self.stem_x(n, x), end);
                self.put_solid(owner, Ink::Glyph { glyph, at, size: 1000 });
                if up {
                    right = right.max(x + width + glyph.width() - STEM);
                }
            }
        }
        if note.value.dots > 0 {
            let mut ys: Vec<i32> = Vec::with_capacity(note.heads.len());
            for head in &note.heads {
                // In the space, or in the one over the line.
                let place = head.place + (head.place + 1).rem_euclid(2);
                let y = y_of(place);
                if !ys.contains(&y) {
                    ys.push(y);
                }
            }
            self.dots(note, right, &ys);
        }
    }

    /// The left edge of a note's stem.
    pub(crate) fn stem_x(&self, n: usize, x: i32) -> i32 {
        if self.up[n] { x + head_width(self.note(n)) - STEM } else { x }
    }

    /// Draws a stem to its end and notes the end.
    pub(crate) fn stem(&mut self, n: usize, note: &Note, x: i32, end: i32) {
        let (Some(low), Some(high)) = (note.heads.first(), note.heads.last()) else { return };
        let up = self.up[n];
        let outline = head_glyph(note.value.power).outline();
        let side = if up { outline.stem_up } else { outline.stem_down };
        let dy = side.map_or(0, |(_, dy)| dy);
        let from = y_of(if up { low.place } else { high.place }) + dy;
        let (top, bottom) = (from.min(end), from.max(end));
        let at = (self.stem_x(n, x), top);
        self.put_solid(Owner::Note(note.event), Ink::Rect { at, size: (STEM, bottom - top) });
        self.stem_end[n - self.notes.start] = end;
    }

    fn signs_before(&mut self, owner: Owner, heads: &[Head], x: i32, size: i32) {
        let (signs, _) = accidentals(heads, size);
        for (head, sign) in heads.iter().zip(signs) {
            if let Some((glyph, reach)) = sign {
                let left = glyph.outline().bounds[0] * size / 1000;
                let at = (x - reach - left, y_of(head.place));
                self.put_solid(owner, Ink::Glyph { glyph, at, size });
            }
        }
    }

    fn ledgers(&mut self, owner: Owner, heads: &[Head], x: i32, width: i32, size: i32) {
        let low = heads.iter().map(|h| h.place).min().unwrap_or(4);
        let high = heads.iter().map(|h| h.place).max().unwrap_or(4);
        let out = LEDGER_OUT * size / 1000;
        let lines = stem::ledgers(low).chain(stem::ledgers(high));
        let mut drawn = Vec::new();
        for place in lines {
            if drawn.contains(&place) {
                continue;
            }
            drawn.push(place);
            let at = (x - out, y_of(place) - LEDGER_LINE / 2);
            self.put_solid(owner, Ink::Rect { at, size: (width + 2 * out, LEDGER_LINE) });
        }
    }

    fn draw_graces(&mut self, note: &Note, x: i32) {
        if note.graces.is_empty() {
            return;
        }
        let owner = Owner::Note(note.event);
        let (moved_left, _) = column::displacement(note, stem::points_up(note.heads.iter()));
        let moved = if moved_left { head_width(note) - STEM } else { 0 };
        let right = x - moved - accidentals(&note.heads, 1000).1 - 200;
        let (anchors, _) = column::graces(note);
        let scaled = |n: i32| n * GRACE / 1000;
        let width = scaled(Glyph::HeadBlack.width());
        let thin = scaled(STEM);
        // Stems all end at one height, an octave of their size over the highest.
        let highest = note.graces.iter().map(|g| y_of(g.place)).min().unwrap_or(2000);
        let end = highest - scaled(3200);
        let is_single = note.graces.len() == 1;
        for (grace, reach) in note.graces.iter().zip(&anchors) {
            let x = right - reach;
            self.ledgers(owner, std::slice::from_ref(grace), x, width, GRACE);
            let at = (x, y_of(grace.place));
            self.put_solid(owner, Ink::Glyph { glyph: Glyph::HeadBlack, at, size: GRACE });
            self.signs_before(owner, std::slice::from_ref(grace), x, GRACE);
            let top = y_of(grace.place) - scaled(168);
            let at = (x + width - thin, end);
            self.put_solid(owner, Ink::Rect { at, size: (thin, top - end) });
            if is_single {
                self.put_solid(owner, Ink::Glyph { glyph: Glyph::FlagQuaverUp, at, size: GRACE });
            }
            if note.graces_slashed && is_single {
                let (a, b) = ((x + width - 450, end + 1450), (x + width + 550, end + 550));
                let stroke = vec![a, b, (b.0, b.1 + 120), (a.0, a.1 + 120)];
                self.put_solid(owner, Ink::Polygon(stroke));
            }
        }
        if let [first, .., last] = anchors.as_slice() {
            let (from, to) = (right - first + width - thin, right - last + width);
            for beam in 0..2 {
                let at = (from, end + beam * scaled(700));
                self.put_solid(owner, Ink::Rect { at, size: (to - from, scaled(450)) });
            }
        }
    }
}

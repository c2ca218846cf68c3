//! Words over the stave: chord signs, texts, names of parts, the tempo.

use crate::ink::{Ink, Owner};
use crate::plan::Item;
use crate::rich::{Rich, cut};
use crate::size::{ROW_TEXT, SMALL_TEXT};
use crate::system::System;
use crate::value::values;
use modewright_core::tune::{MarkKind, Tempo};
use modewright_glyphs::{Glyph, text::Face};

/// A piece of a line of words and signs.
enum Piece {
    Words(Rich),
    Sign(Glyph),
}

impl System<'_> {
    pub(crate) fn draw_words_over(&mut self, is_first: bool) {
        self.draw_chord_signs();
        self.draw_texts();
        let mut parts = Vec::new();
        for n in self.notes.clone().filter(|&n| self.note(n).is_first) {
            for mark in self.marks_of(self.note(n).event) {
                match &mark.kind {
                    MarkKind::Part(name) => {
                        let rich = cut(name, Face::Bold, ROW_TEXT, 40_000);
                        parts.push((n, vec![Piece::Words(rich)]));
                    }
                    MarkKind::Tempo(tempo) => parts.push((n, self.tempo(tempo))),
                    _ => {}
                }
            }
        }
        for (n, pieces) in parts.into_iter().take(64) {
            let x = self.begins_at(n);
            self.line_over(pieces, x);
        }
        if is_first && let Some(tempo) = &self.layout.tune.tempo {
            let pieces = self.tempo(tempo);
            self.line_over(pieces, 0);
        }
    }

    /// Where words about what begins with a note stand: at the edge of the sheet for the first of
    /// a system, else over the note.
    fn begins_at(&self, n: usize) -> i32 {
        if n == self.notes.start { 0 } else { self.x(n).unwrap_or(0) }
    }

    /// Chord signs, all of a system on one line.
    fn draw_chord_signs(&mut self) {
        let chords = &self.layout.filled.chords;
        if chords.is_empty() {
            return;
        }
        let mut placed = Vec::new();
        let mut edge = -200;
        for (_, event, middle) in self.firsts() {
            let Some(Some(cell)) = chords.get(event) else { continue };
            let (left, right) = cell.reach();
            edge = edge.min(self.over.edge(middle - left, middle + right));
            placed.push((event, middle, cell));
        }
        let (_, depth) = Rich::new("", Face::Bold, ROW_TEXT).extent();
        for (_, middle, cell) in placed {
            for ink in cell.inks(middle, edge - 250 - depth) {
                self.put_solid(Owner::Above, ink);
            }
        }
    }

    /// A tempo: its words, and what is counted how often a minute.
    fn tempo(&self, tempo: &Tempo) -> Vec<Piece> {
        let small = |text: &str| Piece::Words(cut(text, Face::Regular, SMALL_TEXT, 40_000));
        let mut pieces = Vec::new();
        if let Some(words) = &tempo.words {
            let room = self.layout.width.min(40_000);
            pieces.push(Piece::Words(cut(words, Face::Bold, SMALL_TEXT, room)));
        }
        let Some(count) = tempo.per_minute else { return pieces };
        for &beat in tempo.beat.iter().take(4) {
            let value = values(beat)[0];
            pieces.push(Piece::Sign(match value.power {
                ..=0 => Glyph::BeatSemibreve,
                1 => Glyph::BeatMinim,
                2 => Glyph::BeatCrotchet,
                3 => Glyph::BeatQuaver,
                _ => Glyph::Beat16,
            }));
            pieces.extend((0..value.dots).map(|_| Piece::Sign(Glyph::BeatDot)));
        }
        if !tempo.beat.is_empty() {
            pieces.push(small("="));
        }
        pieces.push(small(&count.to_string()));
        pieces
    }

    /// Draws a line of words and signs over the stave.
    fn line_over(&mut self, pieces: Vec<Piece>, x: i32) {
        const SIGN: i32 = 480;
        const GAP: i32 = 400;
        let width_of = |piece: &Piece| match piece {
            Piece::Words(rich) => rich.width,
            Piece::Sign(glyph) => glyph.width() * SIGN / 1000,
        };
        let width: i32 = pieces.iter().map(|piece| width_of(piece) + GAP).sum::<i32>() - GAP;
        if width <= 0 {
            return;
        }
        let mut x = x.min(self.layout.width - width).max(0);
        let (_, depth) = Rich::new("", Face::Bold, ROW_TEXT).extent();
        let y = self.sit_over(x, x + width, depth, 350);
        for piece in pieces {
            match &piece {
                Piece::Words(rich) => self.draw_rich(Owner::Above, rich, x, y),
                Piece::Sign(glyph) => {
                    let left = glyph.outline().bounds[0] * SIGN / 1000;
                    let at = (x - left, y - 250);
                    self.put_solid(Owner::Above, Ink::Glyph { glyph: *glyph, at, size: SIGN });
                }
            }
            x += width_of(&piece) + GAP;
        }
    }

    /// Whether the system shows any music.
    pub(crate) fn is_empty(&self) -> bool {
        let columns = &self.layout.columns[self.placed.first..self.placed.end];
        !columns.iter().any(|column| matches!(column.item, Item::Note(_)))
    }
}

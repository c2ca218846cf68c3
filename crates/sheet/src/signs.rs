//! Signs at notes: articulation beside the heads, ornaments and words over the stave.

use crate::column::head_width;
use crate::ink::{Ink, Owner};
use crate::options::Shape;
use crate::rich::{Rich, cut};
use crate::size::SMALL_TEXT;
use crate::stem::{has_stem, y_of};
use crate::system::System;
use modewright_core::tune::{FormSign, Mark, MarkKind, Place};
use modewright_glyphs::{Glyph, text::Face};

/// The most signs and texts of one note that are printed.
const MOST: usize = 8;

/// What a sign looks like.
enum Look {
    /// Beside the head: over and under it.
    Near(Glyph, Glyph),
    /// Over the stave.
    Over(Glyph),
    /// Under the stave, in a row.
    Under(Vec<Glyph>),
    /// Words over the stave.
    Words(String),
    /// Nothing.
    None,
}

/// The look of a sign by its name (names of ABC 2.1, §4.14). A name without a look of its own is
/// printed as it is.
fn look(name: &str) -> Look {
    let digit = name.len() == 1 && name.bytes().all(|b| b.is_ascii_digit());
    match name {
        "staccato" => Look::Near(Glyph::StaccatoAbove, Glyph::StaccatoAbove),
        "tenuto" => Look::Near(Glyph::TenutoAbove, Glyph::TenutoAbove),
        "accent" | "emphasis" | ">" => Look::Near(Glyph::AccentAbove, Glyph::AccentBelow),
        "wedge" => Look::Near(Glyph::WedgeAbove, Glyph::WedgeBelow),
        "marcato" | "^" => Look::Over(Glyph::MarcatoAbove),
        "fermata" | "invertedfermata" => Look::Over(Glyph::FermataAbove),
        "trill" => Look::Over(Glyph::Trill),
        "roll" | "turn" => Look::Over(Glyph::Turn),
        "invertedturn" => Look::Over(Glyph::TurnInverted),
        "lowermordent" | "mordent" => Look::Over(Glyph::MordentLower),
        "uppermordent" | "pralltriller" => Look::Over(Glyph::MordentUpper),
        "upbow" => Look::Over(Glyph::UpBow),
        "downbow" => Look::Over(Glyph::DownBow),
        "breath" => Look::Over(Glyph::BreathComma),
        "segno" => Look::Over(Glyph::Segno),
        "coda" => Look::Over(Glyph::Coda),
        "plus" | "+" => Look::Words("+".to_owned()),
        "open" => Look::Words("o".to_owned()),
        _ if !name.is_empty()
            && name.bytes().all(|b| matches!(b, b'p' | b'm' | b'f'))
            && name.len() < 5 =>
        {
            let glyph = |b| match b {
                b'p' => Glyph::Piano,
                b'm' => Glyph::Mezzo,
                _ => Glyph::Forte,
            };
            Look::Under(name.bytes().map(glyph).collect())
        }
        // Segno and coda have their own looks.
        _ if FormSign::from_words(name).is_some() => {
            let words = FormSign::from_words(name).map_or("", FormSign::words);
            Look::Words(words.to_owned())
        }
        _ if digit => Look::Words(name.to_owned()),
        // The ends of long signs, which are not drawn.
        _ if name.ends_with(['(', ')']) => Look::None,
        _ => Look::Words(name.to_owned()),
    }
}

impl System<'_> {
    /// The marks of an event.
    pub(crate) fn marks_of(&self, event: usize) -> &[Mark] {
        let marks = &self.layout.tune.marks;
        let from = marks.partition_point(|mark| mark.event < event);
        let count = marks[from..].iter().take_while(|mark| mark.event == event).count();
        &marks[from..from + count]
    }

    /// The looks of an event's signs.
    fn looks(&self, event: usize) -> Vec<Look> {
        let marks = self.marks_of(event).iter();
        let signs = marks.filter_map(|mark| match &mark.kind {
            MarkKind::Sign(name) => Some(look(name)),
            _ => None,
        });
        signs.take(MOST).collect()
    }

    /// The first printed notes of the system's events, with the middles of their heads.
    pub(crate) fn firsts(&self) -> Vec<(usize, usize, i32)> {
        let notes = self.notes.clone().zip(&self.note_x);
        notes
            .filter(|&(n, _)| self.note(n).is_first)
            .map(|(n, &x)| (n, self.note(n).event, x + head_width(self.note(n)) / 2))
            .collect()
    }

    /// Articulation, on the side of the head.
    pub(crate) fn draw_near_signs(&mut self) {
        for (n, event, middle) in self.firsts() {
            let mut off = 0;
            for look in self.looks(event) {
                let Look::Near(over_glyph, under_glyph) = look else { continue };
                let note = self.note(n);
                let over = !(has_stem(note) && self.up[n]);
                let (Some(low), Some(high)) = (note.heads.first(), note.heads.last()) else {
                    continue;
                };
                let glyph = if over { over_glyph } else { under_glyph };
                let [left, top, right, bottom] = glyph.outline().bounds;
                let height = bottom - top;
                // In the next free space beyond the head; what is higher than a space stands
                // outside the stave.
                let side = if over { -1 } else { 1 };
                let mut y = y_of(if over { high.place } else { low.place }) + side * (1000 + off);
                if y.rem_euclid(1000) == 0 && (0..=4000).contains(&y) {
                    y += side * 500;
                }
                if height > 700 || off > 0 {
                    y = if over { y.min(-500) } else { y.max(4500) };
                }
                off += 1000;
                let at = (middle - i32::midpoint(left, right), y - i32::midpoint(top, bottom));
                self.put_solid(Owner::Note(event), Ink::Glyph { glyph, at, size: 1000 });
            }
        }
    }

    /// Ornaments and other signs over the stave, loudness under it.
    pub(crate) fn draw_far_signs(&mut self) {
        for (_, event, middle) in self.firsts() {
            for look in self.looks(event) {
                match look {
                    Look::Over(glyph) => {
                        let [left, _, right, bottom] = glyph.outline().bounds;
                        let x = middle - i32::midpoint(left, right);
                        let y = self.sit_over(x + left, x + right, bottom, 300);
                        self.put_solid(
                            Owner::Note(event),
                            Ink::Glyph { glyph, at: (x, y), size: 1000 },
                        );
                    }
                    Look::Words(words) => {
                        let rich = cut(&words, Face::Regular, SMALL_TEXT, 12_000);
                        self.words_over(Owner::Note(event), &rich, middle - rich.width / 2);
                    }
                    Look::Under(glyphs) => {
                        let width: i32 = glyphs.iter().map(|g| g.outline().advance).sum();
                        let mut x = (middle - width / 2).max(0);
                        let y = self.sit_under(x - 200, x + width + 200, 1100, 300);
                        for glyph in glyphs {
                            let ink = Ink::Glyph { glyph, at: (x, y), size: 1000 };
                            self.put_solid(Owner::Note(event), ink);
                            x += glyph.outline().advance;
                        }
                    }
                    Look::Near(..) | Look::None => {}
                }
            }
        }
    }

    /// Texts at notes, over and under the stave.
    pub(crate) fn draw_texts(&mut self) {
        for (_, event, middle) in self.firsts() {
            let texts: Vec<(Place, Rich)> = self
                .marks_of(event)
                .iter()
                .filter_map(|mark| match &mark.kind {
                    MarkKind::Text { place, text } => {
                        Some((*place, cut(text, Face::Regular, SMALL_TEXT, 40_000)))
                    }
                    _ => None,
                })
                .take(MOST)
                .collect();
            for (place, rich) in texts {
                let x = middle - 600;
                if place == Place::Below {
                    let x = x.min(self.layout.width - rich.width).max(0);
                    let (height, _) = rich.extent();
                    let y = self.sit_under(x, x + rich.width, height, 250);
                    self.draw_rich(Owner::Note(event), &rich, x, y);
                } else {
                    self.words_over(Owner::Note(event), &rich, x);
                }
            }
        }
    }

    /// Notes that are marked by a shape and a word.
    pub(crate) fn draw_flags(&mut self) {
        let mut flags = self.options.flags.clone();
        flags.retain(|flag| {
            let first = self.layout.plan.first_of.get(flag.note);
            first.is_some_and(|&n| self.notes.contains(&n))
        });
        for flag in flags {
            let n = self.layout.plan.first_of[flag.note];
            let Some(x) = self.x(n) else { continue };
            let middle = x + head_width(self.note(n)) / 2;
            let word = cut(&flag.word, Face::Regular, SMALL_TEXT, 12_000);
            // The shape over the note, its word to the right.
            let width = 1100 + if word.is_empty() { 0 } else { 300 + word.width };
            let left = (middle - 550).min(self.layout.width - width).max(0);
            let (height, depth) = word.extent();
            let y = if flag.shape == Shape::Down {
                self.sit_under(left, left + width, height, 250)
            } else {
                self.sit_over(left, left + width, depth, 250)
            };
            let owner = Owner::Note(flag.note);
            self.put_solid(owner, Ink::Polygon(outline(flag.shape, left + 550, y)));
            self.draw_rich(owner, &word, left + 1400, y);
        }
    }

    /// The line for something over the stave: over all that stands there.
    pub(crate) fn sit_over(&self, left: i32, right: i32, depth: i32, gap: i32) -> i32 {
        self.over.edge(left, right).min(-200) - gap - depth
    }

    /// The line for something under the stave.
    pub(crate) fn sit_under(&self, left: i32, right: i32, height: i32, gap: i32) -> i32 {
        self.under.edge(left, right).max(4200) + gap + height
    }

    /// Draws words over the stave near an x, within the sheet.
    pub(crate) fn words_over(&mut self, owner: Owner, rich: &Rich, x: i32) {
        let x = x.min(self.layout.width - rich.width).max(0);
        let (_, depth) = rich.extent();
        let y = self.sit_over(x, x + rich.width, depth, 250);
        self.draw_rich(owner, rich, x, y);
    }

    pub(crate) fn draw_rich(&mut self, owner: Owner, rich: &Rich, x: i32, y: i32) {
        let inks: Vec<Ink> = rich.inks(x, y).collect();
        for ink in inks {
            self.put_solid(owner, ink);
        }
    }
}

/// The corners of a shape about a middle, standing on a line.
fn outline(shape: Shape, x: i32, y: i32) -> Vec<(i32, i32)> {
    match shape {
        Shape::House => vec![
            (x, y - 1200),
            (x + 550, y - 650),
            (x + 550, y),
            (x + 180, y),
            (x + 180, y - 420),
            (x - 180, y - 420),
            (x - 180, y),
            (x - 550, y),
            (x - 550, y - 650),
        ],
        Shape::Up => vec![(x, y - 1100), (x + 550, y), (x - 550, y)],
        Shape::Down => vec![(x, y), (x - 550, y - 1100), (x + 550, y - 1100)],
        Shape::Diamond => vec![(x, y - 1200), (x + 550, y - 600), (x, y), (x - 550, y - 600)],
    }
}

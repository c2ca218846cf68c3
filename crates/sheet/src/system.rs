//! One system: everything that is drawn between its edges.

use crate::barline::{self, Stroke};
use crate::beam::Group;
use crate::breaking::{Layout, Placed};
use crate::endings::Ending;
use crate::header;
use crate::ink::{Block, Ink, Mark, Owner};
use crate::plan::{Item, Note};
use crate::size::{STAVE, STAVE_LINE};
use crate::skyline::Skyline;
use crate::{clef::Places, options::Options};
use modewright_core::tune::BarLine;
use modewright_glyphs::Glyph;

/// A system that is being drawn. The top line of its stave is at y 0 until it is done.
pub(crate) struct System<'a> {
    pub(crate) layout: &'a Layout<'a>,
    pub(crate) placed: &'a Placed,
    pub(crate) options: &'a Options,
    /// The direction of each note's stem, of the whole tune.
    pub(crate) up: &'a [bool],
    pub(crate) endings: &'a [Ending],
    pub(crate) marks: Vec<Mark>,
    /// How far ink reaches over and under the stave.
    pub(crate) over: Skyline,
    pub(crate) under: Skyline,
    /// The notes of the system, and the anchor of the first of them in [`Placed::x`].
    pub(crate) notes: std::ops::Range<usize>,
    pub(crate) note_x: Vec<i32>,
    /// Where each note's stem ends; filled while beams and stems are drawn.
    pub(crate) stem_end: Vec<i32>,
    /// The bars that it shows, each with the left edge of its music and its line's left and
    /// right edge.
    pub(crate) bars: Vec<BarPlace>,
}

/// A bar in a system.
#[derive(Clone, Copy, Debug)]
pub(crate) struct BarPlace {
    pub(crate) bar: usize,
    pub(crate) left: i32,
    pub(crate) line: i32,
    pub(crate) right: i32,
    /// Whether its end is in this system.
    pub(crate) is_whole: bool,
}

impl<'a> System<'a> {
    pub(crate) fn new(
        layout: &'a Layout<'a>,
        placed: &'a Placed,
        options: &'a Options,
        up: &'a [bool],
        endings: &'a [Ending],
    ) -> Self {
        let columns = &layout.columns[placed.first..placed.end];
        let mut note_x = Vec::new();
        let mut first = None;
        for (column, &x) in columns.iter().zip(&placed.x) {
            if let Item::Note(n) = column.item {
                first = first.or(Some(n));
                note_x.push(x);
            }
        }
        let first = first.unwrap_or(0);
        Self {
            layout,
            placed,
            options,
            up,
            endings,
            marks: Vec::new(),
            over: Skyline::new(placed.width, 0, true),
            under: Skyline::new(placed.width, STAVE, false),
            notes: first..first + note_x.len(),
            stem_end: vec![2000; note_x.len()],
            note_x,
            bars: Vec::new(),
        }
    }

    /// Draws everything and sets it into a block.
    pub(crate) fn block(mut self, is_first: bool) -> Block {
        self.stave();
        self.beginning();
        self.bar_lines();
        self.draw_notes();
        self.draw_beams();
        self.draw_ties();
        self.draw_near_signs();
        self.draw_tuplets();
        self.draw_slurs();
        self.draw_far_signs();
        self.draw_flags();
        self.draw_endings();
        self.draw_words_over(is_first);
        self.draw_rows();
        let top = self.over.extreme() - 300;
        let bottom = self.under.extreme() + 900;
        // All marks of a note side by side, so that they make one group.
        self.marks.sort_by_key(|mark| mark.owner);
        let lower = |mark: Mark| Mark { ink: mark.ink.lowered(-top), ..mark };
        Block { height: bottom - top, marks: self.marks.into_iter().map(lower).collect() }
    }

    pub(crate) fn note(&self, n: usize) -> &'a Note {
        &self.layout.plan.notes[n]
    }

    /// The anchor of a note; `None` where it stands in another system.
    pub(crate) fn x(&self, n: usize) -> Option<i32> {
        self.note_x.get(n.checked_sub(self.notes.start)?).copied()
    }

    /// Draws something that nothing else has to make room for.
    pub(crate) fn put(&mut self, owner: Owner, ink: Ink) {
        self.marks.push(Mark { owner, ink });
    }

    /// Draws something that later things make room for.
    pub(crate) fn put_solid(&mut self, owner: Owner, ink: Ink) {
        let [left, top, right, bottom] = ink.bounds();
        self.over.add(left, right, top);
        self.under.add(left, right, bottom);
        self.put(owner, ink);
    }

    /// The groups of beamed notes of the system, cut at its edges.
    pub(crate) fn groups(&self) -> impl Iterator<Item = Group> + use<'a> {
        let (from, end) = (self.notes.start, self.notes.end);
        let groups = self.layout.groups;
        let start = groups.partition_point(|group| group.last < from);
        groups[start..]
            .iter()
            .take_while(move |group| group.first < end)
            .map(move |group| Group { first: group.first.max(from), last: group.last.min(end - 1) })
    }

    fn stave(&mut self) {
        for line in 0..5 {
            let at = (0, line * 1000 - STAVE_LINE / 2);
            self.put(Owner::Stave, Ink::Rect { at, size: (self.placed.width, STAVE_LINE) });
        }
    }

    fn beginning(&mut self) {
        let tune = self.layout.tune;
        let key = tune.keys.get(self.placed.key);
        let header = header::Header::new(tune.clef, key, self.placed.metre);
        for ink in header.inks {
            self.put_solid(Owner::Header, ink);
        }
        if self.placed.repeat_on > 0 {
            let line = BarLine { repeat_on: self.placed.repeat_on, ..BarLine::default() };
            self.line(line, header.width);
        }
    }

    fn bar_lines(&mut self) {
        let columns = &self.layout.columns[self.placed.first..self.placed.end];
        let repeat =
            if self.placed.repeat_on > 0 { crate::breaking::repeat_width() + 700 } else { 0 };
        let tune = self.layout.tune;
        let key = tune.keys.get(self.placed.key);
        let mut left = header::Header::width_of(tune.clef, key, self.placed.metre) + repeat - 500;
        let mut bar = None;
        for (i, (column, &x)) in columns.iter().zip(&self.placed.x).enumerate() {
            match column.item {
                Item::BarEnd(b) => {
                    let at_end = i + 1 == columns.len();
                    let line =
                        if at_end { self.layout.closing(b) } else { barline::between(tune, b) };
                    let width = self.line(line, x);
                    self.bars.push(BarPlace {
                        bar: b,
                        left,
                        line: x,
                        right: x + width,
                        is_whole: true,
                    });
                    left = x + width;
                    bar = None;
                }
                Item::Key(key) => {
                    let places = Places::of(tune.clef);
                    let old = tune.keys.get(key.wrapping_sub(1));
                    let signs = header::change(places, tune.keys.get(key), old);
                    for ink in header::signature(&signs, x) {
                        self.put_solid(Owner::Header, ink);
                    }
                }
                Item::Metre(metre) => {
                    if let Some(width) = crate::column::metre_width(metre) {
                        for ink in header::metre(metre, x, width) {
                            self.put_solid(Owner::Header, ink);
                        }
                    }
                }
                Item::Note(n) => bar = Some(self.note(n).bar),
            }
        }
        if let Some(bar) = bar {
            let right = self.placed.width;
            self.bars.push(BarPlace { bar, left, line: right, right, is_whole: false });
        }
    }

    /// Draws a bar line from x on; gives its width.
    fn line(&mut self, line: BarLine, x: i32) -> i32 {
        let (strokes, width) = barline::strokes(line);
        for (dx, stroke) in strokes {
            let x = x + dx;
            match stroke {
                Stroke::Line(thickness) => {
                    let (top, height) = (-STAVE_LINE / 2, STAVE + STAVE_LINE);
                    self.put(Owner::Bar, Ink::Rect { at: (x, top), size: (thickness, height) });
                }
                Stroke::Dotted => {
                    for dash in 0..8 {
                        let at = (x, dash * 500 + 125);
                        self.put(Owner::Bar, Ink::Rect { at, size: (stroke.width(), 250) });
                    }
                }
                Stroke::Dots => {
                    let left = Glyph::RepeatDot.outline().bounds[0];
                    for y in [1500, 2500] {
                        let at = (x - left, y);
                        self.put(
                            Owner::Bar,
                            Ink::Glyph { glyph: Glyph::RepeatDot, at, size: 1000 },
                        );
                    }
                }
            }
        }
        width
    }
}

//! The title and the names over the music, and the lines under it.

use crate::ink::{Block, Mark, Owner};
use crate::rich::{Rich, cut, wrap};
use crate::size::{SMALL_TEXT, TITLE_TEXT};
use modewright_core::tune::Header;
use modewright_glyphs::text::Face;

/// Lines of a title.
const MOST_LINES: usize = 3;

/// Title, other titles, kind of tune on the left, composer and source on the right.
pub(crate) fn heading(header: &Header, width: i32) -> Block {
    let mut block = Block::default();
    let mut titles = header.titles.iter();
    if let Some(title) = titles.next() {
        let size = if width < 70_000 { TITLE_TEXT * 3 / 4 } else { TITLE_TEXT };
        for line in wrap(title, Face::Bold, size, width, MOST_LINES) {
            block.line(&line, (width - line.width) / 2);
        }
    }
    for title in titles.take(2) {
        let line = cut(title, Face::Regular, SMALL_TEXT * 6 / 5, width);
        block.line(&line, (width - line.width) / 2);
    }
    // Left and right share a line where both fit.
    let left: Vec<&String> = header.rhythm.iter().collect();
    let names = |name: &Vec<String>| name.iter().take(2).cloned().collect::<Vec<_>>().join("; ");
    let right: Vec<String> = [&header.composer, &header.origin, &header.source]
        .into_iter()
        .map(names)
        .filter(|text| !text.is_empty())
        .collect();
    for at in 0..left.len().max(right.len()) {
        let half = (width - 2000) / 2;
        let both = at < left.len() && at < right.len();
        let room = if both { half } else { width };
        let top = block.height;
        if let Some(text) = left.get(at) {
            block.line(&cut(text, Face::Regular, SMALL_TEXT, room), 0);
        }
        if let Some(text) = right.get(at) {
            let line = cut(text, Face::Regular, SMALL_TEXT, room);
            if both {
                block.height = top;
            }
            block.line(&line, width - line.width);
        }
    }
    if block.height > 0 {
        block.height += 800;
    }
    block
}

/// The lines under the music.
pub(crate) fn foot(lines: &[String], width: i32) -> Block {
    let mut block = Block { height: 600, ..Block::default() };
    for text in lines.iter().take(crate::Options::MAX_FOOT) {
        for line in wrap(text, Face::Regular, SMALL_TEXT, width, 4) {
            block.line(&line, 0);
        }
    }
    block
}

impl Block {
    /// Adds a line of words under what is there.
    fn line(&mut self, rich: &Rich, x: i32) {
        let (height, depth) = rich.extent();
        let y = self.height + height;
        self.marks.extend(rich.inks(x, y).map(|ink| Mark { owner: Owner::Words, ink }));
        self.height = y + depth + 150;
    }
}

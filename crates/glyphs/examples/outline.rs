//! A treble clef as a path, and the width of a word in the text font.
//!
//! `cargo run -p modewright-glyphs --example outline`

use modewright_glyphs::Glyph;
use modewright_glyphs::text::{Face, width};

fn main() {
    let clef = Glyph::TrebleClef;
    println!("{clef:?}: {} thousandths wide", clef.width());
    println!("{}", clef.outline().path);
    println!(
        "\"Lantern Quay\": {} thousandths of its size",
        width("Lantern Quay", Face::Regular, 1000)
    );
}

//! An invented demo tune as a picture with the count and the names of its notes.
//!
//! `cargo run -p modewright-sheet --example sheet > sheet.svg`

use modewright_formats::{ReadOptions, read, source::split};
use modewright_lesson::demo;
use modewright_sheet::{Request, RowKind, engrave, svg};

fn main() {
    for text in split(demo::first().abc) {
        let tune = read(&text, &ReadOptions::default()).tune;
        let request = Request { rows: vec![RowKind::Count, RowKind::Note], ..Request::default() };
        print!("{}", svg(&engrave(&tune, &request.options(&tune))));
    }
}

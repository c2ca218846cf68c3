//! The answer and the walk through an invented demo tune.
//!
//! `cargo run -p modewright-lesson --example walk`

use modewright_core::find::find;
use modewright_formats::{ReadOptions, read, source::split};
use modewright_lesson::answer::FindAnswer;
use modewright_lesson::demo;
use modewright_lesson::walk::{WalkOptions, Wording, walk};

fn main() {
    for text in split(demo::first().abc) {
        let reading = read(&text, &ReadOptions::default());
        let finding = find(&reading.tune);
        let answer = FindAnswer::new("demo", &reading.tune, &finding, &reading.problems);
        println!("{}", answer.words.verdict);
        let told = walk(&reading.tune, &finding, &Wording::english(), &WalkOptions::default());
        println!("{}", told.to_markdown());
    }
}

//! The odd texts of `tests/fixtures/abc`: what is told about each, and that each is read whole.

use modewright_formats::source::split;
use modewright_formats::{ReadOptions, abc};
use std::fs;

#[test]
fn odd_texts_are_read_and_their_oddities_told() {
    let folder = modewright_tests::path("fixtures/abc");
    let mut count = 0;
    for entry in fs::read_dir(folder).expect("the fixtures") {
        let path = entry.expect("a file").path();
        if path.extension().is_none_or(|e| e != "abc") {
            continue;
        }
        count += 1;
        let name = path.display();
        let text = fs::read_to_string(&path).expect("text");
        let first = text.lines().next().unwrap_or_default();
        let wanted = first.strip_prefix("% problems:").expect("a first line with problems").trim();
        let tunes: Vec<_> = split(&text).collect();
        assert_eq!(tunes.len(), 1, "{name}");
        let reading = abc::read(&tunes[0], &ReadOptions::default());
        let told: Vec<&str> = reading.problems.iter().map(|p| p.kind.code()).collect();
        assert_eq!(told.join(" "), wanted, "{name}");
        for problem in &reading.problems {
            let line = text.lines().nth(problem.line as usize - 1).expect("a line of the file");
            assert!(problem.column as usize <= line.chars().count() + 1, "{name}: {problem:?}");
        }
        // Whole bars, pickups aside, show that nothing was lost on the way.
        let tune = &reading.tune;
        let odd = tune.bars.iter().filter(|b| b.metre.bar_length().is_some_and(|l| l != b.length));
        assert_eq!(odd.count(), 0, "{name}");
        assert!(tune.bars.len() >= 2, "{name}");
    }
    assert!(count >= 8, "only {count} texts");
}

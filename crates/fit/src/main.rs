//! Fits the weights of the mode finder on tune books, and says how good they are.
//!
//! `cargo xtask fit` and `cargo xtask evaluate` call it with the folder of the books.

mod books;
mod evaluate;
mod group;
mod lbfgs;
mod made;
mod measure;
mod plates;
mod print;
mod shipped;
mod table;
mod train;

use books::{BOOKS, Example};
use measure::{Judged, figures};
use print::Line;
use shipped::Way;
use std::{path::Path, process::ExitCode};
use train::{Hold, Table, fit, judge, rows, temperatures};

const USAGE: &str =
    "usage: modewright-fit (fit FILE | cross | evaluate FILE FOLDER | held-out FILE FOLDER) CORPUS";

/// Steps of a fit.
const STEPS: usize = 200;

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = args.iter().map(String::as_str).collect();
    let outcome = match words.as_slice() {
        ["fit", file, corpus] => books::read_all(Path::new(corpus)).and_then(|e| write(&e, file)),
        ["cross", corpus] => books::read_all(Path::new(corpus)).map(|e| cross(&e)),
        ["evaluate", file, folder, corpus] => books::read_all(Path::new(corpus))
            .and_then(|e| save(&evaluate::all(&e, Path::new(folder))?, file)),
        ["held-out", file, folder, corpus] => books::read_all(Path::new(corpus))
            .and_then(|e| save(&evaluate::held_out(&e, Path::new(folder))?, file)),
        _ => Err(USAGE.to_owned()),
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("{message}");
            ExitCode::FAILURE
        }
    }
}

/// Writes the rows of the table for a spreadsheet.
fn save(lines: &[print::Line], file: &str) -> Result<(), String> {
    let rows = lines.iter().map(print::Line::csv);
    let text: String =
        std::iter::once(print::csv_head()).chain(rows).map(|row| row + "\n").collect();
    std::fs::write(file, text).map_err(|e| format!("{file}: {e}"))
}

/// Which of ten parts an example is in: 0 to 5 fit, 6 and 7 tune, 8 and 9 are for the report.
fn part(example: &Example) -> u64 {
    group::part(example.group, 10)
}

fn fitted(examples: &[Example], wanted: impl Fn(&Example) -> bool) -> Vec<&Example> {
    examples.iter().filter(|e| BOOKS[e.book].fit && wanted(e)).collect()
}

/// Fits on all but the report's part; the temperatures come from a fit that has not seen theirs.
fn write(examples: &[Example], file: &str) -> Result<(), String> {
    let first = fit(rows(&fitted(examples, |e| part(e) < 6)), Hold::default(), STEPS);
    let heat = temperatures(&first, &whole_rows(&fitted(examples, |e| (6..8).contains(&part(e)))));
    let table = fit(rows(&fitted(examples, |e| part(e) < 8)), Hold::default(), STEPS);
    let text = table::source(&table, heat).map_err(|e| e.to_string())?;
    std::fs::write(file, text).map_err(|e| format!("{file}: {e}"))?;
    println!("temperatures {heat:.3?}\n{}", print::HEAD);
    report("report part", &table, heat, &fitted(examples, |e| part(e) >= 8 && !e.contradicted));
    for (i, book) in BOOKS.iter().enumerate().filter(|(_, b)| !b.fit) {
        let of: Vec<&Example> =
            examples.iter().filter(|e| e.book == i && !e.contradicted).collect();
        report(book.folder, &table, heat, &of);
    }
    Ok(())
}

/// Whole tunes only.
fn whole_rows(examples: &[&Example]) -> Vec<train::Row> {
    examples
        .iter()
        .map(|e| {
            let answer = train::candidate(e.label.home.pitch_class(), e.label.mode);
            train::Row::new(&e.views[0].0, e.signature, answer, 1.0)
        })
        .collect()
}

/// Fits on four fifths of the parts that are not the report's, and judges the last fifth.
fn cross(examples: &[Example]) {
    println!("{}", print::HEAD);
    let known = |e: &Example| part(e) < 8;
    let mut answers: [Vec<Judged>; 2] = [Vec::new(), Vec::new()];
    for fold in 0..4 {
        let held = |e: &Example| part(e) / 2 == fold;
        let table = fit(rows(&fitted(examples, |e| known(e) && !held(e))), Hold::default(), STEPS);
        let tested = fitted(examples, |e| known(e) && held(e));
        let heat = temperatures(&table, &whole_rows(&tested));
        for example in tested.into_iter().filter(|e| !e.contradicted) {
            let scores = judge(&table, example);
            for which in 0..2 {
                answers[which].push(Judged::new(&scores[which], heat[which], example));
            }
        }
    }
    for (way, answers) in Way::HIDDEN.into_iter().zip(&answers) {
        line("cross check", way, answers);
    }
}

fn report(name: &str, table: &Table, heat: [f64; 2], examples: &[&Example]) {
    for (which, way) in Way::HIDDEN.into_iter().enumerate() {
        let answers: Vec<Judged> =
            examples.iter().map(|e| Judged::new(&judge(table, e)[which], heat[which], e)).collect();
        line(name, way, &answers);
    }
}

fn line(name: &str, way: Way, answers: &[Judged]) {
    let figures = figures(answers);
    println!("{}", Line { part: "", book: name.into(), way: way.name(), figures }.text());
}

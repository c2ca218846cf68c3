//! Fits the weights of the mode finder on tune books, and says how good they are.
//!
//! `cargo xtask fit` and `cargo xtask evaluate` call it with the folder of the books.

mod books;
mod group;
mod lbfgs;
mod made;
mod measure;
mod table;
mod train;

use books::{BOOKS, Example};
use measure::{Figures, Judged, figures};
use std::{path::Path, process::ExitCode};
use train::{Hold, Table, fit, judge, rows, temperatures};

const USAGE: &str = "usage: modewright-fit (fit FILE | cross) CORPUS";

/// Steps of a fit.
const STEPS: usize = 150;

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = args.iter().map(String::as_str).collect();
    let outcome = match words.as_slice() {
        ["fit", file, corpus] => books::read_all(Path::new(corpus)).and_then(|e| write(&e, file)),
        ["cross", corpus] => books::read_all(Path::new(corpus)).map(|e| cross(&e)),
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

/// Which of ten parts an example is in: 0 to 5 fit, 6 and 7 tune, 8 and 9 are for the report.
fn part(example: &Example) -> u64 {
    group::part(example.group, 10)
}

fn fitted(examples: &[Example], wanted: impl Fn(&Example) -> bool) -> Vec<&Example> {
    examples.iter().filter(|e| BOOKS[e.book].fit && wanted(e)).collect()
}

/// Fits on all but the report's part; the temperatures come from a fit that has not seen theirs.
fn write(examples: &[Example], file: &str) -> Result<(), String> {
    let first = fit(&rows(&fitted(examples, |e| part(e) < 6)), Hold::default(), STEPS);
    let heat = temperatures(&first, &whole_rows(&fitted(examples, |e| (6..8).contains(&part(e)))));
    let table = fit(&rows(&fitted(examples, |e| part(e) < 8)), Hold::default(), STEPS);
    let text = table::source(&table, heat).map_err(|e| e.to_string())?;
    std::fs::write(file, text).map_err(|e| format!("{file}: {e}"))?;
    println!("temperatures {heat:.3?}");
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
    let known = |e: &Example| part(e) < 8;
    let mut answers: [Vec<(Judged, &Example)>; 2] = [Vec::new(), Vec::new()];
    for fold in 0..4 {
        let held = |e: &Example| part(e) / 2 == fold;
        let table = fit(&rows(&fitted(examples, |e| known(e) && !held(e))), Hold::default(), STEPS);
        let tested = fitted(examples, |e| known(e) && held(e));
        let heat = temperatures(&table, &whole_rows(&tested));
        for example in tested.into_iter().filter(|e| !e.contradicted) {
            let scores = judge(&table, example);
            for which in 0..2 {
                let judged = Judged::new(&scores[which], heat[which], example);
                answers[which].push((judged, example));
            }
        }
    }
    print("notes alone", &figures(&answers[0].iter().map(|(j, _)| *j).collect::<Vec<_>>()));
    print("with signature", &figures(&answers[1].iter().map(|(j, _)| *j).collect::<Vec<_>>()));
    println!("\nsurest mistakes, with signature:");
    let mut wrong: Vec<&(Judged, &Example)> =
        answers[1].iter().filter(|(j, _)| j.found != j.written).collect();
    wrong.sort_by(|a, b| b.0.chance.total_cmp(&a.0.chance));
    for (judged, example) in wrong.into_iter().take(30) {
        let found = modewright_core::Key::written(
            modewright_core::PitchClass::new(i32::try_from(judged.found.0).unwrap_or(0)),
            judged.found.1,
        );
        let chance = judged.chance;
        println!("{chance:.3} {found} for {}: {} {}", example.written, example.name, example.title);
    }
}

fn report(name: &str, table: &Table, heat: [f64; 2], examples: &[&Example]) {
    for (which, how) in ["notes alone", "with signature"].into_iter().enumerate() {
        let answers: Vec<Judged> =
            examples.iter().map(|e| Judged::new(&judge(table, e)[which], heat[which], e)).collect();
        print(&format!("{name}, {how}"), &figures(&answers));
    }
}

fn print(name: &str, f: &Figures) {
    println!(
        "{name:34} {:5} exact {:.4} home {:.4} recall {:.3} {:.2?} calibration {:.4} sure {:.4} surest {:.4}",
        f.count, f.exact, f.home, f.recall, f.recalls, f.calibration, f.right_when_sure, f.surest
    );
}

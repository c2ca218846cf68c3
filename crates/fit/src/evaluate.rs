//! `cargo xtask evaluate`: how good the finder is, per book and per mode, and where it errs.
//!
//! Three kinds of tunes, none of which the weights they are judged by have seen: the report's
//! part of the fitted books, asked of the finder as it ships; every fitted book, judged by
//! weights fitted on the others alone; and the folk songs, on which nothing is fitted.

use crate::books::{BOOKS, Example};
use crate::measure::{Judged, figures};
use crate::plates::{self, Plate};
use crate::print::{self, Line};
use crate::shipped::{self, Way};
use crate::train::{Hold, fit, judge, rows, temperatures};
use crate::{STEPS, part, whole_rows};
use modewright_core::Key;
use modewright_lesson::words;
use std::collections::HashSet;
use std::path::Path;

/// Answers that a mode must have been given to be judged by itself.
const OFTEN: usize = 200;
/// How many mistakes are shown.
const MISTAKES: usize = 30;

/// Prints everything, writes the tables and plots of the book into a folder; gives the rows.
pub(crate) fn all(examples: &[Example], folder: &Path) -> Result<Vec<Line>, String> {
    println!("{}", print::HEAD);
    let mut lines = held_out(examples, folder)?;
    show(&lines, "the held-out part of the fitted books, by the finder that ships");
    let (left_out, left_out_answers) = left_out(examples);
    show(&left_out, "each book by weights fitted on the other books alone");
    let [notes, signature] = &left_out_answers;
    let answers = [notes.as_slice(), signature.as_slice()];
    plates::save(&Plate { name: "left-out", lines: &left_out, answers }, folder)?;
    lines.extend(left_out);
    let (essen, [notes, signature]) = essen(examples);
    let answers = [notes.as_slice(), signature.as_slice()];
    plates::save(&Plate { name: "folk-songs", lines: &essen, answers }, folder)?;
    show(&essen, "folk songs, on which nothing is fitted; K: gives home, the notes give the mode");
    lines.extend(essen);

    let report = report_part(examples, false);
    contradicted(examples);
    as_written(&report);
    open(examples, &report);
    let folk: Vec<&Example> =
        examples.iter().filter(|e| !BOOKS[e.book].fit && !e.contradicted).collect();
    let sets = [("held-out part", &report), ("folk songs", &folk)];
    for way in Way::HIDDEN {
        for (name, set) in sets {
            let answers: Vec<Judged> = set.iter().map(|e| shipped::judged(e, way)).collect();
            details(&format!("{name}, {}", way.name()), &answers);
        }
    }
    for (way, answers) in Way::HIDDEN.into_iter().zip(&left_out_answers) {
        details(&format!("each book by the others, {}", way.name()), answers);
    }
    mistakes(&report);
    Ok(lines)
}

/// The held-out part alone, with its table and plot: quick, for every run of the tests.
pub(crate) fn held_out(examples: &[Example], folder: &Path) -> Result<Vec<Line>, String> {
    let (lines, [notes, signature]) = asked("held out", &report_part(examples, false));
    let answers = [notes.as_slice(), signature.as_slice()];
    plates::save(&Plate { name: "held-out", lines: &lines, answers }, folder)?;
    Ok(lines)
}

/// What the finder that ships says of some tunes: rows, and the answers by what it saw of the key.
fn asked(part: &'static str, of: &[&Example]) -> (Vec<Line>, [Vec<Judged>; 2]) {
    let mut lines = Vec::new();
    let answers = Way::HIDDEN.map(|way| {
        let answers: Vec<(usize, Judged)> =
            of.iter().map(|e| (e.book, shipped::judged(e, way))).collect();
        lines.extend(per_book(part, way, &answers));
        answers.into_iter().map(|a| a.1).collect()
    });
    (lines, answers)
}

/// The part of the fitted books that the fit has not seen.
fn report_part(examples: &[Example], contradicted: bool) -> Vec<&Example> {
    examples
        .iter()
        .filter(|e| BOOKS[e.book].fit && part(e) >= 8 && e.contradicted == contradicted)
        .collect()
}

/// A row for each book and one for all of them.
fn per_book(part: &'static str, way: Way, answers: &[(usize, Judged)]) -> Vec<Line> {
    let line = |book: Option<usize>| {
        let of: Vec<Judged> = answers
            .iter()
            .filter(|(b, _)| book.is_none_or(|book| book == *b))
            .map(|a| a.1)
            .collect();
        let name = book.map_or("all", |b| BOOKS[b].folder);
        Line { part, book: name.into(), way: way.name(), figures: figures(&of) }
    };
    let books = (0..BOOKS.len()).filter(|&b| answers.iter().any(|a| a.0 == b));
    let mut lines: Vec<Line> = books.map(|b| line(Some(b))).collect();
    if lines.len() > 1 {
        lines.push(line(None));
    }
    lines
}

/// Judges each fitted book by weights and temperatures from the others alone, less the tunes that
/// are variants of one of the book.
fn left_out(examples: &[Example]) -> (Vec<Line>, [Vec<Judged>; 2]) {
    let mut answers: [Vec<(usize, Judged)>; 2] = [Vec::new(), Vec::new()];
    for (book, _) in BOOKS.iter().enumerate().filter(|(_, b)| b.fit) {
        let groups: HashSet<usize> =
            examples.iter().filter(|e| e.book == book).map(|e| e.group).collect();
        let others = |last: u64| -> Vec<&Example> {
            let other = |e: &&Example| BOOKS[e.book].fit && !groups.contains(&e.group);
            examples.iter().filter(other).filter(|e| part(e) < last).collect()
        };
        let first = fit(rows(&others(6)), Hold::default(), STEPS);
        let unseen: Vec<&Example> = others(8).into_iter().filter(|e| part(e) >= 6).collect();
        let heat = temperatures(&first, &whole_rows(&unseen));
        let table = fit(rows(&others(8)), Hold::default(), STEPS);
        for example in examples.iter().filter(|e| e.book == book && !e.contradicted) {
            let scores = judge(&table, example);
            for which in 0..2 {
                answers[which].push((book, Judged::new(&scores[which], heat[which], example)));
            }
        }
    }
    let mut lines = Vec::new();
    for (way, answers) in Way::HIDDEN.into_iter().zip(&answers) {
        lines.extend(per_book("left out", way, answers));
    }
    (lines, answers.map(|of| of.into_iter().map(|a| a.1).collect()))
}

fn essen(examples: &[Example]) -> (Vec<Line>, [Vec<Judged>; 2]) {
    let of: Vec<&Example> =
        examples.iter().filter(|e| !BOOKS[e.book].fit && !e.contradicted).collect();
    asked("never fitted", &of)
}

fn show(lines: &[Line], title: &str) {
    println!("\n{title}:");
    for line in lines {
        println!("{}", line.text());
    }
}

/// Tunes whose written mode the notes contradict: apart, and against both opinions.
fn contradicted(examples: &[Example]) {
    let of = report_part(examples, true);
    println!("\nheld-out tunes whose notes contradict the written mode at the same home:");
    for way in Way::HIDDEN {
        let answers: Vec<Judged> = of.iter().map(|e| shipped::judged(e, way)).collect();
        let notes = of.iter().zip(&answers).filter(|(e, j)| {
            let best = (j.written.0, crate::books::best_mode(&e.tune, e.written));
            j.found == Some(best)
        });
        let home = answers.iter().filter(|j| j.is_home()).count();
        let exact = answers.iter().filter(|j| j.is_exact()).count();
        println!(
            "{:16} home as written {}; mode as written {exact}, as the notes have it {}",
            way.name(),
            print::of(home, of.len()),
            notes.count()
        );
    }
}

/// Whether the page as it stands ever does worse than with its home, or its key, hidden.
fn as_written(report: &[&Example]) {
    let (mut other, mut lost, mut won) = (0, 0, 0);
    for example in report {
        let [notes, signature, page] = [Way::NotesAlone, Way::Signature, Way::AsWritten]
            .map(|way| shipped::judged(example, way));
        other += usize::from(page.found != signature.found);
        lost += usize::from(notes.is_exact() && !page.is_exact());
        won += usize::from(page.is_exact() && !notes.is_exact());
    }
    println!("\nthe page as it stands, against the same page with something hidden:");
    println!("another answer than with its home hidden: {}", print::of(other, report.len()));
    println!("right with the whole key hidden, wrong as it stands: {lost}; the other way: {won}");
}

fn open(examples: &[Example], report: &[&Example]) {
    println!("\ntunes that lack the degree that decides between two modes, notes alone:");
    let folk: Vec<&Example> =
        examples.iter().filter(|e| !BOOKS[e.book].fit && !e.contradicted).collect();
    for (name, count) in [
        ("held-out part, by nature", shipped::open_by_nature(report)),
        ("folk songs, by nature", shipped::open_by_nature(&folk)),
        ("held-out part, degree struck out", shipped::open_by_striking(report)),
    ] {
        println!(
            "{name:34} home found {}; of these both modes named {}",
            print::of(count.home, count.all),
            print::of(count.named, count.home)
        );
    }
}

fn details(title: &str, answers: &[Judged]) {
    println!("\n── {title} ──\n{}", print::confusion(answers));
    print!("{}", print::calibration_curve(answers));
    println!("by the mode answered, where that is {OFTEN} times or more:");
    print!("{}", print::mode_calibration(answers, OFTEN));
}

/// The mistakes that the finder was surest of, with what spoke for and against them.
fn mistakes(report: &[&Example]) {
    let mut wrong: Vec<(Judged, &Example)> = report
        .iter()
        .map(|e| (shipped::judged(e, Way::Signature), *e))
        .filter(|(j, _)| !j.is_exact())
        .collect();
    wrong.sort_by(|a, b| b.0.chance.total_cmp(&a.0.chance));
    println!(
        "\nthe {MISTAKES} surest mistakes of {} in the held-out part, signature known:",
        wrong.len()
    );
    for (judged, example) in wrong.into_iter().take(MISTAKES) {
        let (tune, finding) = shipped::asked(example, Way::Signature);
        let Some(best) = finding.best() else { continue };
        println!(
            "\n{:.3} {} for {}: {}, {} {}",
            judged.chance,
            best.key,
            example.written,
            example.title,
            BOOKS[example.book].folder,
            example.name,
        );
        let evidence = finding.evidence(&tune);
        for (sign, mine, most) in [('+', true, 3), ('-', false, 2)] {
            let of = evidence.iter().filter(|e| {
                let other = if e.favours == best.key { e.over } else { e.favours };
                (e.favours == best.key) == mine && explains(best.key, other, example.written)
            });
            for e in of.take(most) {
                let (whole, part) = (e.weight / 100, e.weight % 100);
                println!("    {sign} {} ({whole}.{part:02})", words::evidence(e));
            }
        }
    }
}

/// Whether the comparison with a rival says why the written key was not found: where home was
/// missed, the one with another home; where the mode was, the one with the same home.
fn explains(found: Key, rival: Key, written: Key) -> bool {
    let same = |key: Key| key.home.pitch_class() == found.home.pitch_class();
    same(rival) == same(written)
}

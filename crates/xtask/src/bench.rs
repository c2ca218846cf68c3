//! `cargo xtask bench`: figures for people. What must not slip is in the budgets.

use crate::books::{self, Book};
use crate::process::{capture, modewright};
use crate::stage::{Found, Stages, Stop};
use crate::trained::{self, MEASURED};
use crate::{budgets, pace, place, setup};
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

/// Tunes of the sample that the slower toolkit is timed on.
const SAMPLE: usize = 60;

pub(crate) fn run() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("one core", || {
        let python = setup::python()?;
        speed(&python, &trained::read_find(&python)?)
    });
    stages.run("untrained", || speed(&setup::python()?, &budgets::read_find()?));
    stages.run("beside the least", || {
        let python = setup::python()?;
        pace::beside_floor(&whole_book(&python)?, &sample(&python)?)
    });
    stages.run("allocations", || pace::allocations(&sample(&setup::python()?)?));
    stages.run("all cores", || pace::cores(&modewright()?, &whole_book(&setup::python()?)?));
    stages.run("start", || pace::start(&modewright()?));
    stages.run("a score", score);
    stages.run("beside music21", || beside(&setup::python()?));
    stages.run("sound", sound);
    stages.run("fit", fit);
    stages.run("fingering", fingering);
    stages.run("sheets", crate::sheets::seconds);
    stages.run("in Node", || pace::in_node(&whole_book(&setup::python()?)?));
    stages.run("answers in Node", || crate::same::seconds(&setup::python()?));
    stages.run("memory", || budgets::memory(&setup::python()?, &modewright()?));
    stages.finish()
}

/// Reading and finding, on one core, over a whole book in memory.
fn speed(python: &Path, program: &Path) -> Found {
    let book = book(python)?;
    let file = whole_book(python)?;
    let seconds = budgets::seconds(program, Some(&file))?;
    let rate = book.tunes as f64 / seconds;
    let target = books::number(&books::json("tests/budgets.json")?, "target_tunes_per_second")?;
    let word = if rate >= target { "met" } else { "NOT met" };
    Ok(format!("{rate:.0} tunes/s over {} tunes; target {target} {word}", book.tunes))
}

/// Reading a score of 64 bars, and one about a hundred times as long: the time for each note
/// must not grow with the length.
fn score() -> Found {
    let program = budgets::read_find()?;
    let short = place::root().join("tests/fixtures/speed.musicxml");
    let text = fs::read_to_string(&short)?;
    let (start, end) = text
        .find("<measure number=\"2\"")
        .zip(text.rfind("</part>"))
        .ok_or_else(|| Stop::failed("speed.musicxml has no second measure"))?;
    let times = 10_000_000 / (end - start) + 1;
    let middle = text[start..end].repeat(times);
    let long = place::target().join("long.musicxml");
    fs::write(&long, format!("{}{middle}{}", &text[..start], &text[end..]))?;
    let time = |file| budgets::seconds_of(&program, "read", Some(file));
    let (few, many) = (time(&short)?, time(&long)?);
    let target = books::number(&books::json("tests/budgets.json")?, "target_score_milliseconds")?;
    let word = if few * 1e3 <= target { "met" } else { "NOT met" };
    Ok(format!(
        "64 bars in {:.2} ms, target {target} {word}; {:.1} MB in {:.0} ms, {:.2} times as long a byte",
        few * 1e3,
        (text.len() + middle.len()) as f64 / 1e6,
        many * 1e3,
        many / few / ((text.len() + middle.len()) as f64 / text.len() as f64)
    ))
}

/// The best path through a tune of sixty-four bars.
fn fingering() -> Found {
    let seconds = budgets::seconds(&budgets::fingering()?, None)?;
    let budget = &books::json("tests/budgets.json")?["fingering"];
    let target = books::number(budget, "target_milliseconds")?;
    let ms = seconds * 1e3;
    let word = if ms <= target { "met" } else { "NOT met" };
    Ok(format!("{ms:.3} ms for 64 bars; target {target} ms {word}"))
}

/// The same work by an independent toolkit, on a sample, in the same run.
fn beside(python: &Path) -> Found {
    let file = sample(python)?;
    let ours = budgets::seconds(&budgets::read_find()?, Some(&file))?;
    let script = place::root().join("tests/python/time_music21.py");
    let report = capture(Command::new(python).arg(script).arg(&file)).map_err(Stop::Failed)?;
    let report: Value = serde_json::from_str(&report)
        .map_err(|error| Stop::failed(format!("{error} in: {report}")))?;
    let theirs = books::number(&report, "seconds")?;
    let failed = books::number(&report, "failed")?;
    println!("ours: {:.3} ms, music21: {:.3} ms", ours * 1e3, theirs * 1e3);
    Ok(format!(
        "{:.0} times as fast as music21's parse and key analysis on {} tunes ({failed} failed there)",
        theirs / ours,
        books::number(&report, "tunes")?
    ))
}

/// A minute of sound in each voice.
fn sound() -> Found {
    let budget = &books::json("tests/budgets.json")?["sound"];
    let target = books::number(budget, "target_milliseconds_per_minute")?;
    let report = capture(Command::new(budgets::sounds()?).arg("seconds")).map_err(Stop::Failed)?;
    print!("{report}");
    let mut worst: f64 = 0.0;
    for line in report.lines() {
        let words: Vec<&str> = line.split_whitespace().collect();
        let seconds = words.iter().position(|word| *word == "seconds");
        let number = seconds.and_then(|at| words.get(at.checked_sub(1)?)?.parse::<f64>().ok());
        worst = worst.max(number.ok_or_else(|| Stop::failed(format!("no seconds in: {line}")))?);
    }
    let word = if worst > 0.0 && worst * 1e3 <= target { "met" } else { "NOT met" };
    Ok(format!("{:.1} ms for a minute of sound; target {target} ms {word}", worst * 1e3))
}

/// Ranking every height of a tune of 64 bars on one instrument.
fn fit() -> Found {
    let budget = &books::json("tests/budgets.json")?["fit"];
    let target = books::number(budget, "target_milliseconds")?;
    let instrument = budget["instrument"].as_str().unwrap_or_default();
    let seconds = budgets::seconds(&budgets::fit_program()?, Some(Path::new(instrument)))?;
    let word = if seconds * 1e3 <= target { "met" } else { "NOT met" };
    Ok(format!("{:.3} ms on {instrument}; target {target} ms {word}", seconds * 1e3))
}

/// The book, tune by tune.
fn whole_book(python: &Path) -> Result<PathBuf, Stop> {
    write("one-core.abc", &tunes(&book(python)?)?)
}

/// Some tunes of the book, spread over it.
fn sample(python: &Path) -> Result<PathBuf, Stop> {
    let tunes = tunes(&book(python)?)?;
    let every = tunes.len().div_ceil(SAMPLE).max(1);
    write("sample.abc", &tunes.into_iter().step_by(every).collect::<Vec<_>>())
}

fn book(python: &Path) -> Result<Book, Stop> {
    let books = books::manifest(python)?.books;
    books
        .into_iter()
        .find(|book| book.name == MEASURED)
        .ok_or_else(|| Stop::failed(format!("{MEASURED} is not in tests/corpus.json")))
}

fn tunes(book: &Book) -> Result<Vec<Vec<u8>>, Stop> {
    let mut tunes = Vec::new();
    for file in &book.files {
        tunes.extend(books::split(&fs::read(file)?).map(|tune| tune.trim_ascii_end().to_vec()));
    }
    Ok(tunes)
}

fn write(name: &str, tunes: &[Vec<u8>]) -> Result<PathBuf, Stop> {
    let file = place::target().join(name);
    let mut whole = tunes.join(&b"\n\n"[..]);
    whole.push(b'\n');
    fs::write(&file, whole)?;
    Ok(file)
}

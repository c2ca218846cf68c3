//! Engraves tunes, on one core, from memory: for looking for marks that collide, for timing and
//! for counting.
//!
//! `sheets check FILE…` engraves every tune with all rows, for A4 and for a phone, and fails where
//! two marks of different notes or rows share room. `sheets seconds FILE` prints the median time
//! of laying out and drawing a tune of a file as SVG and as PDF, `sheets passes N FILE` makes N
//! passes of SVG. Without words it checks the invented sample of the counted budget. `cargo xtask` calls it in all these
//! ways.

use modewright_core::Tune;
use modewright_core::count::{CountOptions, count};
use modewright_core::instrument::Hole;
use modewright_formats::source::Splitter;
use modewright_formats::{ReadOptions, read};
use modewright_lesson::words;
use modewright_sheet::{Cell, Options, Paper, Row, engrave, pdf, rows, svg};
use modewright_tests::collide::{Fonts, collisions, extents};
use std::hint::black_box;
use std::path::Path;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// A measurement goes on for as long, or for so many passes.
const LEAST_TIME: Duration = Duration::from_secs(2);
const LEAST_PASSES: usize = 5;
/// Collisions that are told of a file.
const TOLD: usize = 12;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let sample = modewright_tests::path("fixtures/sheet-64.abc");
    match words.as_slice() {
        [] => check(&[sample.to_string_lossy().as_ref()]),
        ["check", files @ ..] => check(files),
        ["seconds", file] => seconds(Path::new(file)),
        ["passes", count, file] => match count.parse() {
            Ok(count) => passes(count, Path::new(file)),
            Err(_) => usage(),
        },
        _ => usage(),
    }
}

fn usage() -> ExitCode {
    eprintln!("sheets check FILE…, sheets seconds FILE, or sheets passes N FILE");
    ExitCode::from(2)
}

fn tunes(file: &Path) -> Vec<Tune> {
    let bytes = std::fs::read(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    let texts = Splitter::new(bytes.as_slice());
    let tunes = texts.map(|text| {
        let text = text.unwrap_or_else(|error| panic!("{}: {error:?}", file.display()));
        read(&text, &ReadOptions::default()).tune
    });
    tunes.collect()
}

/// All rows that a tune can have, with made-up holes and bellows.
fn options(tune: &Tune, paper: Paper) -> Options {
    let made = |label: &str, cell: &dyn Fn(i16) -> Cell| {
        let cell = |e: &modewright_core::tune::Event| {
            e.sound.pitch().map_or(Cell::Empty, |pitch| cell(pitch.midi()))
        };
        Row { label: label.to_owned(), cells: tune.events.iter().map(cell).collect() }
    };
    let mut all = vec![
        rows::counts(tune, "count", &count(tune, CountOptions::default())),
        rows::names(tune, "note", words::note),
        made("bellows", &|midi| if midi % 2 == 0 { Cell::Push } else { Cell::Draw }),
    ];
    if let Some(key) = tune.key().and_then(modewright_core::tune::WrittenKey::key) {
        all.push(rows::degrees(tune, "degree", key));
    }
    all.push(made("holes", &|midi| {
        let kinds = [Hole::Closed, Hole::Half, Hole::Open];
        let holes = (0..6).map(|i| kinds[usize::from((midi + i).unsigned_abs()) % 3]);
        Cell::Holes { holes: holes.collect(), upper: midi > 72, unconfirmed: midi % 5 == 0 }
    }));
    all.extend(rows::lyrics(tune, "words"));
    Options { paper, rows: all, ..Options::default() }
}

fn check(files: &[&str]) -> ExitCode {
    let fonts = Fonts::new();
    let (mut sheets, mut marks, mut bad) = (0, 0, 0);
    for file in files {
        let mut told = 0;
        for tune in tunes(Path::new(file)) {
            for (name, paper) in [("A4", Paper::A4), ("phone", Paper::PHONE)] {
                let picture = svg(&engrave(&tune, &options(&tune, paper)));
                let found = extents(&picture, &fonts);
                let hits = collisions(&found);
                sheets += 1;
                marks += found.len();
                bad += usize::from(!hits.is_empty());
                for (a, b) in hits {
                    told += 1;
                    if told <= TOLD {
                        println!(
                            "{file} X:{} {name}: {:?} {} and {:?} {}",
                            tune.header.number.as_deref().unwrap_or("?"),
                            a.owner,
                            a.what,
                            b.owner,
                            b.what
                        );
                    }
                }
            }
        }
        if told > TOLD {
            println!("{file}: and {} more", told - TOLD);
        }
    }
    println!("{sheets} sheets with {marks} marks, {bad} with marks that collide");
    if bad == 0 && sheets > 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// Lays out and draws every tune once, with counts and names under the notes.
fn pass(tunes: &[(Tune, Options)]) -> usize {
    tunes.iter().map(|(tune, options)| svg(&engrave(black_box(tune), options)).len()).sum()
}

fn with_rows(file: &Path) -> Vec<(Tune, Options)> {
    let tunes = tunes(file).into_iter();
    tunes
        .map(|tune| {
            let rows = vec![
                rows::counts(&tune, "count", &count(&tune, CountOptions::default())),
                rows::names(&tune, "note", words::note),
            ];
            (tune, Options { rows, ..Options::default() })
        })
        .collect()
}

fn seconds(file: &Path) -> ExitCode {
    let tunes = with_rows(file);
    let bytes = pass(&tunes);
    let picture = median(|| pass(&tunes));
    let documents = || {
        let sheets = tunes.iter().map(|(tune, options)| pdf(&engrave(tune, options)));
        sheets.map(|bytes| bytes.map_or(0, |bytes| bytes.len())).sum()
    };
    let document = median(documents);
    println!(
        "{} tunes, {bytes} bytes of SVG: {picture:.6} seconds, {} bytes of PDF: {document:.6} seconds",
        tunes.len(),
        documents()
    );
    ExitCode::SUCCESS
}

/// The median time of a pass, in seconds.
fn median(mut pass: impl FnMut() -> usize) -> f64 {
    let mut times = Vec::new();
    let start = Instant::now();
    while times.len() < LEAST_PASSES || start.elapsed() < LEAST_TIME {
        let from = Instant::now();
        black_box(pass());
        times.push(from.elapsed());
    }
    times.sort_unstable();
    times[times.len() / 2].as_secs_f64()
}

fn passes(count: usize, file: &Path) -> ExitCode {
    let tunes = with_rows(file);
    let bytes: usize = (0..count).map(|_| pass(&tunes)).sum();
    println!("{} tunes, {count} passes, {bytes} bytes of SVG", tunes.len());
    ExitCode::SUCCESS
}

//! Reads tunes and finds their modes, on one core, from memory: for timing and for counting.
//!
//! `read_find seconds FILE` prints the median time of a pass over all tunes of a file;
//! `read_find least FILE` that of the quickest; `read_find read FILE` times reading alone, `read_find told FILE` finding with all that can be
//! asked of it, `read_find floor FILE` a bare loop over the same bytes. `read_find passes N FILE`
//! makes N passes and prints how many notes they saw; `reads` and `floors` in its place make passes
//! that read alone, and passes of the bare loop. The file may be of any format that is read. Without
//! words it times the invented sample of the counted budget. `cargo xtask` calls it in all these ways.

use modewright_core::find::find;
use modewright_formats::source::{TuneText, Tunes};
use modewright_formats::{ReadOptions, read};
use std::hint::black_box;
use std::path::Path;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// A measurement goes on for as long, or for so many passes.
const LEAST_TIME: Duration = Duration::from_secs(3);
const LEAST_PASSES: usize = 5;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        [] => seconds(&modewright_tests::path("fixtures/speed.abc"), pass, MEDIAN),
        ["seconds", file] => seconds(Path::new(file), pass, MEDIAN),
        ["least", file] => seconds(Path::new(file), pass, LEAST),
        ["read", file] => seconds(Path::new(file), reading, MEDIAN),
        ["told", file] => seconds(Path::new(file), telling, MEDIAN),
        ["floor", file] => seconds(Path::new(file), floor, MEDIAN),
        [what @ ("passes" | "reads" | "floors"), count, file] => match count.parse() {
            Ok(count) => {
                let pass = match *what {
                    "passes" => pass,
                    "reads" => reading,
                    _ => floor,
                };
                passes(count, Path::new(file), pass)
            }
            Err(_) => usage(),
        },
        _ => usage(),
    }
}

fn usage() -> ExitCode {
    eprintln!("read_find seconds FILE, or read_find passes N FILE");
    ExitCode::from(2)
}

/// All tunes of a file, split but not yet read.
fn tunes(file: &Path) -> Vec<TuneText> {
    let bytes = std::fs::read(file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
    let tunes: Result<Vec<TuneText>, _> = Tunes::new(bytes.as_slice()).collect();
    let tunes = tunes.unwrap_or_else(|error| panic!("{}: {error:?}", file.display()));
    assert!(!tunes.is_empty(), "{} holds no tunes", file.display());
    tunes
}

/// Reads every tune and finds its mode; the number of notes shows that it was done.
fn pass(tunes: &[TuneText]) -> usize {
    let options = ReadOptions::default();
    let mut events = 0;
    for text in tunes {
        let reading = read(black_box(text), &options);
        black_box(find(&reading.tune));
        events += reading.tune.events.len();
    }
    events
}

/// Reads every tune and looks for nothing.
fn reading(tunes: &[TuneText]) -> usize {
    let options = ReadOptions::default();
    tunes.iter().map(|text| black_box(read(black_box(text), &options)).tune.events.len()).sum()
}

/// Reads every tune, finds its mode, and asks for the reasons and the strains.
fn telling(tunes: &[TuneText]) -> usize {
    let options = ReadOptions::default();
    let mut events = 0;
    for text in tunes {
        let tune = read(black_box(text), &options).tune;
        let finding = find(&tune);
        black_box((finding.evidence(&tune), finding.strains(&tune)));
        events += tune.events.len();
    }
    events
}

/// The least that reading can cost: one look at each byte, which counts lines, and note letters
/// outside of fields.
fn floor(tunes: &[TuneText]) -> usize {
    tunes.iter().map(|text| letters(black_box(&text.text))).sum()
}

fn letters(text: &str) -> usize {
    let (mut lines, mut notes) = (0_usize, 0_usize);
    let (mut place, mut in_field) = (0_usize, false);
    for byte in text.bytes() {
        match byte {
            b'\n' => {
                lines += 1;
                (place, in_field) = (0, false);
                continue;
            }
            b':' if place == 1 => in_field = true,
            b'A'..=b'G' | b'a'..=b'g' if !in_field => notes += 1,
            _ => {}
        }
        place += 1;
    }
    black_box(lines);
    notes
}

/// Which of the passes in the order of their times is told, as a part of two.
const MEDIAN: usize = 1;
const LEAST: usize = 0;

fn seconds(file: &Path, pass: fn(&[TuneText]) -> usize, which: usize) -> ExitCode {
    let tunes = tunes(file);
    let events = pass(&tunes);
    let mut times = Vec::new();
    let start = Instant::now();
    while times.len() < LEAST_PASSES || start.elapsed() < LEAST_TIME {
        let from = Instant::now();
        pass(&tunes);
        times.push(from.elapsed());
    }
    times.sort_unstable();
    let told = times[times.len() * which / 2].as_secs_f64();
    let rate = tunes.len() as f64 / told;
    let word = if which == LEAST { "least" } else { "median" };
    println!(
        "{} tunes with {events} notes and rests: {told:.6} seconds, {rate:.0} tunes/s \
         ({word} of {} passes)",
        tunes.len(),
        times.len()
    );
    ExitCode::SUCCESS
}

fn passes(count: usize, file: &Path, pass: fn(&[TuneText]) -> usize) -> ExitCode {
    let tunes = tunes(file);
    let events: usize = (0..count).map(|_| pass(&tunes)).sum();
    println!("{} tunes, {count} passes, {events} notes and rests", tunes.len());
    ExitCode::SUCCESS
}

//! Reads tunes and finds their modes, on one core, from memory: for timing and for counting.
//!
//! `read_find seconds FILE` prints the median time of a pass over all tunes of a file;
//! `read_find read FILE` times reading alone; `read_find passes N FILE` makes N passes and prints how
//! many notes they saw; `read_find reads N FILE` makes passes that read alone. The file may be of any format that is read. Without words it
//! times the invented sample of the counted budget. `cargo xtask` calls it in all these ways.

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
        [] => seconds(&modewright_tests::path("fixtures/speed.abc"), pass),
        ["seconds", file] => seconds(Path::new(file), pass),
        ["read", file] => seconds(Path::new(file), reading),
        ["passes", count, file] => match count.parse() {
            Ok(count) => passes(count, Path::new(file), pass),
            Err(_) => usage(),
        },
        ["reads", count, file] => match count.parse() {
            Ok(count) => passes(count, Path::new(file), reading),
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

fn seconds(file: &Path, pass: fn(&[TuneText]) -> usize) -> ExitCode {
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
    let median = times[times.len() / 2].as_secs_f64();
    let rate = tunes.len() as f64 / median;
    println!(
        "{} tunes with {events} notes and rests: {median:.6} seconds, {rate:.0} tunes/s \
         (median of {} passes)",
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

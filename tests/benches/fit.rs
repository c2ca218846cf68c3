//! Ranks every transposition of a tune of 64 bars on one instrument: for timing and for counting.
//!
//! `fit seconds INSTRUMENT` prints the median time of one ranking; `fit passes N INSTRUMENT` makes
//! N of them and prints how many heights they looked at. Without words it times the instrument
//! with the most ways to play a note. `cargo xtask` calls it in all these ways.

use modewright_core::find::find;
use modewright_core::fit::fit;
use modewright_core::instrument::Instrument;
use modewright_core::transpose::key_of;
use modewright_core::{Key, Tune};
use modewright_formats::instrument::builtin;
use modewright_formats::source::TuneText;
use modewright_formats::{ReadOptions, abc};
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// A measurement goes on for as long, or for so many rankings.
const LEAST_TIME: Duration = Duration::from_secs(2);
const LEAST_PASSES: usize = 100;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        [] => seconds("guitar"),
        ["seconds", instrument] => seconds(instrument),
        ["passes", count, instrument] => match count.parse() {
            Ok(count) => passes(count, instrument),
            Err(_) => usage(),
        },
        _ => usage(),
    }
}

fn usage() -> ExitCode {
    eprintln!("fit seconds INSTRUMENT, or fit passes N INSTRUMENT");
    ExitCode::from(2)
}

fn read(instrument: &str) -> (Tune, Option<Key>, &'static Instrument) {
    let text = TuneText::abc(modewright_tests::text("fixtures/sixty-four-bars.abc"));
    let tune = abc::read(&text, &ReadOptions::default()).tune;
    assert_eq!(tune.bars.len(), 64, "the tune has another length");
    let key = key_of(&tune, &find(&tune));
    let found = builtin::find(instrument);
    (tune, key, found.unwrap_or_else(|near| panic!("{instrument}: {near:?}")))
}

/// Heights that one ranking looked at.
fn pass(tune: &Tune, instrument: &Instrument, key: Option<Key>) -> usize {
    black_box(fit(black_box(tune), black_box(instrument), key)).candidates.len()
}

fn seconds(instrument: &str) -> ExitCode {
    let (tune, key, it) = read(instrument);
    let heights = pass(&tune, it, key);
    let mut times = Vec::new();
    let start = Instant::now();
    while times.len() < LEAST_PASSES || start.elapsed() < LEAST_TIME {
        let from = Instant::now();
        pass(&tune, it, key);
        times.push(from.elapsed());
    }
    times.sort_unstable();
    let median = times[times.len() / 2].as_secs_f64();
    let passes = times.len();
    println!("{heights} heights on {}: {median:.6} seconds (median of {passes})", it.id);
    ExitCode::SUCCESS
}

fn passes(count: usize, instrument: &str) -> ExitCode {
    let (tune, key, it) = read(instrument);
    let heights: usize = (0..count).map(|_| pass(&tune, it, key)).sum();
    println!("{count} passes on {}, {heights} heights", it.id);
    ExitCode::SUCCESS
}

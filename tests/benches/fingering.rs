//! Fingers a tune of sixty-four bars, on one core, from memory: for timing and for counting.
//!
//! `fingering seconds` prints the median time of a path on the instrument whose notes have the
//! most ways; `fingering passes N` finds it N times. `cargo xtask` calls it in both ways.

use modewright_core::Tune;
use modewright_core::fingering::{Options, plan};
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::builtin;
use modewright_formats::source::split;
use modewright_formats::{ReadOptions, read};
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// A measurement goes on for as long, or for so many passes.
const LEAST_TIME: Duration = Duration::from_secs(2);
const LEAST_PASSES: usize = 5;

/// Three rows: most notes have two or three ways.
const INSTRUMENT: &str = "anglo-30-c-g";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        [] | ["seconds"] => seconds(),
        ["passes", count] => match count.parse() {
            Ok(count) => passes(count),
            Err(_) => usage(),
        },
        _ => usage(),
    }
}

fn usage() -> ExitCode {
    eprintln!("fingering seconds, or fingering passes N");
    ExitCode::from(2)
}

fn setting() -> (Tune, &'static Instrument) {
    let text = modewright_tests::text("fixtures/four-ebbs.abc");
    let text = split(&text).next().expect("a tune");
    let tune = read(&text, &ReadOptions::default()).tune;
    assert_eq!(tune.bars.last().map(|bar| bar.number), Some(64), "sixty-four bars");
    (tune, builtin::find(INSTRUMENT).expect("an instrument"))
}

/// One path, with every way allowed; its cost shows that it was found.
fn pass(tune: &Tune, instrument: &Instrument) -> u64 {
    let options = Options { style: 0, unconfirmed: true };
    black_box(plan(black_box(tune), instrument, options)).cost
}

fn seconds() -> ExitCode {
    let (tune, instrument) = setting();
    let cost = pass(&tune, instrument);
    let mut times = Vec::new();
    let start = Instant::now();
    while times.len() < LEAST_PASSES || start.elapsed() < LEAST_TIME {
        let from = Instant::now();
        pass(&tune, instrument);
        times.push(from.elapsed());
    }
    times.sort_unstable();
    let median = times[times.len() / 2].as_secs_f64();
    println!(
        "{} notes on {INSTRUMENT}, cost {cost}: {median:.6} seconds (median of {} passes)",
        tune.soundings().count(),
        times.len()
    );
    ExitCode::SUCCESS
}

fn passes(count: usize) -> ExitCode {
    let (tune, instrument) = setting();
    let cost: u64 = (0..count).map(|_| pass(&tune, instrument)).sum();
    println!("{count} passes, cost {cost}");
    ExitCode::SUCCESS
}

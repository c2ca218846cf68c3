//! Renders a minute of sound, on one core, in memory: for timing and for counting.
//!
//! `sounds seconds` prints the median time of a minute, `sounds passes N` renders N minutes and
//! prints in how many of their
//! seconds something sounds. Without words it times. `cargo xtask` calls it in these ways.

use modewright_formats::source::Splitter;
use modewright_formats::{ReadOptions, read};
use modewright_sound::{PerformOptions, Performance, RATE, Voice, render};
use std::hint::black_box;
use std::process::ExitCode;
use std::time::{Duration, Instant};

/// A measurement goes on for as long, or for so many passes.
const LEAST_TIME: Duration = Duration::from_secs(2);
const LEAST_PASSES: usize = 5;
/// A minute, in nanoseconds.
const MINUTE: u64 = 60_000_000_000;

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
    eprintln!("sounds seconds, or sounds passes N");
    ExitCode::from(2)
}

/// Tunes of the invented sample one after the other, cut after a minute.
fn minute() -> Performance {
    let bytes = std::fs::read(modewright_tests::path("fixtures/speed.abc")).expect("the sample");
    let mut whole = Performance::default();
    let texts: Result<Vec<_>, _> = Splitter::new(bytes.as_slice()).collect();
    for text in texts.expect("tunes").iter().cycle() {
        let tune = read(text, &ReadOptions::default()).tune;
        let Ok(next) = Performance::of(&tune, &PerformOptions::default()) else { continue };
        let start = whole.length;
        let notes =
            next.notes.iter().map(|n| modewright_sound::Note { start: n.start + start, ..*n });
        whole.notes.extend(notes);
        whole.length += next.length;
        if whole.length >= MINUTE {
            break;
        }
    }
    whole.notes.retain(|note| note.start < MINUTE);
    whole.length = MINUTE;
    whole
}

fn seconds() -> ExitCode {
    let minute = minute();
    for (voice, name) in [(Voice::Plucked, "plucked"), (Voice::Reed, "reed")] {
        let mut times = Vec::new();
        let start = Instant::now();
        while times.len() < LEAST_PASSES || start.elapsed() < LEAST_TIME {
            let from = Instant::now();
            black_box(render(black_box(&minute), voice));
            times.push(from.elapsed());
        }
        times.sort_unstable();
        let median = times[times.len() / 2].as_secs_f64();
        println!("{name}: {median:.6} seconds for a minute (median of {} passes)", times.len());
    }
    ExitCode::SUCCESS
}

fn passes(count: usize) -> ExitCode {
    let minute = minute();
    let mut sounding = 0;
    for _ in 0..count {
        let samples = render(black_box(&minute), Voice::Reed);
        // One sample a second shows that it was done.
        sounding += samples.iter().step_by(RATE as usize).filter(|sample| **sample != 0.0).count();
    }
    println!("{count} minutes, sounding in {sounding} seconds of them");
    ExitCode::SUCCESS
}

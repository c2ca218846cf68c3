//! Writes every tune of the files that are named in every format and reads it again: the tune must
//! be the same. `cargo xtask` calls it with the tune books.

use modewright_core::Tune;
use modewright_formats::source::{Splitter, TuneText};
use modewright_formats::{ReadOptions, abc, read};
use modewright_tests::plain;
use std::path::Path;
use std::process::ExitCode;

/// Tunes that are told of one by one; the rest are counted.
const TOLD: usize = 10;

fn main() -> ExitCode {
    let mut tally = Tally::default();
    for file in std::env::args().skip(1) {
        let bytes = std::fs::read(&file).unwrap_or_else(|error| panic!("{file}: {error}"));
        for text in Splitter::new(bytes.as_slice()).filter_map(Result::ok) {
            let tune = read(&text, &ReadOptions::default()).tune;
            let name = format!("{file} X:{}", tune.header.number.as_deref().unwrap_or_default());
            tally.tune(&name, &tune);
        }
    }
    println!("{} tunes, {} not the same again", tally.tunes, tally.changed);
    if tally.tunes > 0 && tally.changed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

#[derive(Default)]
struct Tally {
    tunes: usize,
    changed: usize,
}

impl Tally {
    fn tune(&mut self, name: &str, tune: &Tune) {
        self.tunes += 1;
        let written = abc::write(tune);
        let again = abc::read(&TuneText::abc(written.as_str()), &ReadOptions::default()).tune;
        self.compare(name, "ABC", &plain(tune), &plain(&again));
    }

    fn compare(&mut self, name: &str, format: &str, tune: &Tune, again: &Tune) {
        if tune == again {
            return;
        }
        self.changed += 1;
        if self.changed <= TOLD {
            let name = Path::new(name).file_name().map_or(name.into(), |n| n.to_string_lossy());
            println!("{name}: changed by {format}");
            first_difference(tune, again);
        }
    }
}

/// Prints the first line in which the two differ.
fn first_difference(tune: &Tune, again: &Tune) {
    let (a, b) = (format!("{tune:#?}"), format!("{again:#?}"));
    let differs = a.lines().zip(b.lines()).enumerate().find(|(_, (a, b))| a != b);
    if let Some((at, (was, is))) = differs {
        let context: Vec<&str> =
            a.lines().skip(at.saturating_sub(12)).take(12).map(str::trim).collect();
        println!("  {}\n  was {}, is {}", context.join(" "), was.trim(), is.trim());
    } else {
        println!("  one has more: {} lines and {}", a.lines().count(), b.lines().count());
    }
}

//! Runs one target for a time, or one input. `cargo xtask fuzz` calls it.
//!
//! `fuzz run TARGET SECONDS SEED FOLDER [BOOK…]` makes inputs for so many seconds of the processor, beginning with the tunes of ABC
//! books; for each kind of broken promise an input is written into the folder. `fuzz one TARGET FILE…` tries
//! single inputs. `fuzz mutants COUNT PACK FOLDER BOOK…` writes damaged tunes. `fuzz smaller TARGET FILE` cuts one down as long as it breaks a promise.

use modewright_formats::source::Splitter;
use modewright_fuzz::{
    Break, Chance, Grain, Limits, TARGETS, Target, breaks, mutate, named, run, try_one,
};
use std::path::Path;
use std::process::ExitCode;
use std::time::Duration;

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    match words.as_slice() {
        ["targets"] => {
            for target in TARGETS {
                println!("{}", target.name);
            }
            ExitCode::SUCCESS
        }
        ["run", target, seconds, seed, folder, books @ ..] => {
            match (named(target), seconds.parse(), seed.parse()) {
                (Some(target), Ok(seconds), Ok(seed)) => {
                    long(target, Duration::from_secs(seconds), seed, Path::new(folder), books)
                }
                _ => usage(),
            }
        }
        ["mutants", count, pack, folder, books @ ..] => match (count.parse(), pack.parse()) {
            (Ok(count), Ok(pack)) => mutants(count, pack, Path::new(folder), books),
            _ => usage(),
        },
        ["one", target, files @ ..] => named(target).map_or_else(usage, |it| single(it, files)),
        ["smaller", target, file] => named(target).map_or_else(usage, |it| smaller(it, file)),
        _ => usage(),
    }
}

fn usage() -> ExitCode {
    let names: Vec<&str> = TARGETS.iter().map(|target| target.name).collect();
    eprintln!(
        "fuzz run TARGET SECONDS SEED FOLDER [BOOK…], fuzz one TARGET FILE…, fuzz smaller TARGET \
         FILE; targets: {}",
        names.join(", ")
    );
    ExitCode::from(2)
}

fn long(target: &Target, time: Duration, seed: u64, folder: &Path, books: &[&str]) -> ExitCode {
    let Some(tunes) = tunes(books) else { return ExitCode::from(2) };
    if let Err(error) = std::fs::create_dir_all(folder) {
        eprintln!("{}: {error}", folder.display());
        return ExitCode::from(2);
    }
    let limits = Limits { inputs: u64::MAX, time };
    let done = run(target, &tunes, seed, limits, Some(folder));
    let (seconds, wall) = (done.time.as_secs_f64(), done.wall.as_secs_f64());
    let of = |kind| done.broken.iter().filter(|broken| broken.of == kind).count();
    println!(
        "{}: {} inputs in {seconds:.0} s of the processor, {wall:.0} of the wall ({} with all \
         checks), {} kinds of answers, at most {} ns for a unit of work, {} kinds of faults, {} of \
         broken laws, seed {seed}",
        target.name,
        done.inputs,
        done.thorough,
        done.kinds,
        done.slowest,
        of(Break::Fault),
        of(Break::Law)
    );
    let _ = std::fs::write(folder.join(format!("{}.slowest", target.name)), &done.slow);
    for broken in &done.broken {
        println!(
            "{}: BROKEN, {:?} of {} inputs, first after {}: {}\n{}",
            target.name,
            broken.of,
            broken.times,
            broken.after,
            short(&broken.why),
            broken.file.as_deref().unwrap_or(folder).display()
        );
    }
    if done.broken.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// The tunes of books; `None` where one cannot be read.
fn tunes(books: &[&str]) -> Option<Vec<String>> {
    let mut tunes = Vec::new();
    for book in books {
        let bytes = std::fs::read(book).map_err(|error| eprintln!("{book}: {error}")).ok()?;
        let texts = Splitter::new(bytes.as_slice()).filter_map(Result::ok);
        tunes.extend(texts.map(|text| text.text));
    }
    Some(tunes)
}

/// Writes damaged tunes of books, so many to a file; the same each time.
fn mutants(count: usize, pack: usize, folder: &Path, books: &[&str]) -> ExitCode {
    let Some(tunes) = tunes(books) else { return ExitCode::from(2) };
    let abc = named("abc").map_or(&[][..], |target| target.words);
    let mut chance = Chance::new(1);
    let mut file = Vec::new();
    for i in 0..count {
        let every = (tunes.len() / count.max(1)).max(1);
        let Some(tune) = tunes.get((i * every) % tunes.len().max(1)) else { break };
        let mut other = chance.one(&tunes).map_or_else(String::new, Clone::clone);
        other.truncate(other.floor_char_boundary(2000));
        let pool = [tune.clone().into_bytes(), tune.clone().into_bytes(), other.into_bytes()];
        file.extend(mutate(&pool, Grain::Words, abc, &mut chance));
        file.extend(b"\n\n");
        if (i + 1) % pack.max(1) == 0 || i + 1 == count {
            let name = folder.join(format!("{:05}.abc", i + 1 - pack.min(i + 1)));
            if let Err(error) = std::fs::write(&name, &file) {
                eprintln!("{}: {error}", name.display());
                return ExitCode::from(2);
            }
            file.clear();
        }
    }
    ExitCode::SUCCESS
}

fn single(target: &Target, files: &[&str]) -> ExitCode {
    let mut broken = false;
    for file in files {
        let input = std::fs::read(file).unwrap_or_default();
        let begun = std::time::Instant::now();
        match try_one(target, &input, true) {
            Ok(seen) if !seen.laws.is_empty() => {
                broken = true;
                println!("{file}: BROKEN: {}", seen.laws.join("\n"));
            }
            Ok(seen) => {
                let (work, signs) = (seen.work, seen.signs);
                println!("{file}: holds, {work} units of work in {:?}, {signs:?}", begun.elapsed());
            }
            Err(why) => {
                broken = true;
                println!("{file}: BROKEN: {why}");
            }
        }
    }
    if broken { ExitCode::FAILURE } else { ExitCode::SUCCESS }
}

/// Cuts pieces out of an input as long as it breaks the same promise.
fn smaller(target: &Target, file: &str) -> ExitCode {
    let mut input = std::fs::read(file).unwrap_or_default();
    let kinds = |input: &[u8]| breaks(target, input).into_iter().map(|broken| broken.kind);
    let Some(first) = kinds(&input).next() else {
        println!("{file}: holds");
        return ExitCode::FAILURE;
    };
    let mut piece = input.len() / 2;
    while piece > 0 {
        let mut at = 0;
        while at < input.len() {
            let end = (at + piece).min(input.len());
            let less = [&input[..at], &input[end..]].concat();
            if kinds(&less).any(|kind| kind == first) {
                input = less;
            } else {
                at = end;
            }
        }
        piece /= 2;
    }
    let to = format!("{file}.small");
    let kept = std::fs::write(&to, &input);
    println!("{to}: {} bytes {kept:?}\n{}", input.len(), String::from_utf8_lossy(&input));
    ExitCode::SUCCESS
}

/// The beginning of a long complaint.
fn short(why: &str) -> String {
    why.chars().take(2000).collect()
}

//! Long runs of random and damaged input: the targets of `tests/fuzz`, and damaged tunes of the
//! books through the real command.

use crate::process::{build, capture, modewright};
use crate::stage::{Found, Stages, Stop};
use crate::{answers, books, measure, place, setup};
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};
use std::time::{SystemTime, UNIX_EPOCH};

/// What was asked for: minutes of the processor for each target, and which.
#[derive(Debug, PartialEq)]
struct Asked {
    minutes: u64,
    targets: Vec<String>,
}

/// `cargo xtask fuzz [--minutes N] [TARGET…]`, or `cargo xtask fuzz mutants`.
pub(crate) fn run(words: &[String]) -> ExitCode {
    let asked = match asked(words) {
        Ok(asked) => asked,
        Err(why) => {
            eprintln!(
                "error: {why}\nhint: cargo xtask fuzz [--minutes N] [TARGET…]; a target is one of tests/fuzz/src/targets, or mutants"
            );
            return ExitCode::from(2);
        }
    };
    let mut stages = Stages::new();
    if asked.targets.iter().any(|target| target == "mutants") {
        stages.run("mutants", || mutants(&setup::python()?, &modewright()?, ALL));
        return stages.finish();
    }
    stages.run("fuzz", || targets(&setup::python()?, &asked));
    stages.finish()
}

fn asked(words: &[String]) -> Result<Asked, String> {
    let mut asked = Asked { minutes: 1, targets: Vec::new() };
    let mut words = words.iter();
    while let Some(word) = words.next() {
        match word.as_str() {
            "--minutes" => {
                let number = words.next().ok_or("--minutes has no number")?;
                asked.minutes =
                    number.parse().map_err(|_| format!("`{number}` is no number of minutes"))?;
            }
            option if option.starts_with('-') => return Err(format!("there is no {option}")),
            target => asked.targets.push(target.to_owned()),
        }
    }
    Ok(asked)
}

const BUILD: [&str; 5] = ["build", "--profile", "fuzz", "--package", "modewright-fuzz"];

/// Runs targets one after the other, each with seeds that no run had before.
fn targets(python: &Path, asked: &Asked) -> Found {
    let program = build("fuzz", &BUILD)?;
    let known = capture(Command::new(&program).arg("targets")).map_err(Stop::Failed)?;
    let known: Vec<&str> = known.lines().collect();
    if let Some(unknown) = asked.targets.iter().find(|name| !known.contains(&name.as_str())) {
        return Err(Stop::failed(format!("no target {unknown}: {}", known.join(", "))));
    }
    let seed = SystemTime::now().duration_since(UNIX_EPOCH).map_or(1, |since| since.as_secs());
    let seconds = (asked.minutes * 60).to_string();
    let mut broken = 0;
    let chosen = known
        .iter()
        .filter(|name| asked.targets.is_empty() || asked.targets.iter().any(|t| t == *name));
    for target in chosen {
        let mut command = Command::new(&program);
        command.env("CARGO_MANIFEST_DIR", place::root().join("tests/fuzz"));
        command.args(["run", target, &seconds, &seed.to_string()]);
        command.arg(place::target().join("fuzz-found"));
        for book in books::manifest(python)?.books.iter().filter(|book| book.tunes < 5000) {
            command.args(&book.files);
        }
        // What one target breaks does not end the runs of the others.
        if crate::process::run(&mut command).is_err() {
            broken += 1;
        }
    }
    match broken {
        0 => Ok(format!("every promise held, seed {seed}")),
        _ => Err(Stop::failed(format!("{broken} targets broke a promise, seed {seed}"))),
    }
}

/// Damaged tunes of every run of the tests, and of a long run.
const FEW: usize = 1000;
const ALL: usize = 10_000;
/// Tunes of one file, and the most that a file may take.
const PACK: usize = 10;
const MOST_SECONDS: f64 = 60.0;
const MOST_MIB: f64 = 400.0;

/// The damaged tunes of every run of the tests.
pub(crate) fn few_mutants(python: &Path, modewright: &Path) -> Found {
    mutants(python, modewright, FEW)
}

/// Tunes of the books, each damaged in a few places, in files of hundreds: the command ends with
/// 0 or 1, every line is an answer, and time and memory have bounds.
fn mutants(python: &Path, modewright: &Path, wanted: usize) -> Found {
    // Tunes are damaged without the page, which takes minutes to build.
    let program = build("fuzz", &[&BUILD[..], &["--no-default-features"]].concat())?;
    let folder = place::target().join("mutants");
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    let mut make = Command::new(&program);
    make.env("CARGO_MANIFEST_DIR", place::root().join("tests/fuzz"));
    make.args(["mutants", &wanted.to_string(), &PACK.to_string()]).arg(&folder);
    for book in books::manifest(python)?.books.iter().filter(|book| book.tunes < 5000) {
        make.args(&book.files);
    }
    capture(&mut make).map_err(Stop::Failed)?;
    let mut files: Vec<PathBuf> = Vec::new();
    for file in fs::read_dir(&folder)? {
        files.push(file?.path());
    }
    files.sort();
    let (mut lines, mut seconds, mut peak) = (0_usize, 0.0_f64, 0.0_f64);
    for file in &files {
        let mut command = Command::new(modewright);
        command.args(["find", "--json"]).arg(file);
        let none = None::<fn(&mut dyn Write) -> std::io::Result<()>>;
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let run = measure::run(&mut command, none, |line| {
            lines += 1;
            let wrong = |why| Stop::failed(format!("{name}: {why}"));
            answers::read(line).map(drop).map_err(wrong)
        })
        .map_err(|stop| match stop {
            Stop::Failed(why) => Stop::failed(format!("{name}: {why}")),
            other => other,
        })?;
        let mib = run.peak_kib.map_or(0.0, crate::corpus::mib);
        (seconds, peak) = (seconds.max(run.seconds), peak.max(mib));
    }
    let found = format!(
        "{wanted} damaged tunes, {lines} answers; at most {seconds:.1} s and {peak:.0} MiB for \
         {PACK} of them, of {MOST_SECONDS:.0} and {MOST_MIB:.0}"
    );
    // Damage joins tunes and parts them, but most stay tunes.
    let bounded = lines > wanted / 2 && seconds < MOST_SECONDS && peak < MOST_MIB;
    if bounded { Ok(found) } else { Err(Stop::failed(found)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_minutes_and_targets() {
        let of = |words: &[&str]| {
            asked(&words.iter().map(|word| (*word).to_owned()).collect::<Vec<_>>())
        };
        assert_eq!(of(&[]), Ok(Asked { minutes: 1, targets: vec![] }));
        let wanted = Asked { minutes: 20, targets: vec!["abc".into(), "midi".into()] };
        assert_eq!(of(&["abc", "--minutes", "20", "midi"]), Ok(wanted));
        assert!(of(&["--minutes"]).is_err());
        assert!(of(&["--minutes", "some"]).is_err());
        assert!(of(&["--hours", "1"]).is_err());
    }
}

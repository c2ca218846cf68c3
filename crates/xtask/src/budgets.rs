//! Budgets that fail the build: peak memory, and instructions as the speed that a noisy machine
//! cannot blur.

use crate::answers;
use crate::books::{self, Book};
use crate::corpus::mib;
use crate::measure;
use crate::process::{build, capture};
use crate::stage::{Found, Stop};
use crate::{place, setup};
use std::ffi::OsStr;
use std::fs;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use std::process::Command;

/// Peak memory of the command on very many tunes: as one stream, and as a folder of files.
pub(crate) fn memory(python: &Path, modewright: &Path) -> Found {
    let budget = &books::json("tests/budgets.json")?["memory"];
    let ceiling = books::number(budget, "mib")?;
    let wanted = budget["tunes"].as_u64().and_then(|n| usize::try_from(n).ok()).unwrap_or(0);
    let manifest = books::manifest(python)?;
    let small = smaller(&manifest.books, wanted);
    let per_round: usize = small.iter().map(|book| book.tunes).sum();
    let rounds = wanted.div_ceil(per_round.max(1));
    let folder = copies(&small, rounds)?;

    let mut peaks = Vec::new();
    for (name, stream) in [("stream", true), ("folder", false)] {
        let mut command = Command::new(modewright);
        command.args(["find", "--json"]);
        if stream {
            command.arg("-");
        } else {
            command.arg(&folder);
        }
        let feed = stream.then_some(|into: &mut dyn Write| {
            let mut into = BufWriter::new(into);
            for file in sorted(&folder)? {
                into.write_all(&fs::read(file)?)?;
                into.write_all(b"\n\n")?;
            }
            into.flush()
        });
        let mut count = 0_usize;
        let run = measure::run(&mut command, feed, |line| {
            count += 1;
            // Reading every answer would take longer than finding them; the corpus stage does.
            if count % 1000 == 1 {
                answers::read(line)
                    .map_err(|why| Stop::failed(format!("{name}: answer {count}: {why}")))?;
            }
            Ok(())
        })?;
        if count != rounds * per_round {
            let sent = rounds * per_round;
            return Err(Stop::failed(format!("{name}: {count} answers for {sent} tunes")));
        }
        let Some(peak) = run.peak_kib.map(mib) else {
            return Err(Stop::Skipped("this system does not tell a program's peak memory".into()));
        };
        println!(
            "{name}: {count} tunes in {:.1} s with {peak:.1} MiB at most (budget {ceiling} MiB)",
            run.seconds
        );
        peaks.push(peak);
    }
    let peak = peaks.into_iter().fold(0.0, f64::max);
    let found = format!("{peak:.1} MiB of {ceiling}");
    if peak < ceiling { Ok(found) } else { Err(Stop::failed(found)) }
}

/// The books that are small enough to be repeated: the largest would fill the run alone.
fn smaller(books: &[Book], wanted: usize) -> Vec<&Book> {
    books.iter().filter(|book| book.tunes * 20 <= wanted).collect()
}

/// A folder with so many copies of the books, one file for each book and round.
fn copies(books: &[&Book], rounds: usize) -> Result<PathBuf, Stop> {
    let folder = place::target().join("many-tunes");
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    for book in books {
        let mut whole = Vec::new();
        for file in &book.files {
            for tune in books::split(&fs::read(file)?) {
                whole.extend_from_slice(tune.trim_ascii_end());
                whole.extend_from_slice(b"\n\n");
            }
        }
        for round in 0..rounds {
            fs::write(folder.join(format!("{}-{round:03}.abc", book.name)), &whole)?;
        }
    }
    Ok(folder)
}

fn sorted(folder: &Path) -> std::io::Result<Vec<PathBuf>> {
    let mut files: Vec<PathBuf> =
        fs::read_dir(folder)?.map(|file| file.map(|file| file.path())).collect::<Result<_, _>>()?;
    files.sort();
    Ok(files)
}

/// What cargo is told to build the small program that reads and finds.
pub(crate) const READ_FIND: [&str; 6] =
    ["bench", "--no-run", "--package", "modewright-tests", "--bench", "read_find"];

/// The small program that reads and finds, for counting and timing.
pub(crate) fn read_find() -> Result<PathBuf, Stop> {
    build("read_find", &READ_FIND)
}

/// Instructions that reading and finding take for one tune of fixed, invented samples.
pub(crate) fn instructions() -> Found {
    let sample = place::root().join("tests/fixtures/speed.abc");
    let text = instructions_of(&read_find()?, &sample, "instructions_per_tune");
    let score = score_instructions();
    Ok(format!("{}; {}", text?, score?))
}

/// Instructions that reading a score of 64 bars and finding its mode take.
fn score_instructions() -> Found {
    let ceiling = books::number(&books::json("tests/budgets.json")?, "instructions_per_score")?;
    let valgrind = setup::program("valgrind")?;
    let sample = place::root().join("tests/fixtures/speed.musicxml");
    let counted = per_pass(&valgrind, &read_find()?, &[sample.as_os_str()])?;
    let found = format!("{counted:.0} instructions per score of {ceiling}");
    println!("{found}");
    if counted > 0.0 && counted <= ceiling { Ok(found) } else { Err(Stop::failed(found)) }
}

/// Instructions that a small program takes for each tune of a sample, against a budget by name.
pub(crate) fn instructions_of(program: &Path, sample: &Path, budget: &str) -> Found {
    let budgets = books::json("tests/budgets.json")?;
    let ceiling = books::number(&budgets, budget)?;
    let valgrind = setup::program("valgrind")?;
    let tunes = books::split(&fs::read(sample)?).count();
    if tunes == 0 {
        return Err(Stop::failed(format!("{} holds no tunes", sample.display())));
    }
    let per_pass = per_pass(&valgrind, program, &[sample.as_os_str()])?;
    let per_tune = per_pass / tunes as f64;
    let found = format!("{per_tune:.0} instructions per tune of {ceiling}");
    println!("{found}");
    if per_tune > 0.0 && per_tune <= ceiling { Ok(found) } else { Err(Stop::failed(found)) }
}

/// The small program that renders a minute of sound, for counting and timing.
pub(crate) fn sounds() -> Result<PathBuf, Stop> {
    build("sounds", &["bench", "--no-run", "--package", "modewright-tests", "--bench", "sounds"])
}

/// Instructions that a second of sound takes, of a minute of the invented sample.
pub(crate) fn sound_instructions() -> Found {
    let budget = &books::json("tests/budgets.json")?["sound"];
    let ceiling = books::number(budget, "instructions_per_second")?;
    let valgrind = setup::program("valgrind")?;
    let per_second = per_pass(&valgrind, &sounds()?, &[])? / 60.0;
    let found = format!("{per_second:.0} instructions per second of sound of {ceiling}");
    println!("{found}");
    if per_second > 0.0 && per_second <= ceiling { Ok(found) } else { Err(Stop::failed(found)) }
}

/// The small program that ranks the heights of a long tune on an instrument.
pub(crate) fn fit_program() -> Result<PathBuf, Stop> {
    build("fit", &["bench", "--no-run", "--package", "modewright-tests", "--bench", "fit"])
}

/// Instructions of one ranking of a tune of 64 bars, on the instrument with the most ways.
pub(crate) fn fit_instructions() -> Found {
    let budget = &books::json("tests/budgets.json")?["fit"];
    let ceiling = books::number(budget, "instructions")?;
    let instrument = budget["instrument"].as_str().unwrap_or_default();
    let valgrind = setup::program("valgrind")?;
    let program = fit_program()?;
    let per_pass = per_pass(&valgrind, &program, &[instrument.as_ref()])?;
    let found = format!("{per_pass:.0} instructions per ranking of {ceiling}");
    println!("{found}");
    if per_pass > 0.0 && per_pass <= ceiling { Ok(found) } else { Err(Stop::failed(found)) }
}

/// The small program that fingers a tune of sixty-four bars.
pub(crate) fn fingering() -> Result<PathBuf, Stop> {
    build(
        "fingering",
        &["bench", "--no-run", "--package", "modewright-tests", "--bench", "fingering"],
    )
}

/// Instructions that the best path through a tune of sixty-four bars takes.
pub(crate) fn fingering_instructions() -> Found {
    let ceiling = books::number(&books::json("tests/budgets.json")?["fingering"], "instructions")?;
    let valgrind = setup::program("valgrind")?;
    let counted = per_pass(&valgrind, &fingering()?, &[])?;
    let found = format!("{counted:.0} instructions for 64 bars of {ceiling}");
    println!("{found}");
    if counted > 0.0 && counted <= ceiling { Ok(found) } else { Err(Stop::failed(found)) }
}

/// Instructions that one pass of a small program takes: two runs of different length, so that
/// starting it does not count.
fn per_pass(valgrind: &Path, program: &Path, more: &[&OsStr]) -> Result<f64, Stop> {
    per_pass_of(valgrind, program, ("passes", PASSES), more)
}

/// The same for one of the things that the program can do, and for so many passes.
pub(crate) fn per_pass_of(
    valgrind: &Path,
    program: &Path,
    (what, passes): (&str, u32),
    more: &[&OsStr],
) -> Result<f64, Stop> {
    let count = |passes: u32| {
        let mut command = Command::new(valgrind);
        command.args(["--tool=callgrind", "--callgrind-out-file=/dev/null"]);
        command.env("CARGO_MANIFEST_DIR", place::root().join("tests"));
        command.arg(program).arg(what).arg(passes.to_string()).args(more);
        collected(&mut command)
    };
    let (short, long) = (count(1)?, count(1 + passes)?);
    Ok((long - short) / f64::from(passes))
}

/// Passes that the longer run makes more than the shorter one.
const PASSES: u32 = 4;

/// The number of instructions that valgrind reports at the end.
fn collected(command: &mut Command) -> Result<f64, Stop> {
    let output = command.stdin(std::process::Stdio::null()).output()?;
    let report = String::from_utf8_lossy(&output.stderr);
    report
        .lines()
        .find_map(|line| line.split_once("Collected :"))
        .and_then(|(_, number)| number.trim().parse().ok())
        .ok_or_else(|| {
            let last = report.lines().last().unwrap_or_default();
            Stop::failed(format!("valgrind reports no count: {last}"))
        })
}

/// Seconds that a small program takes, for a file where it wants one, as it reports them.
pub(crate) fn seconds(program: &Path, file: Option<&Path>) -> Result<f64, Stop> {
    seconds_of(program, "seconds", file)
}

/// The same for one of the things that the program can time.
pub(crate) fn seconds_of(program: &Path, what: &str, file: Option<&Path>) -> Result<f64, Stop> {
    let mut command = Command::new(program);
    command.env("CARGO_MANIFEST_DIR", place::root().join("tests")).arg(what).args(file);
    let report = capture(&mut command).map_err(Stop::Failed)?;
    let words: Vec<&str> = report.split_whitespace().collect();
    words
        .iter()
        .position(|word| word.trim_end_matches(',') == "seconds")
        .and_then(|at| words.get(at.checked_sub(1)?))
        .and_then(|number| number.parse().ok())
        .ok_or_else(|| Stop::failed(format!("no seconds in: {report}")))
}

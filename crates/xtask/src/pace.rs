//! How fast tunes are read and found: beside the least that it can cost, in allocations, on all
//! cores, and how soon the command starts.
//!
//! Clock times of a busy machine are loose; the counts of valgrind are the firm figures.

use crate::budgets;
use crate::process::capture;
use crate::stage::{Found, Stop};
use crate::{page, place, setup};
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

/// The aim: reading and finding within so many times of a bare loop over the same bytes.
const AIM: f64 = 25.0;
/// The aim of two cores, beside one.
const CORES_AIM: f64 = 1.8;
/// The aim of WASM in Node, beside native code.
const NODE_AIM: f64 = 2.0;
/// The aim of the command's start, in milliseconds.
const START_AIM: f64 = 5.0;

/// Reading and finding beside a bare loop over the same bytes, by the clock and by instructions.
pub(crate) fn beside_floor(book: &Path, sample: &Path) -> Found {
    let program = budgets::read_find()?;
    let seconds = |what| budgets::seconds_of(&program, what, Some(book));
    let (found, told, floor) = (seconds("seconds")?, seconds("told")?, seconds("floor")?);
    println!("with reasons and strains: {:.2} times as long", told / found);
    let by_clock = found / floor;
    let valgrind = setup::program("valgrind")?;
    let count = |what| budgets::per_pass_of(&valgrind, &program, (what, 2), &[sample.as_os_str()]);
    let (counted, bare) = (count("passes")?, count("floors")?);
    let tunes = count_tunes(sample)?;
    let by_count = counted / bare;
    let word = if by_clock <= AIM { "met" } else { "NOT met" };
    Ok(format!(
        "{by_clock:.0} times a bare loop over the bytes by the clock (aim {AIM} {word}), {by_count:.0} \
         times by instructions ({:.0} a tune)",
        counted / tunes
    ))
}

/// Allocations that reading and finding take, for each tune, as valgrind counts them.
pub(crate) fn allocations(sample: &Path) -> Found {
    let valgrind = setup::program("valgrind")?;
    let program = budgets::read_find()?;
    let count = |passes: u32| {
        let mut command = Command::new(&valgrind);
        command.args(["--tool=memcheck", "--leak-check=no", "--undef-value-errors=no"]);
        command.arg(&program).arg("passes").arg(passes.to_string()).arg(sample);
        allocated(&mut command)
    };
    let ((few, few_bytes), (many, many_bytes)) = (count(1)?, count(3)?);
    let tunes = 2.0 * count_tunes(sample)?;
    Ok(format!(
        "{:.1} allocations and {:.1} KiB a tune",
        (many - few) / tunes,
        (many_bytes - few_bytes) / tunes / 1024.0
    ))
}

/// Allocations and their bytes, as memcheck reports them at the end.
fn allocated(command: &mut Command) -> Result<(f64, f64), Stop> {
    let output = command.stdin(Stdio::null()).output()?;
    let report = String::from_utf8_lossy(&output.stderr).replace(',', "");
    let line = report.lines().find_map(|line| line.split_once("total heap usage:"));
    let words: Vec<&str> =
        line.map(|(_, rest)| rest.split_whitespace().collect()).unwrap_or_default();
    let before = |name: &str| {
        let at = words.iter().position(|word| *word == name)?;
        words.get(at.checked_sub(1)?)?.parse::<f64>().ok()
    };
    before("allocs")
        .zip(before("bytes"))
        .ok_or_else(|| Stop::failed("valgrind reports no heap usage"))
}

/// Reading and finding in Node, beside native code on the same tunes: compiled as the package has
/// it for Node, and as browsers get it. They take turns, and the quickest of each counts.
pub(crate) fn in_node(book: &Path) -> Found {
    const TURNS: usize = 4;
    page::site(&["pace"])?;
    setup::program("node")?;
    let native = budgets::read_find()?;
    let script = place::root().join("tests/browser/pace.mjs");
    let node = |profile: &str| -> Result<f64, Stop> {
        let mut command = Command::new("node");
        command.arg(&script).arg(place::target().join("pace").join(profile)).arg(book);
        let report = capture(&mut command).map_err(Stop::Failed)?;
        let ms: f64 = report.trim().parse().map_err(|_| Stop::failed(report.clone()))?;
        Ok(ms / 1000.0)
    };
    let mut least = [f64::INFINITY; 3];
    for _ in 0..TURNS {
        let turn =
            [budgets::seconds_of(&native, "least", Some(book))?, node("node")?, node("web")?];
        least = std::array::from_fn(|i| least[i].min(turn[i]));
    }
    let [native, fast, small] = least;
    let word = if fast <= NODE_AIM * native { "met" } else { "NOT met" };
    Ok(format!(
        "{:.2} times as long as native code (aim {NODE_AIM} {word}); {:.2} times as browsers get it",
        fast / native,
        small / native
    ))
}

/// A book many times over through the command, on one core and on all.
pub(crate) fn cores(modewright: &Path, book: &Path) -> Found {
    const ROUNDS: usize = 20;
    let text = fs::read(book)?;
    let file = place::target().join("many-books.abc");
    let mut whole = fs::File::create(&file)?;
    for _ in 0..ROUNDS {
        whole.write_all(&text)?;
        whole.write_all(b"\n\n")?;
    }
    drop(whole);
    let seconds = |format: &str, cores: Option<&str>| -> Result<f64, Stop> {
        let mut best = f64::INFINITY;
        for _ in 0..3 {
            let mut command = match cores {
                // The command reads ahead while it answers: one thread is not yet one core.
                Some(cores) => {
                    let mut bound = Command::new("taskset");
                    bound.args(["--cpu-list", cores]).arg(modewright);
                    bound
                }
                None => Command::new(modewright),
            };
            // Nobody reads along: that would take a core too.
            command.args(["find", format]).arg(&file).stdin(Stdio::null());
            let from = Instant::now();
            let status = command.stdout(Stdio::null()).stderr(Stdio::null()).status()?;
            // Some tunes of the book cannot be read, which the status tells.
            if !matches!(status.code(), Some(0 | 1)) {
                return Err(Stop::failed(format!("find {format}: {status}")));
            }
            best = best.min(from.elapsed().as_secs_f64());
        }
        Ok(best)
    };
    let count = std::thread::available_parallelism().map_or(1, usize::from);
    let tunes = count_tunes(&file)?;
    let mut told = Vec::new();
    for format in ["--json", "--csv"] {
        let (one, all) = (seconds(format, Some("0"))?, seconds(format, None)?);
        let word = match count {
            2 if one / all >= CORES_AIM => format!("aim {CORES_AIM} met"),
            2 => format!("aim {CORES_AIM} NOT met"),
            _ => "the aim is told for two".to_owned(),
        };
        let rate = tunes / all;
        told.push(format!("{format} {rate:.0} tunes/s, {:.2} times one core ({word})", one / all));
    }
    Ok(format!("on {count} cores: {}", told.join("; ")))
}

/// The time from starting the command to its end, when there is nothing to do.
pub(crate) fn start(modewright: &Path) -> Found {
    let mut times = Vec::new();
    for _ in 0..40 {
        let from = Instant::now();
        let status = Command::new(modewright)
            .arg("--version")
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .status()?;
        times.push(from.elapsed().as_secs_f64() * 1e3);
        if !status.success() {
            return Err(Stop::failed(format!("modewright --version ended with {status}")));
        }
    }
    times.sort_by(f64::total_cmp);
    let (least, median) = (times[0], times[times.len() / 2]);
    let word = if median <= START_AIM { "met" } else { "NOT met" };
    Ok(format!("{median:.1} ms in the median, {least:.1} at least; aim {START_AIM} {word}"))
}

fn count_tunes(file: &Path) -> Result<f64, Stop> {
    Ok(crate::books::split(&fs::read(file)?).count() as f64)
}

//! How work grows with the length of a tune: by instructions, so that a busy machine does not
//! matter. Ten times the notes may take little more than ten times the instructions.

use crate::process::{build, capture};
use crate::stage::{Found, Stages, Stop};
use crate::{place, setup};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};

/// Lengths of every run of the tests.
const SHORT: [usize; 3] = [100, 1000, 8000];
/// Lengths of `cargo xtask growth`; shapes and formats that their limits end earlier go as far as
/// they go.
const LONG: [usize; 5] = [100, 1000, 10_000, 100_000, 1_000_000];

/// The most that a note of a longer tune may cost, for one of a shorter one. Sorting takes
/// 1.3 from one length to the next, and 1.7 is seen where the shortest tune has less of what costs (in
/// MIDI files, and no more from there on); what looks at every note from every note takes 8 to 10.
const MOST: f64 = 2.0;

/// Growth at the lengths that every run of the tests has.
pub(crate) fn check() -> Found {
    run(&SHORT)
}

/// `cargo xtask growth`: all lengths, to a million notes.
pub(crate) fn all() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("files grow", crate::file_growth::run);
    stages.run("growth", || run(&LONG));
    stages.finish()
}

fn run(lengths: &[usize]) -> Found {
    let valgrind = setup::program("valgrind")?;
    let words = ["bench", "--no-run", "--package", "modewright-tests", "--bench", "growth"];
    let program = build("growth", &words)?;
    let words: Vec<String> = lengths.iter().map(ToString::to_string).collect();
    let list = capture(Command::new(&program).arg("list").args(&words)).map_err(Stop::Failed)?;
    let pieces = pieces(&list)?;
    let counts = counts(&valgrind, &program, &words)?;
    if counts.len() != pieces.len() {
        let (counts, pieces) = (counts.len(), pieces.len());
        return Err(Stop::failed(format!("{counts} counts for {pieces} pieces of work")));
    }
    judge(&pieces, &counts)
}

/// A kind of work on a shape of tune, and the notes of the tune.
type Piece = ((String, String), usize);

fn pieces(list: &str) -> Result<Vec<Piece>, Stop> {
    let piece = |line: &str| {
        let mut words = line.split('\t').map(str::to_owned);
        let names = (words.next()?, words.next()?);
        Some((names, words.next()?.parse().ok()?))
    };
    let wrong = |line: &str| Stop::failed(format!("growth list says: {line}"));
    list.lines().map(|line| piece(line).ok_or_else(|| wrong(line))).collect()
}

/// The instructions of each call of the function that is measured, in their order.
fn counts(valgrind: &Path, program: &Path, lengths: &[String]) -> Result<Vec<u64>, Stop> {
    let folder = place::target().join("growth");
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    let mut command = Command::new(valgrind);
    command.args(["--tool=callgrind", "--toggle-collect=*growth_measured*"]);
    command.args([
        "--dump-after=growth::growth_measured",
        "--dump-line=no",
        "--compress-strings=yes",
    ]);
    command.arg(format!("--callgrind-out-file={}", folder.join("out").display()));
    command.env("CARGO_MANIFEST_DIR", place::root().join("tests"));
    command.arg(program).arg("run").args(lengths);
    let output = command.stdin(Stdio::null()).output()?;
    if !output.status.success() {
        let complaint = String::from_utf8_lossy(&output.stderr);
        let last: Vec<&str> = complaint.lines().rev().take(3).collect();
        return Err(Stop::failed(format!("{}: {}", output.status, last.join("; "))));
    }
    // out.1, out.2 and so on, in the order of the calls.
    let mut parts: Vec<(usize, PathBuf)> = Vec::new();
    for file in fs::read_dir(&folder)? {
        let path = file?.path();
        let number = path.extension().and_then(|number| number.to_str()?.parse().ok());
        parts.extend(number.map(|number| (number, path)));
    }
    parts.sort();
    let mut counts = Vec::new();
    for (_, path) in parts {
        let text = fs::read_to_string(&path)?;
        let count = text.lines().find_map(|line| line.strip_prefix("summary: "));
        let count = count.and_then(|count| count.trim().parse().ok());
        counts.push(count.ok_or_else(|| Stop::failed(format!("{}: no sum", path.display())))?);
    }
    fs::remove_dir_all(&folder)?;
    Ok(counts)
}

/// Instructions for a note at every length, and whether they stay what they are.
fn judge(pieces: &[Piece], counts: &[u64]) -> Found {
    let mut rows: BTreeMap<&(String, String), Vec<(usize, f64)>> = BTreeMap::new();
    for ((names, notes), count) in pieces.iter().zip(counts) {
        rows.entry(names).or_default().push((*notes, *count as f64 / *notes as f64));
    }
    let mut faults = Vec::new();
    let mut worst: f64 = 0.0;
    println!("instructions for a note:");
    for ((work, shape), row) in &rows {
        let shown: Vec<String> =
            row.iter().map(|(notes, each)| format!("{notes}: {each:.0}")).collect();
        println!("  {:<15}{shape:<20}{}", work, shown.join("  "));
        // The dearest of the shorter tunes counts: what is found in one of them may be less, and
        // cost less, than in the next.
        let mut before: f64 = 0.0;
        for (at, (many, after)) in row.iter().enumerate() {
            let growth = after / before;
            if at > 0 {
                worst = worst.max(growth);
            }
            if *after <= 0.0 || (at > 0 && growth > MOST) {
                faults.push(format!(
                    "{work}, {shape}: {growth:.2} times as many for a note at {many} as before"
                ));
            }
            before = before.max(*after);
        }
    }
    for fault in &faults {
        println!("{fault}");
    }
    match faults.first() {
        Some(first) => Err(Stop::failed(format!("{first} ({} such)", faults.len()))),
        None => Ok(format!(
            "{} kinds of work; a note costs {worst:.2} times as much at most in a longer tune, of \
             {MOST}",
            rows.len()
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_grows_with_the_square_is_found() {
        let pieces = pieces("find\tbars\t100\nfind\tbars\t1000\n").unwrap();
        assert_eq!(pieces[1], (("find".to_owned(), "bars".to_owned()), 1000));
        assert!(judge(&pieces, &[10_000, 101_000]).is_ok());
        assert!(judge(&pieces, &[10_000, 10_000_000]).is_err());
        // Nothing counted is nothing shown.
        assert!(judge(&pieces, &[10_000, 0]).is_err());
    }
}

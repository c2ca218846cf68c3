//! The tune books, read by the real command, and the report on them.

use crate::answers::{self, Answer, Severity};
use crate::books::{self, Book, Manifest};
use crate::measure::{self, Run};
use crate::process::{build, capture};
use crate::stage::{Found, Stop};
use std::collections::{BTreeMap, BTreeSet};
use std::io::Write;
use std::path::Path;
use std::process::Command;

/// What was counted over the answers on one book.
#[derive(Default)]
struct Tally {
    tunes: usize,
    /// Without a warning or an error; notes of the reader are no problem.
    clean: usize,
    /// Without any error.
    faultless: usize,
    /// Without an error other than the known mistakes of the book.
    read: usize,
    /// Tunes in which each problem occurs, by severity and code.
    problems: BTreeMap<(Severity, String), usize>,
    /// Tunes with a written key.
    written: usize,
    same_home: usize,
    same_key: usize,
    /// Errors that nobody has explained: file, number and code.
    unexplained: Vec<String>,
}

/// A genuine mistake of a book: file, number and code.
type Known = (String, String, String);

/// Reads every tune of every book; fails when the command does, when an answer is missing or
/// broken, or when a floor of `tests/corpus.json` is not reached.
pub(crate) fn run(python: &Path, modewright: &Path) -> Found {
    let manifest = books::manifest(python)?;
    let known = known()?;
    let mut seen = BTreeSet::new();
    let mut faults = Vec::new();
    let mut all = Tally::default();
    for book in &manifest.books {
        let mut tally = Tally::default();
        let run = answers_of(modewright, book, |answer| {
            tally.add(&book.name, &answer, &known, &mut seen);
        })?;
        tally.print(book, &run);
        faults.extend(tally.faults(book, &manifest));
        all.tunes += tally.tunes;
        all.faultless += tally.faultless;
        all.read += tally.read;
    }
    for (file, number, code) in known.difference(&seen) {
        faults.push(format!("corpus-known.json: {file} X:{number} {code} no longer happens"));
    }
    let faultless = percent(all.faultless, all.tunes);
    if faultless < manifest.read_floor {
        faults.push(format!("all books: {faultless:.2} % without any error"));
    }
    for fault in &faults {
        println!("{fault}");
    }
    if let Some(first) = faults.first() {
        return Err(Stop::failed(first.clone()));
    }
    let share = |part| percent(part, all.tunes);
    Ok(format!(
        "{} tunes, {:.2} % without an error, {:.2} % with the books' known mistakes aside",
        all.tunes,
        share(all.faultless),
        share(all.read)
    ))
}

/// Moves every tune of every book by all twelve intervals, and reads the new texts again.
pub(crate) fn transposed(python: &Path) -> Found {
    let manifest = books::manifest(python)?;
    let words = ["bench", "--no-run", "--package", "modewright-tests", "--bench", "transpose"];
    let program = build("transpose", &words)?;
    let files = manifest.books.iter().flat_map(|book| &book.files);
    let found = capture(Command::new(program).arg("books").args(files)).map_err(Stop::failed)?;
    Ok(found.trim().to_owned())
}

fn known() -> Result<BTreeSet<Known>, Stop> {
    let list = books::json("tests/corpus-known.json")?;
    let entries = list["known"].as_array().ok_or_else(|| Stop::failed("no list of known"))?;
    let word = |entry: &serde_json::Value, name: &str| {
        entry[name].as_str().map(str::to_owned).filter(|word| !word.is_empty()).ok_or_else(|| {
            Stop::failed(format!("corpus-known.json: an entry without {name}: {entry}"))
        })
    };
    let read = |entry| {
        word(entry, "why")?;
        Ok((word(entry, "file")?, word(entry, "number")?, word(entry, "code")?))
    };
    entries.iter().map(read).collect()
}

fn answers_of(modewright: &Path, book: &Book, mut each: impl FnMut(Answer)) -> Result<Run, Stop> {
    let mut command = Command::new(modewright);
    command.args(["find", "--json"]).args(&book.files);
    let mut line_number = 0_usize;
    let none = None::<fn(&mut dyn Write) -> std::io::Result<()>>;
    let run = measure::run(&mut command, none, |line| {
        line_number += 1;
        let wrong = |why| Stop::failed(format!("{}: answer {line_number}: {why}", book.name));
        each(answers::read(line).map_err(wrong)?);
        Ok(())
    })?;
    if line_number != book.tunes {
        let tunes = book.tunes;
        return Err(Stop::failed(format!(
            "{}: {line_number} answers for {tunes} tunes",
            book.name
        )));
    }
    Ok(run)
}

impl Tally {
    fn add(
        &mut self,
        book: &str,
        answer: &Answer,
        known: &BTreeSet<Known>,
        seen: &mut BTreeSet<Known>,
    ) {
        self.tunes += 1;
        self.clean += usize::from(answer.problems.iter().all(|(_, s)| *s == Severity::Note));
        let kinds: BTreeSet<_> = answer.problems.iter().map(|(c, s)| (*s, c.clone())).collect();
        let unexplained = self.unexplained.len();
        self.faultless += usize::from(kinds.iter().all(|(s, _)| *s != Severity::Error));
        for (severity, code) in kinds {
            if severity == Severity::Error {
                let entry =
                    (format!("{book}/{}", answer.file), answer.number.clone(), code.clone());
                if known.contains(&entry) {
                    seen.insert(entry);
                } else {
                    self.unexplained.push(format!("{} X:{} {}", entry.0, entry.1, entry.2));
                }
            }
            *self.problems.entry((severity, code)).or_default() += 1;
        }
        self.read += usize::from(self.unexplained.len() == unexplained);
        if let Some(written) = &answer.written {
            self.written += 1;
            if let Some(found) = &answer.found {
                self.same_home += usize::from(found.0 == written.0);
                self.same_key += usize::from(found == written);
            }
        }
    }

    fn print(&self, book: &Book, run: &Run) {
        println!("{}: {} tunes in {} files", book.name, self.tunes, book.files.len());
        println!(
            "  {:.2} s, peak memory {}, exit code {}",
            run.seconds,
            run.peak_kib.map_or("unknown".into(), |kib| format!("{:.1} MiB", mib(kib))),
            run.status.code().unwrap_or(-1),
        );
        let share = |n| format!("{n} ({:.2} %)", percent(n, self.tunes));
        println!("  without a problem     {}", share(self.clean));
        println!("  without an error      {}", share(self.faultless));
        println!("  known mistakes aside  {}", share(self.read));
        if book.is_fitted_on {
            println!("  (the weights were fitted on tunes of this book)");
        }
        let of_written = |n| format!("{n} of {} ({:.2} %)", self.written, percent(n, self.written));
        println!("  home as in K:         {}", of_written(self.same_home));
        println!("  home and mode as K:   {}", of_written(self.same_key));
        for ((severity, code), tunes) in self.problems.iter().rev() {
            println!("  {:<8}{code:<32}{tunes} tunes", severity.word());
        }
        for error in self.unexplained.iter().take(SHOWN) {
            println!("  unexplained: {error}");
        }
        if self.unexplained.len() > SHOWN {
            println!("  unexplained: and {} more", self.unexplained.len() - SHOWN);
        }
    }

    fn faults(&self, book: &Book, manifest: &Manifest) -> Vec<String> {
        let name = &book.name;
        [
            ("read without an error", percent(self.read, self.tunes), manifest.read_floor),
            ("home as in K:", percent(self.same_home, self.written), book.home_floor),
            ("home and mode as in K:", percent(self.same_key, self.written), book.key_floor),
        ]
        .into_iter()
        .filter(|(_, share, floor)| share < floor)
        .map(|(what, share, floor)| format!("{name}: {what}: {share:.2} %, floor {floor} %"))
        .collect()
    }
}

/// Unexplained errors listed for a book; the rest are counted.
const SHOWN: usize = 20;

fn percent(part: usize, whole: usize) -> f64 {
    if whole == 0 { 0.0 } else { part as f64 * 100.0 / whole as f64 }
}

/// KiB as MiB.
pub(crate) fn mib(kib: u64) -> f64 {
    kib as f64 / 1024.0
}

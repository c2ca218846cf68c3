//! Sheets of every tune of the books, and what a sheet costs.

use crate::books;
use crate::budgets::instructions_of;
use crate::place;
use crate::process::{build, capture, run};
use crate::stage::{Found, Stop};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Mutex;
use std::thread;

/// The small program that engraves.
fn program() -> Result<PathBuf, Stop> {
    build("sheets", &["bench", "--no-run", "--package", "modewright-tests", "--bench", "sheets"])
}

fn sample() -> PathBuf {
    place::root().join("tests/fixtures/sheet-64.abc")
}

/// Engraves every tune of every book, for A4 and for a phone, with all rows: no two marks of
/// different notes or rows may share room.
pub(crate) fn collisions(python: &Path) -> Found {
    let program = program()?;
    let mut files = Vec::new();
    for book in books::manifest(python)?.books {
        files.extend(book.files);
    }
    // All cores take packs of files: more names than one call may have on some systems.
    let packs = Mutex::new(files.chunks(100));
    let next = || packs.lock().ok().and_then(|mut packs| packs.next());
    let worker = || -> Result<(), Stop> {
        while let Some(pack) = next() {
            run(Command::new(&program).arg("check").args(pack))?;
        }
        Ok(())
    };
    let cores = thread::available_parallelism().map_or(1, usize::from);
    thread::scope(|scope| {
        let workers: Vec<_> = (0..cores).map(|_| scope.spawn(worker)).collect();
        workers.into_iter().try_for_each(|worker| {
            worker.join().map_err(|_| Stop::failed("a worker of the sheets stopped"))?
        })
    })?;
    Ok(format!("nothing collides on the sheets of {} files", files.len()))
}

/// Demo tunes whose dotted pairs are spaced apart: the other engraver beams by the spaces of the
/// source, ours by the beat.
const SPACED_APART: [&str; 2] = ["boathouse-welcome.abc", "keel-on-the-shingle.abc"];

/// Sheets of the demo tunes beside those of an independent engraver, note by note, and the text
/// of their PDFs as an independent reader finds it.
pub(crate) fn elsewhere(python: &Path, modewright: &Path) -> Found {
    let folder = place::root().join("crates/lesson/demo");
    let files = std::fs::read_dir(&folder)?.map(|file| file.map(|file| file.path()));
    let mut demos: Vec<PathBuf> = files.collect::<Result<_, _>>()?;
    demos.retain(|path| path.extension().is_some_and(|ending| ending == "abc"));
    demos.sort();
    let script = |name: &str| {
        let mut command = Command::new(python);
        command.current_dir(place::root());
        command.arg(place::root().join("tests/python").join(name)).arg(modewright);
        command
    };
    run(script("pdf_text.py").args(&demos))?;
    let spaced = |path: &PathBuf| SPACED_APART.iter().any(|name| path.ends_with(name));
    let (apart, beside): (Vec<PathBuf>, Vec<PathBuf>) = demos.into_iter().partition(spaced);
    if apart.len() != SPACED_APART.len() || beside.is_empty() {
        return Err(Stop::failed("the demo tunes are not those that were compared"));
    }
    run(script("compare_engraver.py").args(&beside))?;
    Ok(format!("PDF text whole; stems, beams and accidentals agree on {} tunes", beside.len()))
}

/// Instructions that laying out and drawing the sample of 64 bars as SVG takes.
pub(crate) fn instructions() -> Found {
    instructions_of(&program()?, &sample(), "instructions_per_sheet")
}

/// The time that a sheet of 64 bars takes, as SVG and as PDF.
pub(crate) fn seconds() -> Found {
    let report = capture(Command::new(program()?).arg("seconds").arg(sample()));
    let report = report.map_err(Stop::Failed)?;
    Ok(format!("{}; targets 0.002 and 0.2", report.trim()))
}

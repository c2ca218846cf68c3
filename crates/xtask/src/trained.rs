//! Programs built by what they do: once to see which ways tunes take through them, and once more
//! for those ways (what rustc calls profile-guided optimisation).

use crate::books::{self, Book};
use crate::process::{build_as, capture, cargo, run};
use crate::stage::{Found, Stages, Stop};
use crate::{budgets, place, setup};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};

/// The book that speed is measured on: nothing is learned from it.
pub(crate) const MEASURED: &str = "oneills1850";

pub(crate) fn all() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("command", command);
    stages.finish()
}

/// The command, built by what it does with the tune books and with the invented tunes.
fn command() -> Found {
    let books = lessons(&setup::python()?)?;
    let words = ["build", "--release", "--package", "modewright-cli"];
    let program = by_use("modewright", &words, |learner, folder| {
        let mut all = Vec::new();
        for form in ["--json", "--csv"] {
            all.push(called(learner, &["find", form], &books));
        }
        all.extend(everyday(learner, folder)?);
        Ok(all)
    })?;
    let file = place::target().join("trained").join("modewright");
    fs::copy(program, &file)?;
    Ok(format!("built by what it does with {} files: {}", books.len(), file.display()))
}

/// The program of `read_find`, built by what it does with the other books.
pub(crate) fn read_find(python: &Path) -> Result<PathBuf, Stop> {
    let books = lessons(python)?;
    by_use("read_find", &budgets::READ_FIND, |learner, _| {
        let pass = |file| called(learner, &["passes", "1"], std::slice::from_ref(file));
        Ok(books.iter().map(pass).collect())
    })
}

/// The files of all books but the measured one.
fn lessons(python: &Path) -> Result<Vec<PathBuf>, Stop> {
    let books = books::manifest(python)?.books.into_iter();
    Ok(books.filter(|book| book.name != MEASURED).flat_map(|book: Book| book.files).collect())
}

/// What people do with one tune, for the ways that finding does not take.
fn everyday(learner: &Path, folder: &Path) -> Result<Vec<Command>, Stop> {
    let files = books::tunes_of(&place::root().join("crates/lesson/demo"))?;
    let mut all = Vec::new();
    for tune in &files {
        let name = tune.file_stem().unwrap_or_default();
        let out = |ending: &str| folder.join(name).with_extension(ending);
        for words in [
            &["find"][..],
            &["count"],
            &["fit", "--on", "tin-whistle-d,fiddle,anglo-20-c-g"],
            &["fingering", "--on", "anglo-20-c-g"],
            &["transpose", "--to", "E"],
        ] {
            all.push(called(learner, words, std::slice::from_ref(tune)));
        }
        for (words, ending) in [
            (&["lesson", "--rows", "count,note,fingering", "--on", "tin-whistle-d"][..], "svg"),
            (&["lesson"], "pdf"),
            (&["lesson"], "html"),
            (&["sound"], "wav"),
            (&["convert"], "musicxml"),
            (&["convert"], "mid"),
        ] {
            let mut command = called(learner, words, std::slice::from_ref(tune));
            command.arg("-o").arg(out(ending));
            all.push(command);
        }
        for ending in ["musicxml", "mid"] {
            all.push(called(learner, &["find"], &[out(ending)]));
        }
    }
    Ok(all)
}

fn called(program: &Path, words: &[&str], files: &[PathBuf]) -> Command {
    let mut command = Command::new(program);
    command.args(words).args(files);
    command
}

/// Builds a program with cargo, runs it as `teach` says, and builds it again by what was seen. A
/// run may end with 1, as it does where a book has a tune that cannot be read.
fn by_use(
    name: &str,
    words: &[&str],
    teach: impl FnOnce(&Path, &Path) -> Result<Vec<Command>, Stop>,
) -> Result<PathBuf, Stop> {
    let (host, merge) = tools()?;
    let folder = place::target().join("trained");
    let (made, seen) = (folder.join("made"), folder.join("seen").join(name));
    for empty in [&made, &seen] {
        if empty.exists() {
            fs::remove_dir_all(empty)?;
        }
        fs::create_dir_all(empty)?;
    }
    let built = |kind: &str, flag: String| {
        let mut command = cargo(words);
        command.env("RUSTFLAGS", flag).args(["--target", &host, "--target-dir"]);
        command.arg(folder.join(kind)).args(["--config", "profile.release.codegen-units=1"]);
        build_as(name, &mut command)
    };
    let learner = built("learning", format!("-Cprofile-generate={}", seen.display()))?;
    for (number, mut command) in teach(&learner, &made)?.into_iter().enumerate() {
        let profile = seen.join(format!("{number}.profraw"));
        command.env("LLVM_PROFILE_FILE", profile).stdin(Stdio::null());
        let status = command.stdout(Stdio::null()).stderr(Stdio::null()).status()?;
        if !matches!(status.code(), Some(0 | 1)) {
            return Err(Stop::failed(format!("{name}, while it learned: {status}")));
        }
    }
    let merged = seen.with_extension("profdata");
    run(Command::new(merge).arg("merge").arg("-o").arg(&merged).arg(&seen))?;
    built("learned", format!("-Cprofile-use={}", merged.display()))
}

/// This system's name among rustc's targets, and the tool that adds up what was seen.
fn tools() -> Result<(String, PathBuf), Stop> {
    let rustc = |words: &[&str]| capture(Command::new("rustc").args(words)).map_err(Stop::Failed);
    let about = rustc(&["-vV"])?;
    let host = about.lines().find_map(|line| line.strip_prefix("host: "));
    let host = host.ok_or_else(|| Stop::failed("rustc does not name its host"))?.to_owned();
    let libraries = rustc(&["--print", "sysroot"])?;
    let tool = Path::new(libraries.trim()).join("lib/rustlib").join(&host);
    let tool = tool.join("bin/llvm-profdata");
    if !tool.exists() {
        println!("adding the toolchain component llvm-tools");
        capture(Command::new("rustup").args(["component", "add", "llvm-tools"]))
            .map_err(|why| Stop::Skipped(format!("llvm-tools could not be added ({why})")))?;
    }
    Ok((host, tool))
}

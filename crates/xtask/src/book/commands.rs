//! The commands of the book, run, and what they print compared with what the book says.
//!
//! A `console` block holds lines that begin with `$ ` and, after each, what it prints. `…` alone on
//! a line stands for any number of lines. Commands of one chapter share a folder that holds the
//! demo tunes and the tunes of the book. With `MODEWRIGHT_GOLDEN=write` the book is corrected.

use super::chapters;
use crate::place;
use crate::stage::{Found, Stop};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

const OPEN: &str = "```console";
const CLOSE: &str = "```";
const LEFT_OUT: &str = "…";

/// Runs every command of every chapter.
pub(crate) fn check(modewright: &Path) -> Found {
    let write = std::env::var_os("MODEWRIGHT_GOLDEN").is_some_and(|word| word == "write");
    let mut run = 0;
    let mut wrong = Vec::new();
    for chapter in chapters()? {
        let text = fs::read_to_string(&chapter)?;
        let name = chapter.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let folder = fresh(&name)?;
        let (corrected, faults) = corrected(&text, |command| {
            run += 1;
            output(command, &folder, modewright)
        })?;
        wrong.extend(faults.into_iter().map(|fault| format!("{name}.md: {fault}")));
        if write && corrected != text {
            fs::write(&chapter, corrected)?;
            println!("corrected {name}.md");
        }
    }
    if run == 0 {
        return Err(Stop::failed("the book shows no command"));
    }
    for fault in &wrong {
        println!("{fault}");
    }
    if wrong.is_empty() || write {
        Ok(format!("{run} commands"))
    } else {
        Err(Stop::failed(format!("{} commands print something else, see above", wrong.len())))
    }
}

/// The chapter with what its commands print today, and what was otherwise.
fn corrected(
    text: &str,
    mut run: impl FnMut(&str) -> Result<String, Stop>,
) -> Result<(String, Vec<String>), Stop> {
    let mut out = String::new();
    let mut faults = Vec::new();
    let mut lines = text.lines().peekable();
    while let Some(line) = lines.next() {
        out.push_str(line);
        out.push('\n');
        if line != OPEN {
            continue;
        }
        while let Some(line) = lines.next_if(|line| *line != CLOSE) {
            out.push_str(line);
            out.push('\n');
            let Some(command) = line.strip_prefix("$ ") else {
                faults.push(format!("`{line}` follows no command"));
                continue;
            };
            let mut said = String::new();
            while let Some(line) = lines.next_if(|line| *line != CLOSE && !line.starts_with("$ ")) {
                said.push_str(line);
                said.push('\n');
            }
            let prints = run(command)?;
            if agree(&said, &prints) {
                out.push_str(&said);
            } else {
                faults.push(format!("`{command}` prints\n{prints}"));
                out.push_str(&prints);
            }
        }
    }
    Ok((out, faults))
}

/// Whether a text is another one, with lines left out where a line says so.
fn agree(said: &str, prints: &str) -> bool {
    let said: Vec<&str> = said.lines().collect();
    let prints: Vec<&str> = prints.lines().collect();
    let mut parts = said.split(|line| *line == LEFT_OUT);
    let first = parts.next().unwrap_or_default();
    let Some(mut rest) = prints.strip_prefix(first) else { return false };
    let mut parts: Vec<&[&str]> = parts.collect();
    let Some(last) = parts.pop() else { return rest.is_empty() };
    for part in parts {
        let Some(at) = (0..rest.len()).find(|&at| rest[at..].starts_with(part)) else {
            return false;
        };
        rest = &rest[at + part.len()..];
    }
    rest.ends_with(last)
}

/// What a command prints, on both ways, without blanks at line ends.
fn output(command: &str, folder: &Path, modewright: &Path) -> Result<String, Stop> {
    let programs = modewright.parent().unwrap_or(Path::new("."));
    let known = std::env::var_os("PATH").unwrap_or_default();
    let path = std::iter::once(programs.to_owned()).chain(std::env::split_paths(&known));
    let path = std::env::join_paths(path).map_err(|why| Stop::failed(why.to_string()))?;
    let mut shell = Command::new("sh");
    shell.args(["-c", &format!("exec 2>&1; {command}")]).current_dir(folder);
    shell.env("PATH", path).env("NO_COLOR", "1").stdin(Stdio::null());
    let output = shell.output()?;
    let text = String::from_utf8_lossy(&output.stdout);
    let mut kept = String::new();
    for line in text.lines() {
        kept.push_str(line.trim_end());
        kept.push('\n');
    }
    Ok(kept)
}

/// An empty folder for a chapter, with the tunes in it.
fn fresh(chapter: &str) -> Result<std::path::PathBuf, Stop> {
    let folder = place::target().join("book").join(chapter);
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    for tunes in ["crates/lesson/demo", "book/src/tunes"] {
        for entry in fs::read_dir(place::root().join(tunes))? {
            let path = entry?.path();
            if let Some(name) =
                path.file_name().filter(|_| path.extension().is_some_and(|e| e == "abc"))
            {
                fs::copy(&path, folder.join(name))?;
            }
        }
    }
    Ok(folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_may_be_left_out_where_it_says_so() {
        let prints = "a\nb\nc\nd\n";
        for said in ["a\nb\nc\nd\n", "a\n…\nd\n", "…\nd\n", "a\n…\n", "a\n…\nc\n…\n"] {
            assert!(agree(said, prints), "{said}");
        }
        for said in ["", "a\nb\nc\n", "a\n…\nc\n", "b\n…\n", "a\n…\nx\n…\n", "a\nb\nc\nd\ne\n"]
        {
            assert!(!agree(said, prints), "{said}");
        }
    }

    #[test]
    fn a_chapter_is_corrected_where_it_is_wrong_alone() {
        let text = "x\n```console\n$ one\n1\n$ two\n3\n```\n```text\n$ no\n```\n";
        let say = |command: &str| Ok(if command == "one" { "1\n" } else { "2\n" }.to_owned());
        let (corrected, faults) = corrected(text, say).expect("nothing stops");
        assert_eq!(corrected, text.replace("3\n", "2\n"));
        assert_eq!(faults, ["`two` prints\n2\n"]);
    }
}

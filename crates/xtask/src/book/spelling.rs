//! The spelling of the book, by hunspell's British dictionary and the words of `book/words.txt`.

use super::{chapters, hunspell};
use crate::place;
use crate::stage::{Found, Stop};
use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::process::{Command, Stdio};

/// Looks at every chapter.
pub(crate) fn check() -> Found {
    let program = hunspell()?;
    let list = place::root().join("book/words.txt");
    let own: BTreeSet<String> = fs::read_to_string(&list)?.lines().map(str::to_owned).collect();
    let mut wrong = Vec::new();
    let mut met = BTreeSet::new();
    for chapter in chapters()? {
        let prose = prose(&fs::read_to_string(&chapter)?);
        let name = chapter.file_name().unwrap_or_default().to_string_lossy().into_owned();
        for word in unknown(&program, &prose)? {
            if own.contains(&word) {
                met.insert(word);
            } else {
                wrong.push(format!("{name}: `{word}`"));
            }
        }
    }
    wrong.extend(own.difference(&met).map(|word| format!("words.txt: `{word}` is not needed")));
    for fault in &wrong {
        println!("{fault}");
    }
    match wrong.len() {
        0 => Ok(format!("{} words of our own", own.len())),
        faults => Err(Stop::failed(format!("{faults} words, listed above"))),
    }
}

/// The words that the dictionary does not know, but for those with digits in them.
fn unknown(program: &std::path::Path, prose: &str) -> Result<BTreeSet<String>, Stop> {
    let mut child = Command::new(program)
        .args(["-d", "en_GB", "-i", "utf-8", "-l"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()?;
    // Written from a thread of its own, so that neither side waits for the other.
    let input = child.stdin.take();
    let text = prose.to_owned();
    let writer =
        std::thread::spawn(move || input.map(|mut input| input.write_all(text.as_bytes())));
    let output = child.wait_with_output()?;
    let written = writer.join().map_err(|_| Stop::failed("hunspell was not told the text"))?;
    written.unwrap_or(Ok(()))?;
    if !output.status.success() {
        return Err(Stop::failed(format!("hunspell: {}", output.status)));
    }
    // Names of pitches and of works: B4, music21.
    let plain = |word: &&str| !word.contains(|c: char| c.is_ascii_digit());
    let words = String::from_utf8_lossy(&output.stdout);
    Ok(words.lines().filter(plain).map(str::to_owned).collect())
}

/// The text of a chapter as it is read: without code, tunes, tags and addresses.
fn prose(text: &str) -> String {
    let mut out = String::new();
    let (mut code, mut tune) = (false, false);
    for line in text.lines() {
        if line.starts_with("```") {
            code = !code;
        } else if line.starts_with("<modewright-") {
            tune = !line.contains("</modewright-");
        } else if line.starts_with("</modewright-") {
            tune = false;
        } else if !(code || tune || line.starts_with("{{")) {
            out.push_str(&plain(line));
            out.push('\n');
        }
    }
    out
}

/// A line without code between backticks, tags, and what links lead to.
fn plain(line: &str) -> String {
    let words: String = line.split('`').step_by(2).collect::<Vec<_>>().join(" ");
    let mut out = String::new();
    let mut inside = None;
    let mut before = ' ';
    for c in words.chars() {
        match inside {
            Some(end) if c == end => inside = None,
            Some(_) => {}
            None if c == '<' => inside = Some('>'),
            None if c == '(' && before == ']' => inside = Some(')'),
            None => out.push(c),
        }
        before = c;
    }
    out.replace('’', "'")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_is_read_is_spelled() {
        let text = "One `cde` [two](three.md#four).\n```console\n$ xyz\n```\n<modewright-tune>\nABc\n\
                    </modewright-tune>\n<b class=\"q\">five</b>\n<modewright-ask></modewright-ask>\n{{#include x}}\nsix\n";
        let words: Vec<String> = prose(text).split_whitespace().map(str::to_owned).collect();
        assert_eq!(words, ["One", "[two].", "five", "six"]);
    }
}

//! Plain letters, as people type them.

use crate::{Grain, Seen, Target, seeds, whole};
use modewright_core::Length;
use modewright_formats::source::{TuneText, sniff};
use modewright_formats::{ReadOptions, letters};

pub(super) const TARGET: Target =
    Target { name: "letters", seeds: seeds::letters, grain: Grain::Words, words: WORDS, check };

const WORDS: &[&str] = &[
    "D",
    "e",
    "F#",
    "Bb",
    "bb",
    "H",
    "h",
    "♯",
    "♭",
    "'",
    ",",
    "4",
    "5",
    "/",
    "2",
    "1/2",
    " ",
    "\n",
    "\n\n",
    "|",
    "||",
    ":|",
    "|:",
    "|1",
    "|2",
    "x2",
    "x99",
    "(x3)",
    "-",
    "--",
    "~",
    "z",
    "rest",
    "sharp",
    "flat",
    "natural",
    "low",
    "high",
    "A:",
    "Part B",
    "Part A (x2):",
    "Key: D dorian",
    "Key: G",
    "Metre: 6/8",
    "Time: 3/4",
    "Title: Slack Water",
    "1.",
    "2)",
    "“",
    "”",
    "…",
    "é",
    "(",
    ")",
    "[",
    "]",
    ".",
    ";",
    "and",
    "then",
    "D4",
    "d5",
    "C#m",
    "do re mi",
    "K:D",
    "X:1",
    "M:3/4",
    "AABB",
    "D-E-F#",
    "D E F# G A B C# D",
    "^",
    "_",
    "=",
    "\t",
    "\r\n",
    "*",
    "**D**",
    "> D E",
];

fn check(input: &[u8], thorough: bool) -> Result<Seen, String> {
    let text = String::from_utf8_lossy(input);
    let mut seen = Seen { work: input.len(), ..Seen::default() };
    seen.signs.push(match sniff(&text) {
        modewright_formats::source::Kind::Letters => "letters",
        _ => "other",
    });
    let text = TuneText::letters(text);
    let reading = letters::read(&text, &ReadOptions::default());
    whole::reading(&reading, &text, thorough, &mut seen)?;
    if thorough {
        let options = ReadOptions {
            metre: "6/8".parse().ok(),
            pickup: Some(Length::QUAVER),
            ..ReadOptions::default()
        };
        whole::reading(&letters::read(&text, &options), &text, false, &mut seen)?;
    }
    Ok(seen)
}

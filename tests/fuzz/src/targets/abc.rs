//! ABC, as books and as single tunes.

use crate::{Chance, Grain, Seen, Target, whole};
use modewright_core::Interval;
use modewright_formats::instrument::builtin;
use modewright_formats::source::{Kind, TuneText, Tunes};
use modewright_formats::{ReadOptions, abc};
use modewright_lesson::moving::{Aim, Wish, move_text};

pub(super) const TARGET: Target =
    Target { name: "abc", seeds, grain: Grain::Words, words: WORDS, check };

const WORDS: &[&str] = &[
    "X:1\n",
    "T:",
    "M:6/8\n",
    "M:C|\n",
    "M:none\n",
    "M:2+3/8\n",
    "[M:3/4]",
    "L:1/16\n",
    "[L:1/4]",
    "Q:1/4=120\n",
    "Q:\"slow\" 3/8=40\n",
    "P:ABA(CD)2\n",
    "P:A\n",
    "[P:B]",
    "K:Ddor\n",
    "K:none\n",
    "K:HP\n",
    "K:exp ^f_b\n",
    "K:Bbm clef=bass transpose=-2\n",
    "[K:F#mix]",
    "V:1\n",
    "[V:2]",
    "V:T clef=treble-8\n",
    "w:la-la_ * | end~of\n",
    "W:words\n",
    "s:!p! *\n",
    "U:T=!trill!\n",
    "m:~G2={A}G\n",
    "I:abc-charset utf-8\n",
    "%%propagate-accidentals octave\n",
    "%%begintext\n",
    "%%endtext\n",
    "|:",
    ":|",
    "::",
    "[1",
    "[2",
    "|1",
    ":|2",
    "[1,3-5",
    "||",
    "|]",
    "[|",
    ".|",
    ":::|",
    "(3",
    "(3:2:4",
    "(9:8",
    "(5:::",
    "-",
    "(",
    ")",
    ".(",
    "{",
    "}",
    "{/",
    "[CEG]",
    "[CE]2",
    "[c-e-g]",
    "&",
    "^^",
    "__",
    "_",
    "=",
    "^/",
    ",,,,",
    "''''",
    "/",
    "//",
    "///",
    "3/2",
    "<",
    ">>",
    "<<<",
    "z",
    "Z8",
    "X4",
    "x",
    "y",
    "\"Am7\"",
    "\"^up\"",
    "\"<(\"",
    "!trill!",
    "!fermata!",
    "+p+",
    "!",
    "~",
    "T",
    "H",
    "\\\n",
    "\\",
    "`",
    "$",
    "%",
    "% words\n",
    "\n\n",
    "\"",
    "[r:",
    "]",
    "r:remark\n",
    "+:more\n",
    "&#9837;",
    "\\'e",
    "\\u00e9",
    "K:C major exp ^c middle=d octave=1\n",
    "[K:none]",
    "[M:none]",
    "[Q:1/4=90]",
    "[Q:\"slower\"]",
    "[L:1/32]",
    "R:jig\n",
    "N:words\n",
    "%%score (1 2)\n",
    "!segno!",
    "!D.C.!",
    "!<(!",
    "!1!",
    "\"_low\"",
    "\"@3,4 free\"",
    "-|",
    "|]\n",
];

/// Tunes that are made of the words above.
const MADE: u64 = 300;

/// Notes and rests between them.
const NOTES: &[&str] = &[
    "D", "E2", "f/2", "^G", "_B,", "=c'", "A>B", "d3/2", "z", "DE", "F3G", "AB/c/", " ", "| ",
    "|\n",
];

fn seeds(books: &[String]) -> Vec<Vec<u8>> {
    let mut all = crate::seeds::abc(books);
    all.extend((0..MADE).map(|seed| made(&mut Chance::new(seed)).into_bytes()));
    all
}

/// A short tune in which anything may stand beside anything.
fn made(chance: &mut Chance) -> String {
    let mut tune = "X:1\nL:1/8\nK:D\n".to_owned();
    for _ in 0..4 + chance.below(40) {
        let words = if chance.once_in(3) { WORDS } else { NOTES };
        tune.push_str(chance.one(words).copied().unwrap_or_default());
    }
    tune
}

fn check(input: &[u8], thorough: bool) -> Result<Seen, String> {
    let mut seen = Seen { work: input.len(), ..Seen::default() };
    // As a stream, and as one text that is known to be ABC.
    let mut count = 0;
    for text in Tunes::new(input) {
        count += 1;
        match text {
            Ok(text) if text.kind == Kind::Abc && count <= 8 => one(&text, thorough, &mut seen)?,
            Ok(_) => {}
            Err(error) => seen.signs.push(error.code()),
        }
    }
    if count != 1 {
        let text = TuneText::abc(String::from_utf8_lossy(input));
        one(&text, thorough, &mut seen)?;
    }
    Ok(seen)
}

fn one(text: &TuneText, thorough: bool, seen: &mut Seen) -> Result<(), String> {
    let reading = abc::read(text, &ReadOptions::default());
    whole::reading(&reading, text, thorough, seen)?;
    let whistle = builtin::find("tin-whistle-d").ok();
    let fourth = Interval::from_semitones(5);
    for (aim, fold) in [(Aim::Interval(fourth), false), (Aim::Best, true)] {
        match move_text(text, &ReadOptions::default(), &Wish { aim, instrument: whistle, fold }) {
            Ok(moved) => {
                let again = abc::read(
                    &TuneText { text: moved.text.clone(), ..text.clone() },
                    &ReadOptions::default(),
                );
                if again.tune.events.len() != reading.tune.events.len() {
                    seen.law(Err(format!("a moved text has other notes: {}", moved.text)));
                }
            }
            Err(why) => seen.signs.push(why.code()),
        }
    }
    Ok(())
}

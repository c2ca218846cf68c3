//! Ornaments and other signs: single letters, and names between exclamation marks.

use super::lyrics::quoted;
use crate::ProblemKind;
use crate::report::{Report, excerpt};
use modewright_core::tune::MarkKind;

/// Letters that stand for signs, as a tune defines them.
#[derive(Debug, Default)]
pub(super) struct Signs {
    own: Vec<(u8, Option<MarkKind>)>,
}

impl Signs {
    /// What a letter stands for: the tune's own meaning, else the standard's (ABC 2.1, §4.14).
    /// `Err` for a letter that stands for nothing, `Ok(None)` for one that was made to.
    pub(super) fn of(&self, letter: u8) -> Result<Option<MarkKind>, ()> {
        if let Some((_, meaning)) = self.own.iter().find(|(own, _)| *own == letter) {
            return Ok(meaning.clone());
        }
        let name = match letter {
            b'.' => "staccato",
            b'~' => "roll",
            b'H' => "fermata",
            b'L' => "accent",
            b'M' => "lowermordent",
            b'O' => "coda",
            b'P' => "uppermordent",
            b'S' => "segno",
            b'T' => "trill",
            b'u' => "upbow",
            b'v' => "downbow",
            _ => return Err(()),
        };
        Ok(Some(MarkKind::Sign(name.to_owned())))
    }

    /// `U:`, like `T = !trill!` or `p = "^+"`.
    pub(super) fn define(&mut self, value: &str, at: usize, report: &mut Report) {
        let parts = value.split_once('=');
        let letter = parts.and_then(|(letter, _)| match letter.trim().as_bytes() {
            [letter] if letter.is_ascii_graphic() => Some(*letter),
            _ => None,
        });
        let meaning = parts.map(|(_, meaning)| meaning.trim());
        match (letter, meaning) {
            (Some(letter), Some(meaning)) if !meaning.is_empty() => {
                self.own.retain(|(own, _)| *own != letter);
                self.own.push((letter, self::meaning(meaning)));
            }
            _ => {
                let found = excerpt(value);
                report.add(at, at + value.len(), ProblemKind::SymbolNotUnderstood { found });
            }
        }
    }
}

/// What a letter is to mean: a sign, or text with its place before it. `None` for nothing.
fn meaning(said: &str) -> Option<MarkKind> {
    let name = said.trim_matches(['!', '+', '"']);
    match name {
        "" | "nil" | "none" => None,
        _ if is_name(name) && !said.starts_with('"') => Some(MarkKind::Sign(name.to_owned())),
        // What no sign can be called is said as it stands.
        _ => {
            let text = said.trim_matches(['!', '"']);
            let has_place = text.starts_with(['^', '_', '<', '>', '@']);
            Some(quoted(&if has_place { text.to_owned() } else { format!("@{text}") }))
        }
    }
}

/// The longest name of a sign between exclamation marks.
const LONGEST: usize = 60;

/// Whether a sign may be called so between exclamation marks.
pub(super) fn is_name(name: &str) -> bool {
    !name.is_empty()
        && name.len() <= LONGEST
        && !name.contains(['!', '|', '[', ':', ']', '%'])
        && !name.contains(char::is_whitespace)
}

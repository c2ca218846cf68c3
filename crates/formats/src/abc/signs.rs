//! Ornaments and other signs: single letters, and names between exclamation marks.

use crate::ProblemKind;
use crate::report::{Report, excerpt};

/// Letters that stand for signs, as a tune defines them.
#[derive(Debug, Default)]
pub(super) struct Signs {
    own: Vec<(u8, Option<String>)>,
}

impl Signs {
    /// What a letter stands for: the tune's own meaning, else the standard's (ABC 2.1, §4.14).
    /// `Err` for a letter that stands for nothing, `Ok(None)` for one that was made to.
    pub(super) fn of(&self, letter: u8) -> Result<Option<&str>, ()> {
        if let Some((_, name)) = self.own.iter().find(|(own, _)| *own == letter) {
            return Ok(name.as_deref());
        }
        Ok(Some(match letter {
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
        }))
    }

    /// `U:`, like `T = !trill!`.
    pub(super) fn define(&mut self, value: &str, at: usize, report: &mut Report) {
        let parts = value.split_once('=');
        let letter = parts.and_then(|(letter, _)| match letter.trim().as_bytes() {
            [letter] if letter.is_ascii_graphic() => Some(*letter),
            _ => None,
        });
        let meaning = parts.map(|(_, meaning)| meaning.trim());
        match (letter, meaning) {
            (Some(letter), Some(meaning)) if !meaning.is_empty() => {
                let name = meaning.trim_matches(['!', '+', '"']).to_owned();
                let nothing = matches!(name.as_str(), "nil" | "none");
                self.own.retain(|(own, _)| *own != letter);
                self.own.push((letter, (!nothing).then_some(name)));
            }
            _ => {
                let found = excerpt(value);
                report.add(at, at + value.len(), ProblemKind::SymbolNotUnderstood { found });
            }
        }
    }
}

/// The longest name of a sign between exclamation marks.
pub(super) const LONGEST: usize = 60;

/// Whether a sign may be called so between exclamation marks.
pub(super) fn is_name(name: &str) -> bool {
    !name.is_empty()
        && name.len() <= LONGEST
        && !name.contains(['!', '|', '[', ':', ']', ' ', '\t', '%'])
}

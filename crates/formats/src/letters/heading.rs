//! What stands at the front of a line, or fills one, without being notes.

use super::key::key;
use super::token::TokenKind;
use super::word::looks_like_notes;
use crate::piece::of_word;
use modewright_core::Metre;

/// What a line begins with: how many bytes it takes, and what it says; `None` for nothing that
/// needs to be kept, such as a line number.
pub(super) type Heading = (usize, Option<TokenKind>);

/// Words that name a section of a tune.
const PART_WORDS: [&str; 7] = ["part", "section", "strain", "turn", "verse", "chorus", "refrain"];

/// The longest name of a part, in bytes.
const MAX_NAME: usize = 60;

/// Reads the front of a line. `first` is whether nothing but empty lines came before.
///
/// - `1.` or `2)` numbers a line and is passed over, like marks of quotation and lists.
/// - `Title:`, `Key:` and `Metre:` say what they say (`Tune:` is a title only if prose follows); so do `Key of D` and `in G major` alone.
/// - `A:`, `Part B`, `B part`, `Second part:` and `[A]` alone begin a part. So does any other
///   name before a colon, except on the first line, where it is the title.
/// - A first line of prose (more words than notes) is the title.
pub(super) fn heading(line: &str, first: bool) -> Heading {
    let indent = line.len() - line.trim_start_matches([' ', '\t', '>', '•', '*']).len();
    let text = line.get(indent..).unwrap_or_default();
    let number = line_number(text);
    let taken = indent + number;
    let text = text.get(number..).unwrap_or_default();
    if let Some((length, kind)) = before_colon(text, first) {
        return (taken + length, kind);
    }
    if let Some(kind) = whole_line(text.trim(), first) {
        return (line.len(), Some(kind));
    }
    if let Some((name, length)) = part_in_front(text) {
        return (taken + length, Some(TokenKind::Part(name)));
    }
    (taken, None)
}

/// The length of `1. ` or `12) ` in front; 0 without one.
fn line_number(text: &str) -> usize {
    let rest = text.trim_start_matches(|c: char| c.is_ascii_digit());
    let digits = text.len() - rest.len();
    let stops = rest.strip_prefix(['.', ')']).is_some_and(|r| !r.starts_with('.'));
    if (1..=3).contains(&digits) && stops { digits + 1 } else { 0 }
}

fn before_colon(text: &str, first: bool) -> Option<Heading> {
    let near = text.get(..text.floor_char_boundary(MAX_NAME + 1)).unwrap_or_default();
    let (name, after) = near.split_once(':')?;
    // The colon of a repeat sign is no colon.
    if name.contains('|') || after.starts_with(['|', ':', ']']) || name.trim_end() != name {
        return None;
    }
    let rest = text.get(name.len() + 1..).unwrap_or_default();
    let lower = name.trim().to_ascii_lowercase();
    let all = text.len();
    let (kind, length) = match lower.as_str() {
        "" => return None,
        // `Tune: D E F` has no title, but notes that must not be lost.
        "tune" if !is_prose(rest) => return Some((all - rest.len(), None)),
        "title" | "name" | "tune" | "t" => (title(rest)?, all),
        "key" => (TokenKind::Key(key(rest)?), all),
        "metre" | "meter" | "time" | "time signature" => (TokenKind::Metre(metre(rest)?), all),
        _ => {
            if let Some(name) = part_name(name) {
                return Some((all - rest.len(), Some(TokenKind::Part(name))));
            }
            let words = name.split_whitespace();
            if words.count() > 6 {
                return None;
            }
            // `Say D E F: G A` is a sentence among notes.
            if !is_prose(name) {
                return None;
            }
            let name = name.trim().to_owned();
            let kind = if first { TokenKind::Title(name) } else { TokenKind::Part(name) };
            (kind, all - rest.len())
        }
    };
    Some((length, Some(kind)))
}

fn title(text: &str) -> Option<TokenKind> {
    let text = text.trim();
    (!text.is_empty()).then(|| TokenKind::Title(text.to_owned()))
}

fn metre(text: &str) -> Option<Metre> {
    let (over, under) = text.trim().split_once('/')?;
    Metre::new(&[over.trim().parse().ok()?], under.trim().parse().ok()?).ok()
}

/// `A`, `Part B`, `b part`, `2nd part` as a name; `None` for anything else.
fn part_name(name: &str) -> Option<String> {
    if name.len() > MAX_NAME {
        return None;
    }
    let words: Vec<&str> = name.split_whitespace().collect();
    let is_part = |w: &str| PART_WORDS.iter().any(|p| w.eq_ignore_ascii_case(p));
    match words.as_slice() {
        [letter] if is_label(letter) => Some(letter.to_ascii_uppercase()),
        [word] if is_part(word) => Some((*word).to_owned()),
        [word, other] | [other, word] if is_part(word) => {
            Some(if is_label(other) { other.to_ascii_uppercase() } else { words.join(" ") })
        }
        _ => None,
    }
}

/// A single letter or number.
fn is_label(word: &str) -> bool {
    word.len() == 1 && word.bytes().all(|b| b.is_ascii_alphanumeric())
}

/// Lines that say one thing and hold no notes.
fn whole_line(text: &str, first: bool) -> Option<TokenKind> {
    let bare = text.trim_matches(['(', ')', '[', ']', '“', '”', '"', '*', '=', '-', ' ']);
    if let Some(key) = key_line(bare) {
        return Some(TokenKind::Key(key));
    }
    let words = bare.split_whitespace().count();
    let bracketed = text.starts_with('[') && text.ends_with(']');
    if (words == 2 || words == 1 && (bracketed || bare.len() > 1))
        && let Some(name) = part_name(bare)
    {
        return Some(TokenKind::Part(name));
    }
    (first && is_prose(text)).then(|| TokenKind::Title(text.to_owned()))
}

fn key_line(text: &str) -> Option<modewright_core::Key> {
    if text.len() > MAX_NAME {
        return None;
    }
    let lower = text.to_ascii_lowercase();
    let lead = ["the key of ", "in the key of ", "key of ", "in ", "key "];
    let lead = lead.iter().find(|lead| lower.starts_with(**lead))?;
    key(text.get(lead.len()..)?)
}

/// `Part A` with notes behind it.
fn part_in_front(text: &str) -> Option<(String, usize)> {
    let lower = text.get(..5)?;
    if !lower.eq_ignore_ascii_case("part ") {
        return None;
    }
    let rest = text.get(5..)?.trim_start();
    let label = rest.split_whitespace().next().filter(|w| is_label(w))?;
    let length = text.len() - rest.len() + label.len();
    Some((label.to_ascii_uppercase(), length))
}

/// More words than notes, and no bar lines.
fn is_prose(text: &str) -> bool {
    // Nothing but letters of notes is no title, however it is run together.
    if text.chars().filter(|c| c.is_alphabetic()).all(|c| matches!(c, 'A'..='G' | 'a'..='g')) {
        return false;
    }
    let words = text.split_whitespace().filter(|w| w.chars().any(char::is_alphabetic));
    let (mut all, mut notes) = (0_usize, 0_usize);
    for word in words {
        all += 1;
        notes += usize::from(looks_like_notes(word) || is_music_word(word));
    }
    !text.contains('|') && all > 0 && notes * 2 <= all && notes < all
}

/// Words that stand among notes.
fn is_music_word(word: &str) -> bool {
    let word = word.trim_matches(|c: char| !of_word(c));
    let music = ["sharp", "flat", "natural", "rest", "h", "x2", "and", "then"];
    music.iter().any(|w| word.eq_ignore_ascii_case(w))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(line: &str, first: bool) -> String {
        let (length, kind) = heading(line, first);
        let kind = match kind {
            Some(TokenKind::Title(t)) => format!("title {t}"),
            Some(TokenKind::Part(p)) => format!("part {p}"),
            Some(TokenKind::Key(k)) => format!("key {k}"),
            Some(TokenKind::Metre(m)) => format!("metre {m}"),
            _ => "-".to_owned(),
        };
        format!("{kind} + {}", &line[length..])
    }

    #[test]
    fn fronts_of_lines() {
        for (line, on_first, later) in [
            ("D E F# G", "- + D E F# G", "- + D E F# G"),
            ("1. D E F", "- +  D E F", "- +  D E F"),
            ("12) D E F", "- +  D E F", "- +  D E F"),
            ("> D E", "- + D E", "- + D E"),
            ("A: D E", "part A +  D E", "part A +  D E"),
            ("Part B", "part B + ", "part B + "),
            ("b part:", "part B + ", "part B + "),
            ("Part A D E F", "part A +  D E F", "part A +  D E F"),
            ("[A]", "part A + ", "part A + "),
            ("A", "- + A", "- + A"),
            ("(A B c)", "- + (A B c)", "- + (A B c)"),
            ("Chorus", "part Chorus + ", "part Chorus + "),
            ("Second part: G A", "part Second part +  G A", "part Second part +  G A"),
            ("The turn: G A", "part The turn +  G A", "part The turn +  G A"),
            ("Low Tide Landing", "title Low Tide Landing + ", "- + Low Tide Landing"),
            ("Driftwood", "title Driftwood + ", "- + Driftwood"),
            ("G,A,B,CDEFG", "- + G,A,B,CDEFG", "- + G,A,B,CDEFG"),
            ("A Boat in D", "title A Boat in D + ", "- + A Boat in D"),
            ("Low Tide: D E F", "title Low Tide +  D E F", "part Low Tide +  D E F"),
            ("Tune: D E F", "- +  D E F", "- +  D E F"),
            ("Tune: Ebb Tide", "title Ebb Tide + ", "title Ebb Tide + "),
            ("G,A,B,CDEFG", "- + G,A,B,CDEFG", "- + G,A,B,CDEFG"),
            ("d-e-f#-g", "- + d-e-f#-g", "- + d-e-f#-g"),
            ("Title: Slack Water", "title Slack Water + ", "title Slack Water + "),
            ("Key: E dorian", "key E dorian + ", "key E dorian + "),
            ("in G major", "key G ionian + ", "key G ionian + "),
            ("(key of D)", "key D ionian + ", "key D ionian + "),
            ("Metre: 6/8", "metre 6/8 + ", "metre 6/8 + "),
            ("|: D E :|", "- + |: D E :|", "- + |: D E :|"),
            ("D E:| F", "- + D E:| F", "- + D E:| F"),
            ("d e f: g", "- + d e f: g", "- + d e f: g"),
            (
                "What mode is D E F# G A B?",
                "- + What mode is D E F# G A B?",
                "- + What mode is D E F# G A B?",
            ),
            ("F sharp", "- + F sharp", "- + F sharp"),
            ("", "- + ", "- + "),
        ] {
            assert_eq!(shown(line, true), on_first, "{line}");
            assert_eq!(shown(line, false), later, "{line}");
        }
    }
}

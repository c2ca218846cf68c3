//! What stands in lines under the notes: words (`w:`) and signs (`s:`).

use super::log::Log;
use super::state::State;
use super::text::decode;
use crate::ProblemKind;
use crate::report::span;
use modewright_core::tune::{MarkKind, Place, Syllable};

/// The notes that the next lines stand under.
#[derive(Debug, Default)]
pub(super) struct Lyrics {
    /// One past the last event that lines stand under.
    end: usize,
    /// Its notes, each with its bar.
    notes: Vec<(usize, u32)>,
    /// How many lines of words stand under them.
    verses: u16,
}

/// A piece of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Token {
    /// Something that hangs on the next note.
    Mark(Piece),
    Skip,
    Bar,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Piece {
    Syllable(Syllable),
    Other(MarkKind),
}

impl<L: Log> State<'_, L> {
    /// Hangs words on the music since the last lines, or the next verse on the same music.
    pub(super) fn words_under(&mut self, text: &str, at: usize) {
        self.begin_block();
        let verse = self.lyrics.verses;
        self.lyrics.verses = verse.saturating_add(1);
        self.align(words(text), verse, (at, at + text.len()));
    }

    /// Hangs a line of signs on the same music as the words.
    pub(super) fn signs_under(&mut self, text: &str, at: usize) {
        self.begin_block();
        self.align(signs(text), 0, (at, at + text.len()));
    }

    fn begin_block(&mut self) {
        let (first, end) = (self.lyrics.end, self.builder.next_event());
        if first == end {
            return;
        }
        let events = self.builder.tune().events.get(first..end).unwrap_or(&[]);
        let notes = (first..).zip(events).filter(|(_, e)| e.sound.pitch().is_some());
        self.lyrics.notes.clear();
        self.lyrics.notes.extend(notes.map(|(i, e)| (i, e.bar)));
        self.lyrics.end = end;
        self.lyrics.verses = 0;
    }

    fn align(&mut self, tokens: Vec<Token>, verse: u16, (start, end): (usize, usize)) {
        let notes = &self.lyrics.notes;
        let mut next = 0;
        let mut bar = notes.first().map_or(0, |&(_, bar)| bar);
        let mut left = 0;
        for token in tokens {
            if token == Token::Bar {
                bar = bar.saturating_add(1);
                let later = notes.get(next..).unwrap_or(&[]);
                next += later.partition_point(|&(_, b)| b < bar);
                continue;
            }
            let Some(&(event, in_bar)) = notes.get(next) else {
                left += usize::from(token != Token::Skip);
                continue;
            };
            next += 1;
            bar = bar.max(in_bar);
            let Token::Mark(piece) = token else { continue };
            let kind = match piece {
                Piece::Syllable(syllable) => MarkKind::Lyric { verse, syllable },
                Piece::Other(kind) => kind,
            };
            self.builder.mark_at(event, kind, span(start, end));
        }
        if left > 0 {
            let kind = ProblemKind::LyricsTooMany { count: left };
            self.report.add(start.saturating_sub(2), end, kind);
        }
    }
}

/// Cuts a line of words into its pieces (ABC 2.1, §5.1).
fn words(line: &str) -> Vec<Token> {
    let line = without_number(line.trim());
    let mut tokens: Vec<Token> = Vec::new();
    let mut word = String::new();
    let mut chars = line.chars().peekable();
    let flush = |word: &mut String, tokens: &mut Vec<Token>, hyphen: bool| {
        if word.is_empty() {
            return false;
        }
        let text = decode(word);
        // Blanks alone leave their note without a syllable.
        tokens.push(if text.is_empty() {
            Token::Skip
        } else {
            Token::Mark(Piece::Syllable(Syllable::Text { text, hyphen }))
        });
        word.clear();
        true
    };
    while let Some(c) = chars.next() {
        match c {
            // Before a sign of this line the backslash prints it; before others it is an escape.
            '\\' => match chars.next() {
                Some(sign @ ('-' | '_' | '*' | '|')) => word.push(sign),
                Some(other) => word.extend(['\\', other]),
                None => {}
            },
            '~' => word.push(' '),
            '-' => {
                if !flush(&mut word, &mut tokens, true) {
                    // After a blank or another hyphen it is a syllable of its own.
                    if let Some(Token::Mark(Piece::Syllable(Syllable::Text { hyphen, .. }))) =
                        tokens.last_mut()
                    {
                        *hyphen = true;
                    }
                    let syllable = Syllable::Text { text: "-".to_owned(), hyphen: true };
                    tokens.push(Token::Mark(Piece::Syllable(syllable)));
                }
            }
            '_' => {
                flush(&mut word, &mut tokens, false);
                tokens.push(Token::Mark(Piece::Syllable(Syllable::Held)));
            }
            '*' => {
                flush(&mut word, &mut tokens, false);
                tokens.push(Token::Skip);
            }
            '|' => {
                flush(&mut word, &mut tokens, false);
                tokens.push(Token::Bar);
            }
            c if c.is_whitespace() => {
                flush(&mut word, &mut tokens, false);
            }
            c => word.push(c),
        }
    }
    flush(&mut word, &mut tokens, false);
    tokens
}

/// The line without the number of its verse: `1.~Three` is sung as Three (ABC 2.1, §5.3).
fn without_number(line: &str) -> &str {
    let digits = line.bytes().take_while(u8::is_ascii_digit).count();
    let rest = line.get(digits..).unwrap_or_default();
    match rest.strip_prefix('.') {
        Some(rest) if digits > 0 => rest.trim_start_matches(['~', ' ']),
        _ => line,
    }
}

/// Cuts a line of signs into its pieces (ABC 2.1, §4.15): names between exclamation marks, text
/// between quotation marks, `*` for a note without any.
fn signs(line: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut rest = line.trim_start();
    while let Some(first) = rest.chars().next() {
        let inside = rest.get(first.len_utf8()..).unwrap_or_default();
        let (text, after) = match first {
            '!' | '"' => inside.split_once(first).unwrap_or((inside, "")),
            _ => ("", inside),
        };
        match first {
            '*' => tokens.push(Token::Skip),
            '|' => tokens.push(Token::Bar),
            '!' if super::signs::is_name(text) => {
                tokens.push(Token::Mark(Piece::Other(MarkKind::Sign(text.to_owned()))));
            }
            '!' | '"' if text.trim().is_empty() => tokens.push(Token::Skip),
            // What no sign can be called is said as it stands.
            '!' => tokens.push(Token::Mark(Piece::Other(quoted(&format!("@{text}"))))),
            '"' => tokens.push(Token::Mark(Piece::Other(quoted(text)))),
            _ => {}
        }
        rest = after.trim_start();
    }
    tokens
}

/// Where the chord signs of a line of signs stand.
pub(super) fn chord_places(line: &str) -> Vec<(usize, usize)> {
    let mut places = Vec::new();
    let mut at = 0;
    while let Some(open) = line.get(at..).and_then(|rest| rest.find(['!', '"'])) {
        let start = at + open + 1;
        let mark = line.get(start - 1..start).unwrap_or_default();
        let inside = line.get(start..).unwrap_or_default();
        let Some(length) = inside.find(mark) else { break };
        let text = inside.get(..length).unwrap_or_default();
        if mark == "\"" && matches!(quoted(text), MarkKind::ChordSign(_)) {
            places.push((start, start + length));
        }
        at = start + length + 1;
    }
    places
}

/// What stands between quotation marks: a chord sign, or text with its place before it.
pub(super) fn quoted(text: &str) -> MarkKind {
    let place = match text.as_bytes().first() {
        Some(b'^') => Place::Above,
        Some(b'_') => Place::Below,
        Some(b'<') => Place::Left,
        Some(b'>') => Place::Right,
        Some(b'@') => Place::Free,
        _ => return MarkKind::ChordSign(decode(text)),
    };
    MarkKind::Text { place, text: decode(text.get(1..).unwrap_or_default()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(tokens: Vec<Token>) -> String {
        let piece = |token| match token {
            Token::Skip => "*".to_owned(),
            Token::Bar => "|".to_owned(),
            Token::Mark(Piece::Syllable(Syllable::Held)) => "_".to_owned(),
            Token::Mark(Piece::Syllable(Syllable::Text { text, hyphen })) => {
                format!("{text}{}", if hyphen { "+" } else { "" })
            }
            Token::Mark(Piece::Other(kind)) => format!("{kind:?}"),
        };
        tokens.into_iter().map(piece).collect::<Vec<_>>().join(",")
    }

    #[test]
    fn words_are_cut() {
        for (line, wanted) in [
            ("", ""),
            ("syll-a-ble", "syll+,a+,ble"),
            ("a--b", "a+,-+,b"),
            ("time__ of~day", "time,_,_,of day"),
            ("re\\-do \\'e\\~n", "re-do,éñ"),
            ("12. Three", "Three"),
            ("12 men", "12,men"),
            ("a*|b", "a,*,|,b"),
            ("caf&eacute;", "café"),
        ] {
            assert_eq!(told(words(line)), wanted, "{line}");
        }
    }

    #[test]
    fn chord_signs_are_found_among_signs() {
        let line = " !trill! * | \"Am\" \"^x\" \"é\"";
        let found: Vec<&str> =
            chord_places(line).into_iter().map(|(from, to)| &line[from..to]).collect();
        assert_eq!(found, ["Am", "é"]);
        assert!(chord_places("\"open").is_empty());
    }

    #[test]
    fn signs_are_cut() {
        let wanted = "Sign(\"trill\"),*,|,ChordSign(\"Am\"),Text { place: Above, text: \"x\" }";
        assert_eq!(told(signs(" !trill! * | \"Am\" \"^x\"")), wanted);
        assert_eq!(told(signs("!open")), "Sign(\"open\")");
    }
}

//! Words under the notes.

use crate::ProblemKind;
use crate::report::{Report, span};
use modewright_core::Tune;
use modewright_core::tune::{Mark, MarkKind, Syllable};

/// Lines of words with the notes they stand under.
#[derive(Debug, Default)]
pub(super) struct Lyrics {
    lines: Vec<Words>,
    /// First event that has no words yet.
    from: usize,
}

#[derive(Debug)]
struct Words {
    text: String,
    at: usize,
    verse: u16,
    first: usize,
    end: usize,
}

/// A piece of a line of words.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Token {
    Syllable { text: String, hyphen: bool },
    Hold,
    Skip,
    Bar,
}

impl Lyrics {
    /// Adds a line under the music since the last words, or the next verse of the same music.
    pub(super) fn line(&mut self, text: &str, at: usize, events: usize) {
        let again = self.lines.last().filter(|last| events == self.from && last.end == events);
        let (verse, first) = match again {
            Some(last) => (last.verse.saturating_add(1), last.first),
            None => (0, self.from),
        };
        self.lines.push(Words { text: text.to_owned(), at, verse, first, end: events });
        self.from = events;
    }

    /// Puts the words under the notes of a finished tune.
    pub(super) fn align(self, tune: &mut Tune, report: &mut Report) {
        if self.lines.is_empty() {
            return;
        }
        let mut marks = Vec::new();
        for line in &self.lines {
            let left = align(line, tune, &mut marks);
            if left > 0 {
                let kind = ProblemKind::LyricsTooMany { count: left };
                report.add(line.at.saturating_sub(2), line.at + line.text.len(), kind);
            }
        }
        tune.marks.append(&mut marks);
        tune.marks.sort_by_key(|mark| mark.event);
    }
}

/// Puts a line under its notes; gives the number of syllables that find no note.
fn align(line: &Words, tune: &Tune, marks: &mut Vec<Mark>) -> usize {
    let events = tune.events.get(line.first..line.end).unwrap_or(&[]);
    let notes: Vec<(usize, u32)> = (line.first..)
        .zip(events)
        .filter(|(_, e)| e.sound.pitch().is_some())
        .map(|(i, e)| (i, e.bar))
        .collect();
    let mut next = 0;
    let mut bar = notes.first().map_or(0, |&(_, bar)| bar);
    let mut left = 0;
    for token in tokens(&line.text) {
        if token == Token::Bar {
            bar = bar.saturating_add(1);
            let later = notes.get(next..).unwrap_or(&[]).iter().take_while(|(_, b)| *b < bar);
            next += later.count();
            continue;
        }
        let Some(&(event, in_bar)) = notes.get(next) else {
            left += usize::from(token != Token::Skip);
            continue;
        };
        next += 1;
        bar = bar.max(in_bar);
        let syllable = match token {
            Token::Syllable { text, hyphen } => Syllable::Text { text, hyphen },
            Token::Hold => Syllable::Held,
            Token::Skip | Token::Bar => continue,
        };
        let kind = MarkKind::Lyric { verse: line.verse, syllable };
        marks.push(Mark { event, kind, span: span(line.at, line.at + line.text.len()) });
    }
    left
}

/// Cuts a line of words into its pieces (ABC 2.1, §5.1).
fn tokens(line: &str) -> Vec<Token> {
    let line = without_number(line.trim());
    let mut tokens: Vec<Token> = Vec::new();
    let mut word = String::new();
    let mut chars = line.chars().peekable();
    let flush = |word: &mut String, tokens: &mut Vec<Token>, hyphen: bool| {
        if !word.is_empty() {
            tokens.push(Token::Syllable { text: std::mem::take(word), hyphen });
            return true;
        }
        false
    };
    while let Some(c) = chars.next() {
        match c {
            '\\' if chars.peek() == Some(&'-') => {
                chars.next();
                word.push('-');
            }
            '~' => word.push(' '),
            '-' => {
                if !flush(&mut word, &mut tokens, true) {
                    // After a blank or another hyphen it is a syllable of its own.
                    if let Some(Token::Syllable { hyphen, .. }) = tokens.last_mut() {
                        *hyphen = true;
                    }
                    tokens.push(Token::Syllable { text: "-".to_owned(), hyphen: true });
                }
            }
            '_' => {
                flush(&mut word, &mut tokens, false);
                tokens.push(Token::Hold);
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

/// The line without the number of its verse: `1.~Three` is sung as Three.
fn without_number(line: &str) -> &str {
    let digits = line.bytes().take_while(u8::is_ascii_digit).count();
    let rest = line.get(digits..).unwrap_or_default();
    match rest.strip_prefix('.') {
        Some(rest) if digits > 0 => rest.trim_start_matches(['~', ' ']),
        _ => line,
    }
}

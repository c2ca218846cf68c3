//! From a line of letters to its pieces.

use super::heading::heading;
use super::scanner::{Line, Place, Scanner, lines};
use super::token::{Duration, Note, Token, TokenKind};
use super::word::{self, Letter, is_note, is_rest};
use crate::ProblemKind;
use crate::piece::{holds, of_word};
use modewright_core::tune::{BarLine, BarStyle, TuneBuilder};
use modewright_core::{Alter, Step};

/// The most pieces that are read: two for each note that a tune may have.
const MAX_TOKENS: usize = 2 * TuneBuilder::MAX_EVENTS;

/// The most strokes or commas of one note.
const MAX_MARKS: u8 = 3;

/// The largest number behind a note: as a length, sixteen bars of four.
const MAX_NUMBER: u32 = 64;

/// Reads a whole text.
pub(super) fn tokens(text: &str, first_line: u32) -> Vec<Token> {
    let mut lexer = Lexer { joined_text: joins(text), ..Lexer::default() };
    let mut first = true;
    for line in lines(text, first_line) {
        lexer.line(line, first);
        if lexer.is_full() {
            let limit = TuneBuilder::MAX_EVENTS;
            let place = Scanner::new(line).since(&Scanner::new(line)).1;
            lexer.push(TokenKind::Bad(Box::new(ProblemKind::TooManyNotes { limit })), place);
            break;
        }
        first &= line.text.trim().is_empty();
    }
    lexer.tokens
}

/// Whether a text joins its notes into groups.
fn joins(text: &str) -> bool {
    let mut first = true;
    lines(text, 1).any(|line| {
        let (front, _) = heading(line.text, first);
        first &= line.text.trim().is_empty();
        let notes = line.text.get(front..).unwrap_or_default();
        notes.split(|c: char| !c.is_alphabetic()).any(word::joins)
    })
}

#[derive(Debug, Default)]
struct Lexer {
    tokens: Vec<Token>,
    joined_text: bool,
    /// Whether the next note opens a line or sentence.
    opens: bool,
    /// Whether the last piece is a note or rest with nothing behind it yet.
    touching: bool,
    /// A roll sign before the next note.
    roll: bool,
}

impl Lexer {
    fn line(&mut self, line: Line<'_>, first: bool) {
        let mut scanner = Scanner::new(line);
        let (front, kind) = heading(line.text, first);
        scanner.skip(front);
        let start = Scanner::new(line);
        if line.text.trim().is_empty() {
            self.push(TokenKind::Gap, scanner.since(&start).1);
            return;
        }
        if let Some(kind) = kind {
            self.push(kind, scanner.since(&start).1);
        }
        (self.opens, self.touching, self.roll) = (true, false, false);
        let had = self.tokens.len();
        while scanner.peek().is_some() && !self.is_full() {
            self.piece(&mut scanner);
        }
        self.repeat_line(had);
        if self.tokens.len() > had {
            let end = scanner;
            self.push(TokenKind::LineEnd, scanner.since(&end).1);
        }
    }

    /// Marks the beginning of a line that is played again by `x2` behind its notes. Alone on a
    /// line it is meant for all that stands before, as a repeat sign is.
    fn repeat_line(&mut self, from: usize) {
        let line = self.tokens.get(from..).unwrap_or_default();
        let starts = |t: &Token| matches!(&t.kind, TokenKind::Bar(line) if line.repeat_on > 0);
        let mut pieces = line.iter().skip_while(|t| !matches!(t.kind, TokenKind::Note(_)));
        let times = pieces.find_map(|t| match t.kind {
            TokenKind::Times(times) => Some(times),
            _ => None,
        });
        if let (Some(times), Some(first)) =
            (times.filter(|_| !line.iter().any(starts)), line.first())
        {
            let place = first.place;
            self.tokens.insert(from, Token { kind: TokenKind::TimesFrom(times), place });
        }
    }

    fn is_full(&self) -> bool {
        self.tokens.len() >= MAX_TOKENS
    }

    fn push(&mut self, kind: TokenKind, place: Place) {
        self.tokens.push(Token { kind, place });
    }

    fn piece(&mut self, scanner: &mut Scanner<'_>) {
        let start = *scanner;
        let Some(c) = scanner.peek() else { return };
        let touching = std::mem::take(&mut self.touching);
        match c {
            '|' | ':' | '[' | ']' => self.bar(scanner),
            c if c.is_alphabetic() => self.run(scanner, touching),
            c if c.is_ascii_digit() => self.number(scanner),
            '×' => self.times(scanner, start),
            '~' if scanner.rest().chars().nth(1).is_some_and(is_note) => {
                scanner.bump();
                self.roll = true;
            }
            '-' | '–' | '—' | '_' | '~' => self.dash(scanner),
            '#' | '♯' | '♭' | '♮' if self.late_sign(c) => {
                scanner.bump();
            }
            '.' | '!' | '?' => {
                scanner.bump();
                self.opens = true;
            }
            c if c.is_whitespace() || is_punctuation(c) => {
                scanner.bump();
            }
            _ => self.bad(scanner, start),
        }
    }

    /// A run of letters: notes, or a word.
    fn run(&mut self, scanner: &mut Scanner<'_>, touching: bool) {
        let start = *scanner;
        let run = scanner.take_while(char::is_alphabetic);
        if let Some(letters) = word::notes(run, self.joined_text) {
            *scanner = start;
            self.letters(scanner, letters, touching);
            return;
        }
        let place = scanner.since(&start).1;
        if let Some((letter, alter)) = word::note_with_word(run) {
            let note = Note { alter, signed: true, ..self.note(letter, touching) };
            self.finish_note(scanner, start, note);
        } else if let Some(alter) = word::sign_word(run) {
            match self.tokens.last_mut() {
                Some(Token { kind: TokenKind::Note(note), place: at }) if !note.signed => {
                    (note.alter, note.signed) = (alter, true);
                    at.span.end = place.span.end;
                    self.number_behind(scanner);
                }
                _ => self.bad(scanner, start),
            }
        } else if run.eq_ignore_ascii_case("rest") || run.eq_ignore_ascii_case("rests") {
            self.push(TokenKind::Rest(Duration::default()), place);
        } else if run.eq_ignore_ascii_case("x")
            && scanner.rest().trim_start().starts_with(|c: char| c.is_ascii_digit())
        {
            *scanner = start;
            self.times(scanner, start);
        } else if run.eq_ignore_ascii_case("twice") || run.eq_ignore_ascii_case("repeat") {
            self.push(TokenKind::Times(2), place);
        } else if !(run.eq_ignore_ascii_case("and") || run.eq_ignore_ascii_case("then")) {
            self.bad(scanner, start);
        }
    }

    /// Notes without blanks between them.
    fn letters(
        &mut self,
        scanner: &mut Scanner<'_>,
        letters: impl Iterator<Item = Letter>,
        touching: bool,
    ) {
        let mut joined = touching;
        for letter in letters {
            if self.is_full() {
                break;
            }
            let start = *scanner;
            match letter {
                Letter::Note(letter, alter, length) => {
                    scanner.skip(length);
                    let mut note = self.note(letter, joined);
                    (note.alter, note.signed) = (alter.unwrap_or_default(), alter.is_some());
                    self.finish_note(scanner, start, note);
                }
                Letter::Rest => {
                    scanner.bump();
                    let (number, under) = number_and_stroke(scanner);
                    let (text, place) = scanner.since(&start);
                    let kind = if fits(number, under) {
                        TokenKind::Rest(Duration { over: number, under })
                    } else {
                        not_a_note(text)
                    };
                    self.push(kind, place);
                }
                Letter::H(_) => {
                    scanner.bump();
                    let (found, place) = scanner.since(&start);
                    let found = found.to_owned();
                    // What stands behind it goes with it.
                    scanner.take_while(|c| "#♯♭♮'’′,".contains(c) || c.is_ascii_digit());
                    self.push(TokenKind::Bad(Box::new(ProblemKind::LetterH { found })), place);
                }
            }
            joined = true;
        }
        self.touching = true;
    }

    fn note(&mut self, letter: char, joined: bool) -> Note {
        Note {
            step: Step::from_letter(letter).unwrap_or(Step::C),
            alter: Alter::NATURAL,
            signed: false,
            capital: letter.is_ascii_uppercase(),
            opens: std::mem::take(&mut self.opens),
            up: 0,
            commas: 0,
            tight_comma: false,
            number: None,
            under: None,
            joined,
            roll: std::mem::take(&mut self.roll),
        }
    }

    /// Reads what stands behind a note's letter: signs, strokes, commas and a number.
    fn finish_note(&mut self, scanner: &mut Scanner<'_>, start: Scanner<'_>, mut note: Note) {
        let mut semitones = i32::from(note.alter.semitones());
        let mut wrong = false;
        while let Some(c) = scanner.peek() {
            match c {
                '#' | '♯' | '𝄪' => semitones += if c == '𝄪' { 2 } else { 1 },
                '♭' | '𝄫' => semitones -= if c == '𝄫' { 2 } else { 1 },
                '♮' => wrong |= semitones != 0,
                '\'' | '’' | '′' => note.up = note.up.saturating_add(1),
                ',' => note.commas = note.commas.saturating_add(1),
                c if (c.is_ascii_digit() || c == '/') && note.number.or(note.under).is_none() => {
                    let before = *scanner;
                    (note.number, note.under) = number_and_stroke(scanner);
                    if scanner.since(&before).0.is_empty() {
                        break;
                    }
                    continue;
                }
                _ => break,
            }
            note.signed |= matches!(c, '#' | '♯' | '𝄪' | '♭' | '𝄫' | '♮');
            scanner.bump();
        }
        let behind = scanner.peek();
        note.tight_comma = note.commas > 0
            && (note.number.is_some()
                || behind.is_some_and(|c| is_note(c) || is_rest(c) || c == '|'));
        wrong |= note.up > MAX_MARKS || note.commas > MAX_MARKS || semitones.abs() > 2;
        wrong |= !fits(note.number, note.under);
        let (text, place) = scanner.since(&start);
        match Alter::new(semitones) {
            Ok(alter) if !wrong => {
                note.alter = alter;
                self.push(TokenKind::Note(note), place);
            }
            _ => self.push(not_a_note(text), place),
        }
        self.touching = true;
    }

    /// A number behind a sign word: `F sharp 2` is none, `F sharp2` is.
    fn number_behind(&mut self, scanner: &mut Scanner<'_>) {
        let start = *scanner;
        let (number, under) = number_and_stroke(scanner);
        let end = scanner.since(&start).1.span.end;
        if let Some(Token { kind: TokenKind::Note(note), place }) = self.tokens.last_mut()
            && note.number.or(note.under).is_none()
            && fits(number, under)
        {
            (note.number, note.under) = (number, under);
            place.span.end = end;
        } else {
            *scanner = start;
        }
    }

    /// A sign that stands off its note: `F #`.
    fn late_sign(&mut self, sign: char) -> bool {
        let alter = match sign {
            '#' | '♯' => Alter::SHARP,
            '♭' => Alter::FLAT,
            _ => Alter::NATURAL,
        };
        match self.tokens.last_mut() {
            Some(Token { kind: TokenKind::Note(note), .. }) if !note.signed => {
                (note.alter, note.signed) = (alter, true);
                true
            }
            _ => false,
        }
    }

    /// Bar lines and repeat signs, and the number of an ending behind them.
    fn bar(&mut self, scanner: &mut Scanner<'_>) {
        let start = *scanner;
        let run = scanner.take_while(|c| matches!(c, '|' | ':' | '[' | ']'));
        let place = scanner.since(&start).1;
        let dots = |part: &str| u8::try_from(part.matches(':').count()).unwrap_or(u8::MAX).min(15);
        match (run.find('|'), run.rfind('|')) {
            (Some(from), Some(to)) => {
                let repeat_back = dots(run.get(..from).unwrap_or_default());
                let repeat_on = dots(run.get(to..).unwrap_or_default());
                let strokes = run.matches('|').count();
                let style = if holds(run, "|]") || repeat_back > 0 && strokes > 1 {
                    BarStyle::Final
                } else if holds(run, "[|") {
                    BarStyle::Initial
                } else if strokes > 1 {
                    BarStyle::Double
                } else if repeat_back > 0 {
                    BarStyle::Final
                } else if repeat_on > 0 {
                    BarStyle::Initial
                } else {
                    BarStyle::Single
                };
                self.push(TokenKind::Bar(BarLine { style, repeat_back, repeat_on }), place);
            }
            // A sign that ends one repeat and begins another.
            _ if holds(run, "::") => {
                let line = BarLine { style: BarStyle::Double, repeat_back: 1, repeat_on: 1 };
                self.push(TokenKind::Bar(line), place);
            }
            // Brackets and colons among words.
            _ if !run.contains('[') => return,
            _ => {}
        }
        let before = *scanner;
        if let Some(pass) =
            scanner.take_while(|c| c.is_ascii_digit()).parse().ok().filter(|&p| p > 0)
            && pass <= modewright_core::tune::Passes::MAX
        {
            scanner.take_while(|c| c == '.');
            let place = scanner.since(&before).1;
            self.push(TokenKind::Ending(pass), place);
        } else {
            *scanner = before;
        }
    }

    /// `2x`, or a number that belongs to nothing.
    fn number(&mut self, scanner: &mut Scanner<'_>) {
        let start = *scanner;
        let number = scanner.take_while(|c| c.is_ascii_digit()).parse().ok();
        let x = scanner.eat(|c| matches!(c, 'x' | 'X' | '×')).is_some();
        let ends = !scanner.peek().is_some_and(of_word);
        match number.filter(|n| x && ends && (2..=16).contains(n)) {
            Some(times) => self.push(TokenKind::Times(times), scanner.since(&start).1),
            None => {
                *scanner = start;
                self.bad(scanner, start);
            }
        }
    }

    /// `x2`, `× 2`.
    fn times(&mut self, scanner: &mut Scanner<'_>, start: Scanner<'_>) {
        scanner.bump();
        scanner.take_while(|c| c == ' ');
        let number = scanner.take_while(|c| c.is_ascii_digit()).parse().ok();
        match number.filter(|n| (2..=16).contains(n)) {
            Some(times) => self.push(TokenKind::Times(times), scanner.since(&start).1),
            None => self.bad(scanner, start),
        }
    }

    /// A dash counts between blanks; joined to a letter it only parts it from the next.
    fn dash(&mut self, scanner: &mut Scanner<'_>) {
        let start = *scanner;
        let free = scanner.before().is_whitespace();
        scanner.take_while(|c| matches!(c, '-' | '–' | '—' | '_' | '~'));
        let free = free && scanner.peek().is_none_or(char::is_whitespace);
        // In front of a line it is the mark of a list.
        if free && !self.opens {
            self.push(TokenKind::Dash, scanner.since(&start).1);
        }
    }

    /// Takes the rest of a word as unreadable.
    fn bad(&mut self, scanner: &mut Scanner<'_>, start: Scanner<'_>) {
        let more = scanner.take_while(|c| !c.is_whitespace() && !is_punctuation(c) && c != '|');
        if more.is_empty() && scanner.since(&start).0.is_empty() {
            scanner.bump();
        }
        let (found, place) = scanner.since(&start);
        let found = found.trim_end_matches(['.', '!', '?', ':', ']']);
        let kind = not_a_note(found);
        self.push(kind, place);
        self.opens = false;
    }
}

/// What stands between words and says nothing of notes.
fn is_punctuation(c: char) -> bool {
    matches!(
        c,
        ',' | ';'
            | '('
            | ')'
            | '"'
            | '“'
            | '”'
            | '„'
            | '‘'
            | '’'
            | '\''
            | '*'
            | '•'
            | '·'
            | '…'
            | '>'
    )
}

/// The longest word that a problem quotes, in characters.
const MAX_FOUND: usize = 40;

fn not_a_note(found: &str) -> TokenKind {
    let found = found.chars().take(MAX_FOUND).collect();
    TokenKind::Bad(Box::new(ProblemKind::NotANote { found }))
}

/// `2`, `3/2`, `/2`, `/`; numbers that are no numbers any more are the largest there is.
fn number_and_stroke(scanner: &mut Scanner<'_>) -> (Option<u32>, Option<u32>) {
    let number = |digits: &str| (!digits.is_empty()).then(|| digits.parse().unwrap_or(u32::MAX));
    let over = number(scanner.take_while(|c| c.is_ascii_digit()));
    let before = *scanner;
    // A stroke between blanks or before a letter is none of length.
    if scanner.eat(|c| c == '/').is_none() {
        return (over, None);
    }
    let under = number(scanner.take_while(|c| c.is_ascii_digit()));
    if under.is_none() && scanner.peek() == Some('/') {
        *scanner = before;
        return (over, None);
    }
    (over, Some(under.unwrap_or(2)))
}

/// Whether a length is one that a note can have.
fn fits(over: Option<u32>, under: Option<u32>) -> bool {
    let fit = |n: Option<u32>| n.is_none_or(|n| (1..=MAX_NUMBER).contains(&n));
    fit(over) && fit(under)
}

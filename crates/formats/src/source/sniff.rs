//! ABC or plain letters?

use super::Kind;
use super::line_kind::{LineKind, kind_of};
use crate::letters::NumberCount;
use crate::piece::of_word;

/// How a text that may be a tune is written. The first of these that holds decides:
///
/// 1. A field line `X:`, `K:`, `M:`, `L:` or `Q:`, or such a field in brackets: ABC.
/// 2. A letter with a sharp, flat or natural sign or word after it (`F#`, `B♭`, `F sharp`):
///    letters. ABC puts its signs before the note. Quoted chord signs do not count.
/// 3. What only ABC has: `^F`, `_B`, `=c`, `A>B`, `(3ABc`, `[FA]`, `{g}`: ABC.
/// 4. A capital with a small b (`Bb`, `Eb`) as a word: letters.
/// 5. Notes that are joined into groups, together with bar lines or lengths: ABC, without a key.
///    So are single notes with bar lines and lengths. Numbers that are octaves (`D4 E4 G4`) are
///    no lengths.
/// 6. Anything else: letters. Single letters between bar lines stay letters, because their
///    octaves must then be inferred; ABC would put the last D of `D E F G A B C D` at the bottom.
///
/// # Examples
///
/// ```
/// use modewright_formats::source::{Kind, sniff};
///
/// assert_eq!(sniff("D E F# G A B c# d"), Kind::Letters);
/// // No field at all, but notes in groups between bar lines.
/// assert_eq!(sniff("|: d2 ef gfed | cAGE D2 :|"), Kind::Abc);
/// ```
#[must_use]
pub fn sniff(text: &str) -> Kind {
    let mut seen = Seen::default();
    for line in text.split(['\n', '\r']) {
        match kind_of(line.as_bytes()) {
            LineKind::Number | LineKind::Field(b'K' | b'M' | b'L' | b'Q') => return Kind::Abc,
            // A part, title or remark of either kind: what stands behind the colon may be notes.
            LineKind::Field(_) => seen.line(line.get(2..).unwrap_or_default()),
            LineKind::Comment | LineKind::Directive | LineKind::Empty => {}
            LineKind::Music | LineKind::Other => seen.line(line),
        }
    }
    seen.decide()
}

#[derive(Debug, Default)]
struct Seen {
    inline_field: bool,
    sign_after: bool,
    sign_before: bool,
    capital_b: bool,
    bars: bool,
    groups: bool,
    numbers: NumberCount,
}

impl Seen {
    fn decide(&self) -> Kind {
        let lengths = self.numbers.any() && !self.numbers.are_octaves();
        let abc = self.inline_field
            || !self.sign_after
                && (self.sign_before
                    || !self.capital_b
                        && (self.groups && (self.bars || lengths) || self.bars && lengths));
        if abc { Kind::Abc } else { Kind::Letters }
    }

    fn line(&mut self, line: &str) {
        let mut chars = line.char_indices().peekable();
        let mut before = ' ';
        while let Some((at, c)) = chars.next() {
            let rest = line.get(at + c.len_utf8()..).unwrap_or_default();
            let next = rest.chars().next().unwrap_or(' ');
            match c {
                '"' => {
                    // A chord sign or remark; what is not closed is no quotation.
                    if let Some(close) = rest.find('"') {
                        while chars.next_if(|&(i, _)| i <= at + 1 + close).is_some() {}
                    }
                }
                '|' => self.bars = true,
                '^' | '_' | '=' if is_note(next) && !of_word(before) => {
                    self.sign_before = true;
                }
                '>' | '<' if (is_note(before) || before.is_ascii_digit()) && is_note(next) => {
                    self.sign_before = true;
                }
                '{' => self.sign_before |= is_note(next),
                '(' => {
                    let mut inside = rest.chars();
                    let number = inside.next().is_some_and(|c| c.is_ascii_digit());
                    self.sign_before |= number && inside.next().is_some_and(is_note);
                }
                '[' => self.bracket(rest),
                c if c.is_alphabetic() => {
                    let end = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
                    let stop = at + c.len_utf8() + end;
                    let word = line.get(at..stop).unwrap_or_default();
                    self.word(word, line.get(stop..).unwrap_or_default());
                    while chars.next_if(|&(i, _)| i < stop).is_some() {}
                    before = word.chars().next_back().unwrap_or(c);
                    continue;
                }
                _ => {}
            }
            before = c;
        }
    }

    fn bracket(&mut self, rest: &str) {
        // A chord or a field is short; looking further would take long in odd texts.
        let near = rest.get(..rest.floor_char_boundary(40)).unwrap_or_default();
        let Some((inside, _)) = near.split_once(']') else { return };
        match inside.as_bytes() {
            [b'K' | b'M' | b'L' | b'Q', b':', ..] => self.inline_field = true,
            [_, _, ..] if inside.bytes().all(|b| b.is_ascii_digit() || is_note(char::from(b))) => {
                self.sign_before |= inside.chars().filter(|&c| is_note(c)).count() > 1;
            }
            _ => {}
        }
    }

    fn word(&mut self, word: &str, after: &str) {
        let sign = after.starts_with(['#', '♯', '♭', '♮']);
        let last = word.chars().next_back().unwrap_or(' ');
        match word.as_bytes() {
            [a, b'b'] if a.is_ascii_uppercase() && is_note(char::from(*a)) => {
                self.capital_b = true;
                self.numbers.add(char::from(*a), after);
            }
            _ if word.chars().all(|c| is_note(c) || matches!(c, 'z' | 'x')) => {
                self.groups |= word.len() > 1;
                let mut notes = word.chars().filter(|&c| is_note(c)).peekable();
                while let Some(note) = notes.next() {
                    let after = if notes.peek().is_none() && is_note(last) { after } else { "" };
                    self.numbers.add(note, after);
                }
                self.sign_after |= sign && is_note(last);
                let near = after.get(..after.floor_char_boundary(20)).unwrap_or_default();
                let mut words = near.split([' ', '-']).filter(|w| !w.is_empty());
                self.sign_after |= word.len() == 1
                    && words.next().is_some_and(|w| {
                        let w = w.trim_matches(|c: char| !c.is_alphabetic());
                        ["sharp", "flat", "natural"].iter().any(|n| w.eq_ignore_ascii_case(n))
                    });
            }
            _ => {}
        }
    }
}

const fn is_note(c: char) -> bool {
    matches!(c, 'A'..='G' | 'a'..='g')
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn realistic_texts() {
        use Kind::{Abc, Letters};
        for (text, kind) in [
            // Fields.
            ("X:1\nT:Low Tide\nK:D\nDEF|", Abc),
            ("K:Em\nE F G", Abc),
            ("T:Low Tide\nM:6/8\nL:1/8\nD E F", Abc),
            ("hello\nX:1\nK:D\nD", Abc),
            ("[K:D] D E F", Abc),
            ("% a comment\nK:D\nD# is no ABC but the field is", Abc),
            // Signs after the letter.
            ("D E F# G A B c# d", Letters),
            ("D E F♯ G A B C♯ D", Letters),
            ("d - e - f# - g", Letters),
            ("G A B♭ c", Letters),
            ("D, E, F#, G, A", Letters),
            ("F sharp, G, A", Letters),
            ("b flat a g", Letters),
            ("F-sharp E D", Letters),
            ("D E F#|G A B|", Letters),
            ("DEF# GAB | c#2 d2", Letters),
            ("F#4 G4 A4 | B4 A4", Letters),
            ("What mode is D E F# G A B C# D?", Letters),
            // Signs before the letter.
            ("^F G A ^c d", Abc),
            ("_B A G =B c", Abc),
            ("A>B c<d", Abc),
            ("(3ABc d e", Abc),
            ("[FA] d", Abc),
            ("{g}f e d", Abc),
            ("> D E F", Letters),
            ("(D E F) x2", Letters),
            ("[A] D E F", Letters),
            // Capital and small b.
            ("Bb A G F", Letters),
            ("Eb F G | Ab Bb c", Letters),
            ("\"Bb\"BA GF | \"F#m\"ed cB", Abc),
            // Groups, bars and lengths.
            ("|: d2 ef gfed | cAGE D2 :|", Abc),
            ("DEF GAB | c2d e3", Abc),
            ("ABcd efga|", Abc),
            ("D2 E2 | F4 |", Abc),
            ("d2 ef g4 fe", Abc),
            ("D2 E F2", Letters),
            ("D4 E4 G4 A4 | B4 A4 G4 E4", Letters),
            ("D4 E4 G4 A4", Letters),
            ("gfed BAGA", Letters),
            ("DEFGABcd", Letters),
            ("| D E F G | A B C D |", Letters),
            ("D E F G A B C D", Letters),
            ("d e f g a b c d", Letters),
            ("A: D E F\nB: G A B", Letters),
            ("Part A\nD E F G", Letters),
            ("1. D E F\n2. G A B", Letters),
            ("| Name | Home |", Letters),
            ("Hi, can you help me with a tune?", Letters),
            ("", Letters),
        ] {
            assert_eq!(sniff(text), kind, "{text}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_one_or_the_other(text in r#"[A-Hab#♯0-9|:"\[\](){}<>^=_ \n\PC]{0,60}"#) {
            let _ = sniff(&text);
        }
    }
}

//! Lines of music: what stands among the notes, one thing after another.

use super::line::{Line, is_blank};
use super::log::{Log, Site};
use super::lyrics::quoted;
use super::note::Head;
use super::state::State;
use super::{barline, text::decode};
use crate::ProblemKind;
use crate::report::{excerpt, span};
use crate::source::is_music;
use modewright_core::Alter;
use modewright_core::tune::MarkKind;

impl<L: Log> State<'_, L> {
    /// Reads a line of music; a bare line in the header goes on with a field or begins the music.
    pub(super) fn music_line(&mut self, line: &Line) {
        let said = self.text.get(line.start..line.end).unwrap_or_default();
        if !self.in_body() {
            let is_text = !is_music(said.as_bytes())
                && (self.header_text(said)
                    || self.comes_after(line, |l| l.trim_start().starts_with("K:"))
                    || self.is_prose_before_music(line, said));
            if is_text {
                return;
            }
            self.begin_body();
        }
        let goes_on = said.ends_with('\\');
        let end = if goes_on { line.end - 1 } else { line.end };
        self.music(line.start, end);
        self.at_line_start |= self.voices.is_current_read();
        if goes_on {
            let rest = self.text.get(line.next..).unwrap_or_default();
            let next = rest.split(['\n', '\r']).next().unwrap_or_default();
            if next.trim().is_empty() {
                self.report.add(end, line.end, ProblemKind::ContinuationEmpty);
            }
        } else if self.voices.is_current_read() {
            self.builder.mark(MarkKind::LineEnd, span(line.end, line.end));
        }
        self.touches = false;
    }

    /// Whether one of the next lines is of some kind.
    fn comes_after(&self, line: &Line, is: impl Fn(&str) -> bool) -> bool {
        let rest = self.text.get(line.next..).unwrap_or_default();
        rest.lines().take(50).any(is)
    }

    /// Whether words stand before the music of a piece that has no header: a title, or a
    /// question. The first such line is kept as the title.
    fn is_prose_before_music(&mut self, line: &Line, said: &str) -> bool {
        let has_words = said.split(|c: char| !c.is_alphabetic()).any(|word| {
            word.chars().count() > 2
                && word.chars().any(|c| !matches!(c, 'A'..='G' | 'a'..='g' | 'x' | 'z'))
        });
        if !has_words || !self.comes_after(line, |l| is_music(l.as_bytes())) {
            return false;
        }
        let titles = &mut self.builder.tune_mut().header.titles;
        if titles.is_empty() {
            titles.push(decode(said));
        }
        true
    }

    /// Reads music from `at` to `end`.
    fn music(&mut self, mut at: usize, end: usize) {
        while at < end && !self.is_full() {
            if !self.voices.is_current_read() {
                at = self.skip(at, end);
                continue;
            }
            at = self.plain_notes(at, end);
            if at < end && !self.is_full() {
                at = self.item(at, end);
            }
        }
    }

    /// Music of a voice that is not read: only a change of voice counts.
    fn skip(&mut self, at: usize, end: usize) -> usize {
        let rest = self.text.get(at..end).unwrap_or_default();
        match super::voices::bracket(rest) {
            Some(found) => self.bracket_field(at + found, end).unwrap_or(end),
            None => end,
        }
    }

    /// Reads one thing; gives the place after it.
    fn item(&mut self, at: usize, end: usize) -> usize {
        let rest = self.text.as_bytes().get(at..end).unwrap_or_default();
        let (Some(&first), second) = (rest.first(), rest.get(1).copied()) else { return end };
        // Notes are most of a tune; of what begins a bar line, some may begin something else.
        let bar = match (first, second) {
            (b'|', None | Some(b' ' | b'A'..=b'G' | b'a'..=b'g')) => 1,
            (b'|' | b':' | b'.' | b'[', _) => barline::length(rest),
            _ => 0,
        };
        if bar > 0 {
            return self.bar_line(at, end, bar);
        }
        match first {
            b'=' if matches!(rest, b"=" | b"=20" | [b'=', b'3', b'D', ..]) => {
                self.mail_remains(at, end)
            }
            b'A'..=b'G' | b'a'..=b'g' | b'^' | b'_' | b'=' => self.note(at, end),
            b'z' | b'x' | b'Z' | b'X' => self.rest(at, end),
            b if is_blank(b) => {
                self.touches = false;
                at + 1
            }
            b'[' => self.bracket(at, end, second),
            b'(' if second.is_some_and(|b| b.is_ascii_digit()) => self.tuplet_sign(at, end),
            b'(' => {
                self.slurs.push(at);
                self.mark(MarkKind::SlurStart, at, at + 1);
                at + 1
            }
            b')' => self.slur_end(at),
            b'{' => self.grace(at, end),
            b'"' => self.quoted(at, end),
            b'!' | b'+' => self.sign(at, end, first),
            b'-' => self.tie_sign(at),
            b'>' | b'<' => self.broken_rhythm(at, end),
            b'.' if matches!(second, Some(b'(' | b'-')) => at + 1,
            b'~' | b'.' | b'H'..=b'W' | b'h'..=b'w' => self.letter_sign(at, first),
            b'y' => {
                let digits = rest.get(1..).unwrap_or_default();
                at + 1 + digits.iter().take_while(|b| b.is_ascii_digit()).count()
            }
            b'&' => self.overlay(at, end),
            b'`' | b'$' => at + 1,
            b'*' | b';' | b'#' | b'?' | b'@' => {
                self.report.add(
                    at,
                    at + 1,
                    ProblemKind::ReservedCharacter { found: char::from(first) },
                );
                at + 1
            }
            b'0'..=b'9' => self.stray_number(at, end),
            b':' => self.lone_dots(at, end),
            b'\\' if rest.get(1..).is_none_or(|rest| rest.iter().all(|&b| is_blank(b))) => end,
            _ => self.odd(at, end),
        }
    }

    fn bracket(&mut self, at: usize, end: usize, second: Option<u8>) -> usize {
        if second.is_some_and(|b| b.is_ascii_digit()) {
            return self.ending(at, at + 1, end);
        }
        self.bracket_field(at, end).unwrap_or_else(|| self.chord(at, end))
    }

    /// Reads `[K:D]`; `None` where the bracket is no field.
    fn bracket_field(&mut self, at: usize, end: usize) -> Option<usize> {
        let inside = self.text.get(at + 1..end)?;
        let letter = *inside.as_bytes().first()?;
        if !letter.is_ascii_alphabetic() || inside.as_bytes().get(1) != Some(&b':') {
            return None;
        }
        // `[F:|` is a chord that is not closed before a bar line, not a field.
        if matches!(letter, b'A'..=b'G' | b'a'..=b'g') && inside.as_bytes().get(2) == Some(&b'|') {
            return None;
        }
        let close = if at < self.no_bracket_before { None } else { inside.find(']') };
        // Without its bracket it reaches as far as what stands together.
        let length = close.unwrap_or_else(|| {
            self.no_bracket_before = end;
            inside.find([' ', '\t', '|']).unwrap_or(inside.len())
        });
        if close.is_none() {
            self.report.add(at, at + 1 + length, ProblemKind::FieldNotClosed);
        }
        let value = inside.get(2..length).unwrap_or_default();
        self.inline_field(letter, value, at + 3);
        self.touches = false;
        Some(at + 1 + length + usize::from(close.is_some()))
    }

    fn slur_end(&mut self, at: usize) -> usize {
        if self.slurs.pop().is_none() || self.builder.next_event() == 0 {
            self.report.add(at, at + 1, ProblemKind::SlurNotOpened);
        } else {
            let event = self.builder.next_event() - 1;
            self.builder.mark_at(event, MarkKind::SlurEnd, span(at, at + 1));
        }
        at + 1
    }

    /// Chord signs and free text, between quotation marks.
    fn quoted(&mut self, at: usize, end: usize) -> usize {
        let inside = self.text.get(at + 1..end).unwrap_or_default();
        let Some(close) = inside.find('"') else {
            // It reaches as far as what stands together.
            let length = inside.find([' ', '\t', '|']).unwrap_or(inside.len());
            self.report.add(at, at + 1 + length, ProblemKind::TextNotClosed);
            return at + 1 + length;
        };
        let text = inside.get(..close).unwrap_or_default();
        let after = at + close + 2;
        if !text.trim().is_empty() {
            let kind = quoted(text);
            if matches!(kind, MarkKind::ChordSign(_)) {
                self.log.add(|| Site::ChordSign { start: at + 1, end: after - 1 });
            }
            self.mark(kind, at, after);
        }
        after
    }

    /// A sign by its name: `!trill!`, or `+trill+` in old files. An exclamation mark alone is a
    /// line break of old files (ABC 2.1, §12.2).
    fn sign(&mut self, at: usize, end: usize, mark: u8) -> usize {
        let inside = self.text.get(at + 1..end).unwrap_or_default();
        let stop = inside.bytes().position(|b| {
            b == mark || matches!(b, b'!' | b'|' | b'[' | b':' | b']') || is_blank(b)
        });
        let close = stop.filter(|&i| {
            let name = inside.get(..i).unwrap_or_default();
            super::signs::is_name(name) && inside.as_bytes().get(i) == Some(&mark)
        });
        let Some(close) = close else {
            if mark == b'+' {
                let found = "+".to_owned();
                self.report.add(at, at + 1, ProblemKind::NotUnderstood { found });
            }
            self.touches = false;
            return at + 1;
        };
        let name = inside.get(..close).unwrap_or_default().to_owned();
        let after = at + close + 2;
        self.mark(MarkKind::Sign(name), at, after);
        after
    }

    fn letter_sign(&mut self, at: usize, letter: u8) -> usize {
        match self.signs.of(letter) {
            Ok(Some(meaning)) => self.mark(meaning, at, at + 1),
            Ok(None) => {}
            Err(()) => {
                let kind = ProblemKind::UndefinedSymbol { found: char::from(letter) };
                self.report.add(at, at + 1, kind);
            }
        }
        at + 1
    }

    /// A second strand runs beside what stands in the bar: it is passed over.
    fn overlay(&mut self, at: usize, end: usize) -> usize {
        self.report.add(at, at + 1, ProblemKind::OverlayLeftOut);
        let mut next = at + 1;
        while next < end {
            let rest = self.text.as_bytes().get(next..end).unwrap_or_default();
            if barline::length(rest) > 0 {
                break;
            }
            next = self.overlaid(next, end);
        }
        next
    }

    /// Passes over one thing of a second strand; a rewriter is told of its notes.
    fn overlaid(&mut self, at: usize, end: usize) -> usize {
        let inside = self.text.get(at + 1..end).unwrap_or_default();
        match self.text.as_bytes().get(at) {
            _ if !L::IS_KEPT => at + 1,
            Some(b'A'..=b'G' | b'a'..=b'g' | b'^' | b'_' | b'=') => {
                let Some(head) = self.head(at, end) else { return at + 1 };
                let (start, shift) = (at, self.octave);
                self.log.add(|| Site::Overlaid { start, head, shift });
                head.after
            }
            Some(b'"') => {
                let Some(close) = inside.find('"') else { return at + 1 };
                let text = inside.get(..close).unwrap_or_default();
                if matches!(quoted(text), MarkKind::ChordSign(_)) {
                    self.log.add(|| Site::ChordSign { start: at + 1, end: at + 1 + close });
                }
                at + close + 2
            }
            Some(mark @ (b'!' | b'+')) => {
                let stop = |b: u8| b == *mark || b == b'|' || is_blank(b);
                let close = inside.bytes().position(stop);
                let closed = close.filter(|&i| inside.as_bytes().get(i) == Some(mark));
                closed.map_or(at + 1, |i| at + i + 2)
            }
            Some(b'[') if inside.as_bytes().get(1) == Some(&b':') => {
                inside.find(']').map_or(at + 1, |i| at + i + 2)
            }
            _ => at + 1,
        }
    }

    /// A number that no note comes before. After a bar line it is an ending that was written
    /// apart from it (`| 1`), which is not allowed.
    fn stray_number(&mut self, at: usize, end: usize) -> usize {
        let rest = self.text.get(at..end).unwrap_or_default();
        let length = rest.bytes().take_while(u8::is_ascii_digit).count().max(1);
        let apart = rest.as_bytes().get(length).is_none_or(|&b| is_blank(b));
        if length == 1 && apart && self.builder.bar_is_empty() && self.builder.next_event() > 0 {
            self.report.add(at, at + 1, ProblemKind::EndingDetached);
            return self.ending(at, at, end);
        }
        let found = excerpt(rest.get(..length).unwrap_or_default());
        self.report.add(at, at + length, ProblemKind::StrayNumber { found });
        at + length
    }

    /// A colon that no stroke comes next to: the rest of a repeat sign, where the bar has just
    /// begun or something follows that is no note.
    fn lone_dots(&mut self, at: usize, end: usize) -> usize {
        let next = self.text.as_bytes().get(at + 1).copied().filter(|_| at + 1 < end);
        let begins = self.builder.bar_is_empty();
        let ends = next.is_none_or(|b| matches!(b, b']' | b'[' | b'"') || is_blank(b));
        if !begins && !ends {
            return self.odd(at, end);
        }
        let after = at + 1 + usize::from(!begins && next == Some(b']'));
        let found = excerpt(self.text.get(at..after).unwrap_or_default());
        self.report.add(at, after, ProblemKind::OddBarLine { found });
        let line = if begins { barline::REPEAT_BEGINS } else { barline::REPEAT_ENDS };
        self.put_bar_line(line, at, after);
        after
    }

    /// What an e-mail leaves of a line end (`=`, `=20`) or of a natural sign (`=3D`).
    fn mail_remains(&mut self, at: usize, end: usize) -> usize {
        let length = (end - at).min(3);
        let found = excerpt(self.text.get(at..at + length).unwrap_or_default());
        self.report.add(at, at + length, ProblemKind::MailRemains { found });
        match self.head(at + 3, end) {
            Some(head) if head.alter.is_none() => {
                self.begin_sound();
                self.note_from(Head { alter: Some(Alter::NATURAL), ..head }, at, end)
            }
            _ => at + length,
        }
    }

    /// Something without a meaning: it is passed over, with all that is like it.
    fn odd(&mut self, at: usize, end: usize) -> usize {
        let rest = self.text.get(at..end).unwrap_or_default();
        let Some(first) = rest.chars().next() else { return end };
        if matches!(first, '\u{201c}' | '\u{201d}' | '\u{2018}' | '\u{2019}') {
            return self.curly(at, end, first);
        }
        let known =
            |c: char| c.is_ascii_alphanumeric() || c.is_whitespace() || "|:[](){}\"^_=".contains(c);
        let length =
            rest.char_indices().skip(1).find(|&(_, c)| known(c)).map_or(rest.len(), |(i, _)| i);
        let found = excerpt(rest.get(..length).unwrap_or_default());
        self.report.add(at, at + length, ProblemKind::NotUnderstood { found });
        at + length
    }

    /// Curly quotation marks, as word processors make them: text between them is a chord sign.
    fn curly(&mut self, at: usize, end: usize, mark: char) -> usize {
        let start = at + mark.len_utf8();
        let inside = self.text.get(start..end).unwrap_or_default();
        self.report.add(at, start, ProblemKind::CurlyMark { found: mark });
        let close = inside.char_indices().find(|(_, c)| matches!(c, '\u{201c}' | '\u{201d}' | '"'));
        match close {
            Some((length, close)) if matches!(mark, '\u{201c}' | '\u{201d}') => {
                let text = decode(inside.get(..length).unwrap_or_default());
                let after = start + length + close.len_utf8();
                if !text.is_empty() {
                    self.log.add(|| Site::ChordSign { start, end: start + length });
                    self.mark(MarkKind::ChordSign(text), at, after);
                }
                after
            }
            _ => start,
        }
    }
}

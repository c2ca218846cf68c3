//! Fields: `T:`, `M:`, `[K:Dm]` and the like.

use super::accidentals::Reach;
use super::line::{Line, LineKind, is_blank, line_at};
use super::log::{Log, Site};
use super::lyrics::chord_places;
use super::state::State;
use super::text::decode;
use super::unit::Unit;
use super::{key, key_parts, metre, parts, tempo};
use crate::ProblemKind;
use crate::piece::holds;
use crate::report::excerpt;
use crate::source::is_music;
use modewright_core::tune::{Header, MarkKind};

impl<L: Log> State<'_, L> {
    /// Whether a line that begins with a letter and a colon is a field.
    pub(super) fn is_field(&self, letter: u8, line: &str) -> bool {
        if letter == b'+' || letter == b'X' {
            return true;
        }
        if !self.in_body() {
            return !(matches!(letter, b'A'..=b'G' | b'a'..=b'g') && is_music(line.as_bytes()));
        }
        // Letters of notes and rests are never fields among the music (ABC 2.1, §3); what is no
        // music after a letter of the header is a field in the wrong place.
        match letter {
            b'A'..=b'G' | b'Z' => !is_music(line.as_bytes()) && !line.ends_with([':', '\\']),
            b'a'..=b'g' | b'x'..=b'z' | b'Y' => false,
            _ => true,
        }
    }

    /// Whether a field may stand in the body of a tune.
    pub(super) fn is_body_field(&self, letter: u8) -> bool {
        matches!(
            letter,
            b'I' | b'K'
                | b'L'
                | b'M'
                | b'P'
                | b'Q'
                | b'V'
                | b'W'
                | b'w'
                | b's'
                | b'T'
                | b'R'
                | b'+'
        )
    }

    /// Reads the header of the file, which holds for all its tunes.
    pub(super) fn defaults(&mut self, header: &str) {
        if header.is_empty() {
            return;
        }
        let mut at = 0;
        while let Some(line) = line_at(header.as_bytes(), at) {
            at = line.next;
            let said = header.get(line.start..line.end).unwrap_or_default();
            match line.kind {
                LineKind::Directive => self.directive(said.get(2..).unwrap_or_default()),
                // What is wrong there is not told again for every tune.
                LineKind::Field(letter) if letter != b'X' && letter != b'K' => {
                    let known = self.report.len();
                    self.field(letter, said.get(2..).unwrap_or_default(), 0);
                    self.report.truncate(known);
                }
                _ => {}
            }
        }
        self.last_field = 0;
        self.default_words = std::mem::take(&mut self.builder.tune_mut().header);
    }

    /// Words of the file header hold where the tune has none of its own (ABC 2.1, §2.2.2).
    pub(super) fn fill_in_words(&mut self) {
        let words = std::mem::take(&mut self.default_words);
        let header = &mut self.builder.tune_mut().header;
        for (own, default) in [
            (&mut header.titles, words.titles),
            (&mut header.composer, words.composer),
            (&mut header.origin, words.origin),
            (&mut header.source, words.source),
            (&mut header.transcriber, words.transcriber),
            (&mut header.book, words.book),
            (&mut header.notes, words.notes),
            (&mut header.words, words.words),
        ] {
            if own.is_empty() {
                *own = default;
            }
        }
        header.rhythm = header.rhythm.take().or(words.rhythm);
        let own = header.other.len();
        for (field, text) in words.other {
            if !header.other.iter().take(own).any(|(name, _)| *name == field) {
                header.other.push((field, text));
            }
        }
    }

    /// A directive: only the reach of accidentals changes what is heard.
    pub(super) fn directive(&mut self, text: &str) {
        let mut words = text.split_ascii_whitespace();
        if words.next() == Some("propagate-accidentals") {
            self.reach = match words.next() {
                Some("not") => Reach::Note,
                Some("octave") => Reach::Octave,
                _ => Reach::Pitch,
            };
        }
    }

    /// Reads a field on a line of its own, with the lines that go on with it; gives the place
    /// to read on at.
    pub(super) fn field_line(&mut self, line: &Line, letter: u8, next: usize) -> usize {
        let text = self.text;
        let value_start = line.start + 2;
        let value = text.get(value_start..line.end).unwrap_or_default();
        if matches!(letter, b'K' | b'M' | b'L' | b'Q' | b'P' | b'V') {
            self.field(letter, value, value_start);
            return next;
        }
        // Lines that begin with +: go on with the field before.
        let mut more = String::new();
        let mut at = next;
        let begins_with_plus = |at| {
            let mut rest = text.as_bytes().get(at..).unwrap_or_default().iter();
            rest.find(|&&byte| !is_blank(byte)) == Some(&b'+')
        };
        while begins_with_plus(at)
            && let Some(follow) = line_at(text.as_bytes(), at)
            && follow.kind == LineKind::Field(b'+')
        {
            more.push(' ');
            more.push_str(text.get(follow.start + 2..follow.end).unwrap_or_default().trim());
            at = follow.next;
        }
        if letter == b's' && L::IS_KEPT && self.voices.is_current_read() {
            self.chord_places_between(value_start, at);
        }
        if more.is_empty() {
            self.field(letter, value, value_start);
        } else {
            self.field(letter, &format!("{}{more}", value.trim_end()), value_start);
        }
        at
    }

    /// Tells a rewriter of the chord signs in a line of signs.
    fn chord_places_between(&mut self, start: usize, end: usize) {
        let line = self.text.get(start..end).unwrap_or_default();
        for (from, to) in chord_places(line) {
            self.log.add(|| Site::ChordSign { start: start + from, end: start + to });
        }
    }

    /// Reads a field among the notes.
    pub(super) fn inline_field(&mut self, letter: u8, value: &str, at: usize) {
        match letter {
            b'I' | b'K' | b'L' | b'M' | b'm' | b'N' | b'P' | b'Q' | b'R' | b'r' | b'U' | b'V' => {
                self.field(letter, value, at);
            }
            _ => {
                let kind = ProblemKind::FieldNotInline { field: char::from(letter) };
                self.report.add(at.saturating_sub(2), at + value.len(), kind);
            }
        }
    }

    fn field(&mut self, letter: u8, value: &str, at: usize) {
        self.last_field = letter;
        let in_voice = !self.in_body() || self.voices.is_current_read();
        match letter {
            b'K' => {
                if in_voice {
                    let reading = key::read_field(value, at, &mut self.report);
                    self.apply_key(&reading);
                }
                self.begin_body();
            }
            b'M' if in_voice => {
                let metre = metre::read_metre(value, at, &mut self.report);
                self.apply_metre(metre);
            }
            b'L' if in_voice => {
                if let Some(unit) = metre::read_unit(value, at, &mut self.report) {
                    self.stated_unit = Some(unit);
                    self.unit = Unit::of(unit);
                }
            }
            b'Q' if in_voice => self.speed(value, at),
            b'P' if !self.in_body() => {
                self.builder.tune_mut().part_order = parts::read_parts(value, at, &mut self.report);
            }
            b'P' => {
                let name = decode(value);
                if in_voice && !name.is_empty() {
                    self.mark(MarkKind::Part(name), at, at + value.len());
                }
            }
            b'V' => self.voice(value, at),
            b'I' => {
                self.directive(value);
                self.words(letter, value, at);
            }
            b'U' => self.signs.define(value, at, &mut self.report),
            b'm' => self.short_form(value, at),
            b'w' if in_voice => self.words_under(value, at),
            b's' if in_voice => self.signs_under(value, at),
            b'X' => {
                self.set_number();
                let number = decode(value.trim());
                if !number.is_empty() {
                    self.builder.tune_mut().header.number = Some(number);
                }
            }
            // Remarks and lines without a field before them say nothing here.
            b'r' | b's' | b'+' | b'M' | b'L' | b'Q' | b'w' => {}
            _ => self.words(letter, value, at),
        }
    }

    /// A macro is not expanded; where it is used, that is told.
    fn short_form(&mut self, value: &str, at: usize) {
        /// The most macros that are looked for in the music.
        const MOST: u8 = 64;
        self.macros = self.macros.saturating_add(1);
        let target = value.split('=').next().unwrap_or_default().trim();
        let music = self.text.get(at + value.len()..).unwrap_or_default();
        // In a target with n, any note may stand for it.
        let is_used = !target.is_empty()
            && self.macros <= MOST
            && (target.contains('n') || holds(music, target));
        if is_used {
            let found = excerpt(value);
            self.report.add(at, at + value.len(), ProblemKind::MacroLeftOut { found });
        }
    }

    fn speed(&mut self, value: &str, at: usize) {
        let Some(mut tempo) = tempo::read_tempo(value, at, &mut self.report) else { return };
        // Words that print a sign of the form are that sign, here as anywhere.
        if let Some(sign) = tempo.take_sign() {
            self.mark(MarkKind::Sign(sign), at, at + value.len());
            if tempo.is_empty() {
                return;
            }
        }
        if self.in_body() {
            let tempo = tempo.with_unit(self.unit.length());
            if self.builder.next_event() == 0 {
                self.builder.tune_mut().tempo = Some(tempo);
            } else {
                self.mark(MarkKind::Tempo(tempo), at, at + value.len());
            }
        } else {
            self.tempo = Some(tempo);
        }
    }

    /// `V:` chooses the voice that what follows belongs to, and may say its clef.
    fn voice(&mut self, value: &str, at: usize) {
        if self.in_body() {
            self.voices.choose(value);
        }
        if !self.voices.is_read(value) {
            return;
        }
        let start = value.len() - value.trim_start().len();
        let after = value.trim_start().find(char::is_whitespace).map_or(value.len(), |i| start + i);
        let rest = value.get(after..).unwrap_or_default();
        for name in rest.split_whitespace().filter(|word| {
            let setting = word.split_once('=').map(|(name, _)| name);
            setting.map_or_else(
                || key_parts::is_part(word),
                |name| matches!(name, "clef" | "octave" | "transpose" | "t" | "o"),
            )
        }) {
            let parts = key_parts::read_parts(name, at, &mut self.report);
            self.apply_parts(&parts, (at, at + value.len()));
        }
    }

    /// Fields that are words about the tune.
    fn words(&mut self, letter: u8, value: &str, at: usize) {
        let field = char::from(letter);
        if !letter.is_ascii_alphabetic()
            || matches!(letter, b'E' | b'J' | b'Y' | b'a'..=b'l' | b'n'..=b'q' | b't' | b'v' | b'x'..=b'z')
        {
            let start = at.saturating_sub(2);
            self.report.add(start, at + value.len(), ProblemKind::UnknownField { field });
        }
        if self.in_body() && matches!(letter, b'A'..=b'G' | b'Z') {
            let start = at.saturating_sub(2);
            self.report.add(start, at + value.len(), ProblemKind::FieldAfterKey { field });
        }
        let text = decode(value);
        if text.is_empty() {
            return;
        }
        let header: &mut Header = &mut self.builder.tune_mut().header;
        match letter {
            b'T' => header.titles.push(text),
            b'C' => header.composer.push(text),
            b'O' => header.origin.push(text),
            b'S' => header.source.push(text),
            b'Z' => header.transcriber.push(text),
            b'B' => header.book.push(text),
            b'N' => header.notes.push(text),
            b'W' => header.words.push(text),
            b'R' if header.rhythm.is_none() => header.rhythm = Some(text),
            _ => header.other.push((field.to_string(), text)),
        }
    }

    /// A bare line in the header goes on with a long field, as old files have it.
    pub(super) fn header_text(&mut self, line: &str) -> bool {
        if !matches!(self.last_field, b'H' | b'N' | b'W') {
            return false;
        }
        let text = decode(line);
        // Spaces of other scripts are no words.
        if text.is_empty() {
            return true;
        }
        let header = &mut self.builder.tune_mut().header;
        match self.last_field {
            b'N' => header.notes.push(text),
            b'W' => header.words.push(text),
            _ => header.other.push(("H".to_owned(), text)),
        }
        true
    }
}

//! Plain letters, as people type them in a message.
//!
//! [`read`] cuts the text into pieces, decides by the whole text what case, numbers and dashes
//! mean (`habits`), puts the notes into octaves (`octaves`, which also decides what strokes and
//! commas mean) and builds the tune.
//!
//! What a letter says holds for that letter alone: a sharp does not carry through the bar, as
//! people name each note.

mod habits;
mod heading;
mod key;
mod lex;
mod number;
mod octaves;
mod scanner;
mod token;
mod word;

pub(crate) use number::NumberCount;

use crate::report::span;
use crate::source::TuneText;
use crate::{Problem, ProblemKind, ReadOptions, Reading};
use habits::Habits;
use modewright_core::tune::{
    BarLine, BarStyle, BuildError, MarkKind, Passes, Sound, Span, TuneBuilder, WrittenKey,
};
use modewright_core::{Key, Length, Metre, Pitch, Step};
use scanner::Place;
use token::{Duration, Token, TokenKind};

/// Reads letters: `D E F# G A B c# d`.
///
/// Octaves are read where they are marked, by `'` and `,`, by a number, or by case in the ABC
/// way; otherwise each note is the one nearest to the note before, and that is said. Numbers
/// behind notes are lengths unless they are octaves by their whole. Bars are read where they are
/// written; otherwise `options` may give a metre and a pickup, which are then applied.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, letters, source::TuneText};
///
/// let read = |text: &str| letters::read(&TuneText::letters(text), &ReadOptions::default());
/// let names = |text: &str| -> Vec<String> {
///     read(text).tune.soundings().map(|s| s.pitch.to_string()).collect()
/// };
/// assert_eq!(names("D E F# G A B c# d"), ["D4", "E4", "F#4", "G4", "A4", "B4", "C#5", "D5"]);
/// // Without any mark, the last D of a rising scale is the upper one.
/// assert_eq!(names("D E F sharp G A B C# D").last().map(String::as_str), Some("D5"));
/// assert_eq!(read("D E F G A B C D").problems[0].kind.code(), "octaves-inferred");
/// ```
#[must_use]
pub fn read(text: &TuneText, options: &ReadOptions) -> Reading {
    let tokens = lex::tokens(&text.text, text.first_line);
    let habits = Habits::of(&tokens);
    let (pitches, inferred) = octaves::place(&tokens, &habits);
    let mut writer = Writer {
        builder: TuneBuilder::new(),
        problems: text.problems.clone(),
        unit: Length::CROTCHET,
        auto: None,
        fresh: true,
        full: false,
    };
    writer.begin(&tokens, &habits, inferred, options);
    let mut pitches = pitches.into_iter();
    for token in &tokens {
        writer.token(token, &habits, &mut pitches);
        if writer.full {
            break;
        }
    }
    writer.finish(text)
}

/// Bars that the metre gives where the text has none.
struct Auto {
    full: Length,
    /// What the bar that is being written still holds.
    left: Length,
}

struct Writer {
    builder: TuneBuilder,
    problems: Vec<Problem>,
    /// The length of a note without a number.
    unit: Length,
    auto: Option<Auto>,
    /// Whether nothing was written since the last bar line.
    fresh: bool,
    full: bool,
}

impl Writer {
    /// Settles key, metre and lengths, and says what had to be decided.
    fn begin(
        &mut self,
        tokens: &[Token],
        habits: &Habits,
        octaves_inferred: bool,
        options: &ReadOptions,
    ) {
        let first = tokens.iter().find(|t| matches!(t.kind, TokenKind::Note(_))).map(|t| t.place);
        let place = first.unwrap_or(Place { line: 1, column: 1, span: Span::default() });
        let stated = tokens.iter().find_map(|t| match t.kind {
            TokenKind::Metre(metre) => Some(metre),
            _ => None,
        });
        let metre = stated.or(options.metre).unwrap_or(Metre::FREE);
        self.builder.metre(metre);
        if let Some(unit) = metre.unit() {
            self.unit = unit;
        }
        if let (false, Some(full)) = (habits.has_bars, metre.bar_length()) {
            let left = options.pickup.filter(|p| !p.is_zero() && *p < full).unwrap_or(full);
            self.auto = Some(Auto { full, left });
        }
        if first.is_none() {
            return;
        }
        if octaves_inferred {
            self.problem(ProblemKind::OctavesInferred, place);
        }
        if !habits.has_lengths {
            self.problem(ProblemKind::LengthsUnknown { taken: self.unit }, place);
        }
        if let Some(dash) = habits.dash_is_rest {
            self.problem(ProblemKind::DashAsRest, dash);
        }
        let key = tokens.iter().find_map(|t| match t.kind {
            TokenKind::Key(key) => Some((key, t.place)),
            _ => None,
        });
        if let Some((key, place)) = key {
            self.key(key, place, tokens);
        }
    }

    /// A stated key. Letters are read as they stand; where the key would alter some that are
    /// left plain, its signature cannot be trusted and is not taken.
    fn key(&mut self, key: Key, place: Place, tokens: &[Token]) {
        let mut written = WrittenKey { span: place.span, ..WrittenKey::from_key(key) };
        let plain: Vec<Step> = Step::ALL
            .into_iter()
            .filter(|&step| {
                let mut notes = tokens.iter().filter_map(|t| match &t.kind {
                    TokenKind::Note(note) if note.step == step => Some(note.signed),
                    _ => None,
                });
                written.alter(step).semitones() != 0 && notes.any(|signed| !signed)
            })
            .collect();
        if key.signature().is_err() {
            self.problem(ProblemKind::KeyBeyondSeven { key }, place);
            return;
        }
        if !plain.is_empty() {
            // What is written from here on must not take it either.
            written = WrittenKey { span: place.span, ..WrittenKey::default() };
            self.problem(ProblemKind::KeyNotApplied { plain }, place);
        }
        self.builder.key(written);
    }

    fn token(
        &mut self,
        token: &Token,
        habits: &Habits,
        pitches: &mut impl Iterator<Item = Option<Pitch>>,
    ) {
        let span = token.place.span;
        match &token.kind {
            TokenKind::Note(note) => {
                let duration = if habits.numbers_are_octaves {
                    Duration { over: None, under: note.under }
                } else {
                    note.duration()
                };
                if note.joined && !self.fresh {
                    self.builder.join_last();
                }
                if note.roll {
                    self.builder.mark(MarkKind::Sign("roll".to_owned()), span);
                }
                match pitches.next().flatten() {
                    Some(pitch) => self.sound(Sound::Note(pitch), duration, token.place),
                    None => {
                        let found = note.spelling().to_string();
                        self.problem(ProblemKind::PitchOutOfRange { found }, token.place);
                    }
                }
            }
            TokenKind::Rest(duration) => self.sound(Sound::Rest, *duration, token.place),
            TokenKind::Dash if habits.dash_is_rest.is_some() => {
                self.sound(Sound::Rest, Duration::default(), token.place);
            }
            TokenKind::Bar(line) => self.bar(*line, span),
            TokenKind::Ending(pass) => self.builder.ending(Passes::default().with(*pass)),
            TokenKind::TimesFrom(times) => {
                let repeat_on = times.saturating_sub(1);
                let line = BarLine { style: BarStyle::Initial, repeat_back: 0, repeat_on };
                self.bar(line, Span { end: span.start, ..span });
            }
            TokenKind::Times(times) => {
                let back = times.saturating_sub(1);
                self.bar(BarLine { style: BarStyle::Final, repeat_back: back, repeat_on: 0 }, span);
            }
            TokenKind::Part(name) => {
                if !habits.has_bars && !self.fresh {
                    self.bar(BarLine { style: BarStyle::Double, ..BarLine::default() }, span);
                }
                self.builder.mark(MarkKind::Part(name.clone()), span);
            }
            TokenKind::Title(title) => self.builder.tune_mut().header.titles.push(title.clone()),
            TokenKind::Gap if !habits.has_bars && !self.fresh => {
                self.bar(BarLine { style: BarStyle::Double, ..BarLine::default() }, span);
            }
            TokenKind::LineEnd => {
                self.builder.mark(MarkKind::LineEnd, span);
                // A line without bars is a phrase.
                if !habits.has_bars && self.auto.is_none() && !self.fresh {
                    self.bar(BarLine { style: BarStyle::Hidden, ..BarLine::default() }, span);
                }
            }
            TokenKind::Bad(kind) => self.problem((**kind).clone(), token.place),
            TokenKind::Dash | TokenKind::Gap | TokenKind::Key(_) | TokenKind::Metre(_) => {}
        }
    }

    fn bar(&mut self, line: BarLine, span: Span) {
        self.builder.bar_line(line, span);
        self.fresh = true;
    }

    /// Adds a note or rest, cut and tied where bars are made by the metre.
    fn sound(&mut self, sound: Sound, duration: Duration, place: Place) {
        let over = duration.over.unwrap_or(1);
        let length = self.unit.times(over, duration.under.unwrap_or(1)).unwrap_or(self.unit);
        let mut rest = length;
        loop {
            let piece = match &self.auto {
                Some(auto) if auto.left < rest => auto.left,
                _ => rest,
            };
            if !self.event(sound, piece, place) {
                return;
            }
            let Some(auto) = &mut self.auto else { return };
            auto.left = auto.left.minus(piece).unwrap_or_default();
            if auto.left.is_zero() {
                auto.left = auto.full;
                self.bar(BarLine { style: BarStyle::Single, ..BarLine::default() }, span(0, 0));
            }
            rest = rest.minus(piece).unwrap_or_default();
            if rest.is_zero() {
                return;
            }
            if sound.pitch().is_some() {
                self.builder.tie_last();
            }
        }
    }

    fn event(&mut self, sound: Sound, length: Length, place: Place) -> bool {
        match self.builder.event(sound, length, place.span) {
            Ok(()) => {
                self.fresh = false;
                true
            }
            Err(BuildError::BarTooLong) => {
                self.problem(ProblemKind::BarBeyondCounting, place);
                false
            }
            Err(BuildError::TooManyEvents) => {
                let limit = TuneBuilder::MAX_EVENTS;
                self.problem(ProblemKind::TooManyNotes { limit }, place);
                self.full = true;
                false
            }
        }
    }

    /// The most problems that are kept for one text.
    const MAX_PROBLEMS: usize = crate::report::Report::MAX;

    fn problem(&mut self, kind: ProblemKind, place: Place) {
        let Place { line, column, span } = place;
        match self.problems.len() {
            0..Self::MAX_PROBLEMS => self.problems.push(Problem { kind, line, column, span }),
            Self::MAX_PROBLEMS => {
                let kind = ProblemKind::TooManyProblems { limit: Self::MAX_PROBLEMS };
                self.problems.push(Problem { kind, line, column, span });
            }
            _ => {}
        }
    }

    fn finish(mut self, text: &TuneText) -> Reading {
        let tune = self.builder.finish();
        // What the whole text decides was said first; each has its place.
        modewright_core::order::by_number(&mut self.problems, |problem| problem.span.start);
        if !tune.events.iter().any(|e| e.sound.pitch().is_some()) {
            let span = Span::default();
            let line = text.first_line;
            self.problems.push(Problem { kind: ProblemKind::NoNotes, line, column: 1, span });
        }
        Reading { tune, problems: self.problems, voices: Vec::new(), voice: None }
    }
}

#[cfg(test)]
mod tests;

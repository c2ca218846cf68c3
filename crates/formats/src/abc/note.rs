//! Notes and rests: accidental, letter, octave, length; ties.

use super::log::{Log, NoteSite, Site};
use super::state::State;
use crate::ProblemKind;
use crate::report::{excerpt, span};
use modewright_core::tune::{BarLine, BarStyle, BuildError, MarkKind, Sound, TuneBuilder};
use modewright_core::{Alter, Length, Pitch, Spelling, Step};

/// The largest number in a length.
const MOST: u32 = crate::limits::NUMBER_IN_LENGTH;
/// The most bars of one rest.
const MOST_BARS: u32 = crate::limits::BARS_OF_REST;
/// The most octave marks of one note.
const MOST_MARKS: i8 = 12;

/// A note as it is written: what its letters say, before any accidental in force.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Head {
    pub(super) step: Step,
    pub(super) octave: i32,
    pub(super) alter: Option<Alter>,
    /// The place after its octave marks.
    pub(super) after: usize,
}

impl<L: Log> State<'_, L> {
    /// Reads a note; gives the place after it.
    pub(super) fn note(&mut self, at: usize, end: usize) -> usize {
        self.begin_sound();
        match self.head(at, end) {
            Some(head) => self.note_from(head, at, end),
            None => self.lone_accidental(at, end),
        }
    }

    /// Tells why a note was left out.
    pub(super) fn not_added(&mut self, error: BuildError, start: usize, end: usize) {
        match error {
            BuildError::BarTooLong => {
                self.report.add(start, end, ProblemKind::BarBeyondCounting);
            }
            BuildError::TooManyEvents => {
                let limit = TuneBuilder::MAX_EVENTS;
                self.report.add(start, end, ProblemKind::TooManyNotes { limit });
                self.set_full();
            }
        }
    }

    /// Reads the rest of a note.
    pub(super) fn note_from(&mut self, head: Head, at: usize, end: usize) -> usize {
        let (length, after) = self.length(head.after, end);
        match self.pitch(head, at) {
            Some(pitch) => self.add(Sound::Note(pitch), length, at, after),
            None => self.add(Sound::Rest, length, at, after),
        }
        after
    }

    /// Reads accidental, letter and octave marks.
    #[inline]
    pub(super) fn head(&mut self, at: usize, end: usize) -> Option<Head> {
        let bytes = self.text.as_bytes().get(at..end)?;
        let is_sign = |b: u8| matches!(b, b'^' | b'_' | b'=');
        let (alter, signs) = match *bytes {
            [b'^', b'^', ..] => (Some(Alter::DOUBLE_SHARP), 2),
            [b'^', ..] => (Some(Alter::SHARP), 1),
            [b'_', b'_', ..] => (Some(Alter::DOUBLE_FLAT), 2),
            [b'_', ..] => (Some(Alter::FLAT), 1),
            [b'=', ..] => (Some(Alter::NATURAL), 1),
            _ => (None, 0),
        };
        if signs > 0 && bytes.get(signs).is_some_and(|&b| is_sign(b)) {
            return self.odd_head(at, end);
        }
        let (step, octave) = plain(*bytes.get(signs)?)?;
        let mut octave = i32::from(octave);
        let mut after = at + signs + 1;
        for mark in bytes.get(signs + 1..)? {
            match mark {
                b'\'' => octave += 1,
                b',' => octave -= 1,
                _ => break,
            }
            after += 1;
        }
        // A curly apostrophe is an octave mark that a word processor has turned.
        while bytes.get(after - at) == Some(&0xe2)
            && let Some(rest) = self.text.get(after..end)
            && let Some(mark) = rest.chars().next().filter(|c| matches!(c, '\u{2019}' | '\u{2018}'))
        {
            self.report.add(after, after + mark.len_utf8(), ProblemKind::CurlyMark { found: mark });
            octave += 1;
            after += mark.len_utf8();
        }
        Some(Head {
            step,
            octave: octave.clamp(4 - i32::from(MOST_MARKS), 5 + i32::from(MOST_MARKS)),
            alter,
            after,
        })
    }

    /// A note with more signs than there are accidentals: the last whole one holds.
    fn odd_head(&mut self, at: usize, end: usize) -> Option<Head> {
        let bytes = self.text.as_bytes().get(at..end)?;
        let signs = bytes.iter().take_while(|b| matches!(b, b'^' | b'_' | b'=')).count();
        // The last sign and the letter make a head of their own.
        let head = self.head(at + signs.checked_sub(1)?, end)?;
        let found = excerpt(self.text.get(at..at + signs).unwrap_or_default());
        self.report.add(at, at + signs, ProblemKind::OddAccidental { found });
        Some(head)
    }

    /// The pitch that a note has here; `None` (and a problem) where there is none such.
    pub(super) fn pitch(&mut self, head: Head, at: usize) -> Option<Pitch> {
        let octave = head.octave + self.octave;
        let is_after_tie = self.tie.is_some();
        let alter = self.alteration(head, octave);
        let pitch = Pitch::new(Spelling::new(head.step, alter), octave).ok();
        if pitch.is_none() {
            let found = excerpt(self.text.get(at..head.after).unwrap_or_default());
            self.report.add(at, head.after, ProblemKind::PitchOutOfRange { found });
        }
        let (is_grace, reach, shift) = (self.in_grace, self.reach, self.octave);
        self.log.add(|| {
            let (Head { alter, after, .. }, start) = (head, at);
            Site::Note(NoteSite {
                start,
                end: after,
                shift,
                alter,
                pitch,
                is_grace,
                is_after_tie,
                reach,
            })
        });
        pitch
    }

    /// The accidental in force for a note: its own, else one of a tie, of this bar, of the key.
    fn alteration(&mut self, head: Head, octave: i32) -> Alter {
        let in_octave = i8::try_from(octave).unwrap_or(0);
        if let Some(alter) = head.alter {
            if !self.in_grace {
                self.accidentals.set(self.reach, head.step, in_octave, alter);
            }
            return alter;
        }
        // A tie carries the accidental over the bar line, to the tied note and no further.
        if self.tie.is_some()
            && let Some(tied) = tied_to(self.last.all(), head.step, octave)
        {
            return tied;
        }
        let in_bar = self.accidentals.in_force(self.reach, head.step, in_octave);
        in_bar.unwrap_or_else(|| self.key.alter(head.step))
    }

    /// Reads a length from `at` on: `3`, `/`, `//`, `3/2`; gives it with the place after.
    #[inline]
    pub(super) fn length(&mut self, at: usize, end: usize) -> (Length, usize) {
        let unit = self.unit.length();
        match self.multiplier(at, end) {
            (1, 1, after) => (unit, after),
            (over, under, after) => (unit.times(over, under).unwrap_or(unit), after),
        }
    }

    /// Reads the multiplier of a length, in small numbers.
    #[inline]
    pub(super) fn multiplier(&mut self, at: usize, end: usize) -> (u32, u32, usize) {
        let bytes = self.text.as_bytes().get(at..end).unwrap_or_default();
        // Nearly all lengths are nothing at all, or a single digit.
        match *bytes {
            [b'0'..=b'9' | b'/', b'0'..=b'9' | b'/', ..] | [b'0' | b'/', ..] => {
                self.long_multiplier(at, end)
            }
            [digit @ b'1'..=b'9', ..] => (u32::from(digit - b'0'), 1, at + 1),
            _ => (1, 1, at),
        }
    }

    /// Reads a multiplier of more than one digit.
    fn long_multiplier(&mut self, at: usize, end: usize) -> (u32, u32, usize) {
        let bytes = self.text.as_bytes().get(at..end).unwrap_or_default();
        let digits = |from: usize| {
            let rest = bytes.get(from..).unwrap_or_default();
            rest.iter().take_while(|b| b.is_ascii_digit()).count()
        };
        let mut used = digits(0);
        let text = self.text.get(at..end).unwrap_or_default();
        let number = |from: usize, count: usize| -> Option<u32> {
            text.get(from..from + count)?.parse().ok().filter(|&n| n <= MOST)
        };
        let mut over = if used == 0 { Some(1) } else { number(0, used) };
        let mut under = Some(1_u32);
        while bytes.get(used) == Some(&b'/') {
            let count = digits(used + 1);
            let by = if count == 0 { Some(2) } else { number(used + 1, count) };
            under = under.zip(by).and_then(|(a, b)| a.checked_mul(b)).filter(|&n| n <= MOST);
            used += 1 + count;
        }
        let after = at + used;
        if over == Some(0) || under == Some(0) {
            let found = excerpt(text.get(..used).unwrap_or_default());
            self.report.add(at, after, ProblemKind::ZeroLength { found });
            return (1, 1, after);
        }
        if over.is_none() || under.is_none() {
            let found = excerpt(text.get(..used).unwrap_or_default());
            self.report.add(at, after, ProblemKind::NumberTooLarge { found, limit: MOST });
            (over, under) = (Some(1), Some(1));
        }
        (over.unwrap_or(1), under.unwrap_or(1), after)
    }

    /// Adds a note or rest with the length that is written.
    pub(super) fn add(&mut self, sound: Sound, length: Length, start: usize, end: usize) {
        self.add_sound(sound, length, start, end);
        self.last.note = sound.pitch();
        std::mem::swap(&mut self.chord, &mut self.last.chord);
        self.chord.clear();
        let kept = self.last.all().len();
        let event = self.builder.next_event().saturating_sub(1);
        self.log.add(|| Site::Sound { start, kept, event });
    }

    #[inline]
    fn add_sound(&mut self, sound: Sound, length: Length, start: usize, end: usize) {
        let Ok(length) = self.timed(length) else {
            self.report.add(start, end, ProblemKind::BarBeyondCounting);
            return;
        };
        let slur = self.close_tie(sound);
        self.builder.join_last_in_bar(self.touches);
        match self.builder.event(sound, length, span(start, end)) {
            Ok(()) => {
                self.touches = true;
                if let Some(at) = slur {
                    self.slur_of_two(at);
                }
            }
            Err(error) => self.not_added(error, start, end),
        }
    }

    /// Settles an open tie when the next sound comes; gives the place of one that is a slur.
    #[inline]
    fn close_tie(&mut self, sound: Sound) -> Option<usize> {
        let (pitch, at) = self.tie.take()?;
        self.settle_tie(pitch, at, sound)
    }

    fn settle_tie(&mut self, pitch: Pitch, at: usize, sound: Sound) -> Option<usize> {
        match sound.pitch() {
            Some(same) if same == pitch => {}
            // A tie into the repeat, or between inner notes of chords, stands in no one's way.
            Some(_) if self.tie_into_repeat || self.pitches_meet(sound) => {
                self.builder.untie_last();
            }
            // Written apart, it may be anything.
            Some(_) if self.tie_detached => self.builder.untie_last(),
            Some(_) => {
                self.builder.untie_last();
                return Some(at);
            }
            None => {
                self.builder.untie_last();
                self.report.add(at, at + 1, ProblemKind::TieWithoutNote);
            }
        }
        None
    }

    /// A slur over the last two notes, which is what a tie between them looks like.
    fn slur_of_two(&mut self, at: usize) {
        let last = self.builder.next_event().saturating_sub(1);
        self.builder.mark_at(last.saturating_sub(1), MarkKind::SlurStart, span(at, at + 1));
        self.builder.mark_at(last, MarkKind::SlurEnd, span(at, at + 1));
        self.report.add(at, at + 1, ProblemKind::TieBetweenDifferentPitches);
    }

    /// Whether any pitch of a sound is one of the sound before it.
    fn pitches_meet(&self, sound: Sound) -> bool {
        let note = sound.pitch();
        let now = if self.chord.is_empty() { note.as_slice() } else { &self.chord };
        self.last.all().iter().any(|pitch| now.contains(pitch))
    }

    /// Reads a tie; gives the place after it.
    pub(super) fn tie_sign(&mut self, at: usize) -> usize {
        // After grace notes it joins them to their note, which they belong to anyway.
        if at > 0 && self.text.as_bytes().get(at - 1) == Some(&b'}') {
            return at + 1;
        }
        let pitch = self.builder.last_event().and_then(|e| e.sound.pitch());
        match pitch {
            Some(pitch) if self.tie.is_none() => {
                self.tie_detached = !self.touches;
                if self.tie_detached {
                    self.report.add(at, at + 1, ProblemKind::TieDetached);
                }
                self.builder.tie_last();
                self.tie = Some((pitch, at));
                self.tie_into_repeat = false;
            }
            _ => self.report.add(at, at + 1, ProblemKind::TieWithoutNote),
        }
        at + 1
    }

    /// Reads a rest: `z2`, `x`, `Z4`; gives the place after it.
    pub(super) fn rest(&mut self, at: usize, end: usize) -> usize {
        self.begin_sound();
        let letter = self.text.as_bytes().get(at).copied().unwrap_or(b'z');
        let sound =
            if letter.eq_ignore_ascii_case(&b'x') { Sound::HiddenRest } else { Sound::Rest };
        if letter.is_ascii_lowercase() {
            let (length, after) = self.length(at + 1, end);
            self.add(sound, length, at, after);
            return after;
        }
        let (bars, _, after) = self.multiplier(at + 1, end);
        let bars = if bars > MOST_BARS {
            let found = bars.to_string();
            self.report.add(at, after, ProblemKind::NumberTooLarge { found, limit: MOST_BARS });
            1
        } else {
            bars
        };
        let full = self.builder.current_metre().bar_length().unwrap_or(Length::SEMIBREVE);
        for bar in 0..bars {
            if bar > 0 {
                let line = BarLine { style: BarStyle::Single, ..BarLine::default() };
                self.builder.bar_line(line, span(after, after));
                self.begin_bar();
            }
            self.add(sound, full, at, after);
        }
        self.touches = false;
        after
    }

    /// What is due before the first sound of a line: a full bar at the end of the line before
    /// has ended, with or without its bar line.
    #[inline]
    pub(super) fn begin_sound(&mut self) {
        if self.at_line_start {
            self.begin_line();
        }
    }

    fn begin_line(&mut self) {
        self.at_line_start = false;
        let full = self.builder.current_metre().bar_length() == Some(self.builder.bar_length());
        if full && self.broken.is_none() && self.tuplet.is_none() {
            let at = self.builder.last_event().map_or(0, |e| e.span.end as usize);
            if self.lines_open.0 == 0 {
                self.lines_open.1 = at;
            }
            self.lines_open.0 += 1;
            let line = BarLine { style: BarStyle::Single, ..BarLine::default() };
            self.put_bar_line(line, at, at);
        }
    }

    fn lone_accidental(&mut self, at: usize, end: usize) -> usize {
        let rest = self.text.get(at..end).unwrap_or_default();
        let length = rest.bytes().take_while(|b| matches!(b, b'^' | b'_' | b'=')).count().max(1);
        let found = excerpt(rest.get(..length).unwrap_or_default());
        self.report.add(at, at + length, ProblemKind::AccidentalWithoutNote { found });
        at + length
    }
}

/// The step and octave of a letter without marks: middle C begins the octave of capitals.
#[inline]
pub(super) const fn plain(letter: u8) -> Option<(Step, i8)> {
    const STEPS: [Step; 7] = [Step::A, Step::B, Step::C, Step::D, Step::E, Step::F, Step::G];
    // Capitals and small letters come in no order that a processor could foretell, so they take one
    // way: they differ in one bit.
    const SMALL: u8 = b'a' - b'A';
    let index = (letter | SMALL).wrapping_sub(b'a') as usize;
    if index >= STEPS.len() {
        return None;
    }
    Some((STEPS[index], if letter & SMALL == 0 { 4 } else { 5 }))
}

/// The alteration that a tie from one of some pitches gives to a letter.
pub(super) fn tied_to(from: &[Pitch], step: Step, octave: i32) -> Option<Alter> {
    let same = |p: &&Pitch| p.spelling().step == step && i32::from(p.octave()) == octave;
    from.iter().find(same).map(|pitch| pitch.spelling().alter)
}

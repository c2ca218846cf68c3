//! What the reader knows while it walks through the text.

use super::accidentals::{Accidentals, Reach};
use super::chord::Pitches;
use super::key::KeyReading;
use super::key_parts::KeyParts;
use super::log::{Log, Site};
use super::metre::unit_of;
use super::rhythm::{Broken, Tuplet};
use super::signs::Signs;
use super::unit::Unit;
use super::voices::Voices;
use crate::report::{Report, span};
use crate::source::TuneText;
use crate::{ProblemKind, ReadOptions, Reading};
use modewright_core::tune::{Header, MarkKind, TuneBuilder, WrittenKey};
use modewright_core::{Length, Metre, Pitch};

/// The state of the reader.
pub(super) struct State<'a, L> {
    pub(super) text: &'a str,
    pub(super) builder: TuneBuilder,
    pub(super) report: Report,
    pub(super) voices: Voices,
    pub(super) signs: Signs,
    /// Whether the header has ended.
    body: bool,
    /// Whether the tune says its number.
    number: bool,
    /// Whether a key was stated, be it that there is none.
    pub(super) key_stated: bool,
    /// The unit length that `L:` gives.
    pub(super) stated_unit: Option<Length>,
    /// The unit length in force.
    pub(super) unit: Unit,
    pub(super) key: WrittenKey,
    /// Octaves that `octave=` moves the letters by.
    pub(super) octave: i32,
    /// Semitones of `transpose=` and of the clef's 8, where they are stated.
    shift: [Option<i16>; 2],
    pub(super) reach: Reach,
    /// Accidentals of this bar.
    pub(super) accidentals: Accidentals,
    /// Whether grace notes are read, whose accidentals are their own.
    pub(super) in_grace: bool,
    pub(super) broken: Option<Broken>,
    pub(super) tuplet: Option<Tuplet>,
    /// An open tie: its pitch and where it stands.
    pub(super) tie: Option<(Pitch, usize)>,
    /// Whether it stands apart from its note.
    pub(super) tie_detached: bool,
    /// Whether a section has been sent back since.
    pub(super) tie_into_repeat: bool,
    /// The pitches of the chord that is being read.
    pub(super) chord: Vec<Pitch>,
    /// The pitches of the last sound.
    pub(super) last: Pitches,
    /// Whether a line of music has ended and nothing has sounded since.
    pub(super) at_line_start: bool,
    /// Bar lines missing at line ends so far, and where the first would stand.
    pub(super) lines_open: (usize, usize),
    /// Up to here it is known that no brace closes.
    pub(super) no_brace_before: usize,
    /// Up to here it is known that no bracket closes.
    pub(super) no_bracket_before: usize,
    /// Slurs that are open, with the places where they begin.
    pub(super) slurs: Vec<usize>,
    /// Whether nothing stands between the last note and what comes.
    pub(super) touches: bool,
    /// Chords so far, and where the first stands.
    pub(super) chords: (usize, usize),
    /// Speed that waits for the unit length of the header.
    pub(super) tempo: Option<super::tempo::TempoText>,
    /// Words under the notes.
    pub(super) lyrics: super::lyrics::Lyrics,
    /// Words of the file header.
    pub(super) default_words: Header,
    /// How many macros the tune defines.
    pub(super) macros: u8,
    /// Where things stand, for a rewriter.
    pub(super) log: L,
    /// The last field of the header, which bare lines may go on with.
    pub(super) last_field: u8,
    full: bool,
}

impl<'a, L: Log> State<'a, L> {
    pub(super) fn new(text: &'a str, options: &ReadOptions) -> Self {
        let mut report = Report::default();
        let voices = Voices::new(text, options, &mut report);
        let mut builder = TuneBuilder::new();
        // Close to what dense books need; a long text grows as it goes.
        builder.reserve((text.len() / 3).min(1 << 12));
        Self {
            text,
            builder,
            report,
            voices,
            signs: Signs::default(),
            body: false,
            number: false,
            key_stated: false,
            stated_unit: None,
            unit: Unit::of(Length::QUAVER),
            key: WrittenKey::default(),
            octave: 0,
            shift: [None; 2],
            reach: Reach::default(),
            accidentals: Accidentals::default(),
            in_grace: false,
            broken: None,
            tuplet: None,
            tie: None,
            tie_detached: false,
            tie_into_repeat: false,
            chord: Vec::new(),
            last: Pitches::default(),
            at_line_start: false,
            lines_open: (0, 0),
            no_brace_before: 0,
            no_bracket_before: 0,
            slurs: Vec::new(),
            touches: false,
            chords: (0, 0),
            tempo: None,
            lyrics: super::lyrics::Lyrics::default(),
            default_words: Header::default(),
            macros: 0,
            log: L::default(),
            last_field: 0,
            full: false,
        }
    }

    pub(super) const fn in_body(&self) -> bool {
        self.body
    }

    pub(super) const fn has_number(&self) -> bool {
        self.number
    }

    pub(super) const fn set_number(&mut self) {
        self.number = true;
    }

    /// Whether the tune has no room for more.
    pub(super) const fn is_full(&self) -> bool {
        self.full
    }

    pub(super) const fn set_full(&mut self) {
        self.full = true;
    }

    /// Ends the header: units and speed are settled now.
    pub(super) fn begin_body(&mut self) {
        if self.body {
            return;
        }
        self.body = true;
        self.voices.begin_body();
        let unit = self.stated_unit.unwrap_or_else(|| unit_of(self.builder.current_metre()));
        self.unit = Unit::of(unit);
        self.builder.tune_mut().unit = Some(unit);
        if let Some(tempo) = self.tempo.take() {
            self.builder.tune_mut().tempo = Some(tempo.with_unit(unit));
        }
    }

    /// Applies what `K:` says.
    pub(super) fn apply_key(&mut self, reading: &KeyReading) {
        self.key_stated = true;
        if let Some(key) = reading.key {
            self.key = key;
            self.begin_bar();
            self.builder.key(key);
            let index = self.builder.tune().keys.len().saturating_sub(1);
            self.log.add(|| Site::Key { index, reading: reading.clone() });
        }
        self.apply_parts(&reading.parts, key_place(reading));
    }

    /// Accidentals are forgotten.
    pub(super) fn begin_bar(&mut self) {
        self.accidentals.clear();
        self.log.add(|| Site::Bar);
    }

    /// Applies clef, octave and transposition.
    pub(super) fn apply_parts(&mut self, parts: &KeyParts, place: (usize, usize)) {
        if let Some(octave) = parts.octave {
            self.octave = octave;
        }
        // A page that goes on to another clef sounds as before; one that moves the sound does not.
        let clef = parts.clef.map(|clef| i16::from(clef.octave) * 12);
        let stated = [parts.transpose.or(self.shift[0]), clef.or(self.shift[1])];
        let sum = |shift: [Option<i16>; 2]| shift.into_iter().flatten().sum::<i16>();
        if self.builder.next_event() > 0 {
            if sum(stated) != sum(self.shift) {
                self.report.add(place.0, place.1, ProblemKind::ShiftChanges);
            }
            return;
        }
        self.shift = stated;
        let tune = self.builder.tune_mut();
        tune.sounding_shift = sum(stated);
        tune.clef = parts.clef.unwrap_or(tune.clef);
    }

    /// Sets the metre from here on.
    pub(super) fn apply_metre(&mut self, metre: Metre) {
        self.begin_sound();
        self.builder.metre(metre);
    }

    /// Hangs a mark before the next note.
    pub(super) fn mark(&mut self, kind: MarkKind, start: usize, end: usize) {
        self.builder.mark(kind, span(start, end));
    }

    /// Ends the tune.
    pub(super) fn finish(mut self, text: &TuneText) -> Reading {
        let whole = self.text;
        self.begin_body();
        self.fill_in_words();
        self.end_tie();
        self.end_tuplet();
        self.end_broken();
        if !self.slurs.is_empty() {
            let at = self.slurs.first().copied().unwrap_or(0);
            let count = self.slurs.len();
            self.report.add(at, at + 1, ProblemKind::SlurNotClosed { count });
        }
        if !self.key_stated {
            self.report.add(0, 0, ProblemKind::NoKey);
        } else if !self.number {
            self.report.add(0, 0, ProblemKind::MissingNumber);
        }
        if self.lines_open.0 > 0 {
            let (count, at) = self.lines_open;
            self.report.add(at, at, ProblemKind::BarLineMissing { count });
        }
        if self.chords.0 > 0 {
            let (count, at) = self.chords;
            self.report.add(at, at + 1, ProblemKind::ChordTopNote { count });
        }
        let Self { builder, mut report, voices, .. } = self;
        let tune = builder.finish();
        super::check::bar_lengths(&tune, &mut report);
        super::check::form(&tune, &mut report);
        if !tune.events.iter().any(|e| e.sound.pitch().is_some()) {
            report.add(0, 0, ProblemKind::NoNotes);
        }
        let mut problems = report.finish(whole, text.first_line);
        problems.splice(0..0, text.problems.iter().cloned());
        let (voices, voice) = voices.told();
        Reading { tune, problems, voices, voice }
    }

    fn end_tie(&mut self) {
        if let Some((_, at)) = self.tie.take() {
            self.builder.untie_last();
            if !self.tie_into_repeat {
                self.report.add(at, at + 1, ProblemKind::TieWithoutNote);
            }
        }
    }
}

fn key_place(reading: &KeyReading) -> (usize, usize) {
    let place = reading.key.map(|k| k.span).unwrap_or_default();
    (place.start as usize, place.end as usize)
}

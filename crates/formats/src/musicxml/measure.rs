//! One measure: what stands in it, by the time at which it stands.

use super::note::{self, Note};
use super::reader::State;
use super::score::{Measure, child, elements, said, text};
use super::{MusicXmlProblem as P, attributes, barline, direction};
use crate::ProblemKind;
use crate::abc::write::VERSES;
use crate::report::{excerpt, span};
use modewright_core::tune::{
    BarLine, BarStyle, BuildError, Clef, MarkKind, Sound, TuneBuilder, WrittenKey,
};
use modewright_core::{Length, Metre, Pitch};
use roxmltree::Node;

/// The most divisions of a crotchet.
const MOST_DIVISIONS: u32 = crate::limits::DIVISIONS;
/// The most notes of one chord.
const MOST_NOTES: usize = crate::limits::CHORD_NOTES;

/// A sound of the melody with all that hangs on it.
#[derive(Debug)]
pub(super) struct Piece<'a> {
    note: Note<'a>,
    /// The other notes of its chord.
    others: Vec<Pitch>,
    length: Length,
    grace: Vec<(Pitch, Length)>,
    slashed: bool,
}

#[derive(Debug)]
enum What<'a> {
    Key(WrittenKey),
    Metre(Metre),
    Mark(MarkKind, Node<'a, 'a>),
    Line(BarLine),
    Sound(Box<Piece<'a>>),
}

/// What stands in a measure, each with its time from the measure's beginning.
#[derive(Debug, Default)]
pub(super) struct Content<'a> {
    items: Vec<(Length, What<'a>)>,
    /// How long the longest voice is.
    pub(super) end: Length,
}

impl<'a> State<'a> {
    /// Gathers what stands in a measure.
    pub(super) fn gather(&mut self, measure: &Measure<'a>) -> Content<'a> {
        let mut content = Content::default();
        let mut now = Length::ZERO;
        // Whether the note before belongs to the melody, so that a chord note goes with it.
        let mut ours = false;
        for node in elements(measure.content) {
            let range = node.range();
            match node.tag_name().name() {
                "note" => self.note(node, &mut content, &mut now, &mut ours),
                "forward" => now = self.plus(now, self.duration(node), node),
                "backup" => {
                    let back = self.duration(node);
                    now = now.minus(back).unwrap_or_else(|| {
                        self.report.add(range.start, range.end, P::Backup.into());
                        Length::ZERO
                    });
                }
                "attributes" => self.attributes(node, &mut content, now),
                "direction" => {
                    let stave = text(node, "staff").unwrap_or(self.voice.stave);
                    for kind in direction::read(node) {
                        let everywhere = matches!(kind, MarkKind::Tempo(_) | MarkKind::Part(_))
                            || direction::is_form(&kind);
                        if stave == self.voice.stave || everywhere {
                            content.items.push((now, What::Mark(kind, node)));
                        }
                    }
                }
                "sound" => {
                    let mut signs = Vec::new();
                    direction::form(node, &[], &mut signs);
                    for sign in signs {
                        content.items.push((now, What::Mark(sign, node)));
                    }
                    if let Some(tempo) = direction::sound(node) {
                        content.items.push((now, What::Mark(MarkKind::Tempo(tempo), node)));
                    }
                }
                "harmony" => {
                    if let Some(kind) = direction::harmony(node) {
                        content.items.push((now, What::Mark(kind, node)));
                    }
                }
                "print" => {
                    let breaks = [node.attribute("new-system"), node.attribute("new-page")];
                    if breaks.contains(&Some("yes")) && self.builder.next_event() > 0 {
                        content.items.push((now, What::Mark(MarkKind::LineEnd, node)));
                    }
                }
                "barline" if node.attribute("location") == Some("middle") => {
                    content.items.push((now, What::Line(barline::line(node))));
                }
                _ => {}
            }
            content.end = content.end.max(now);
        }
        let sorted = content.items.is_sorted_by_key(|(at, _)| *at);
        if !sorted {
            content.items.sort_by_key(|(at, _)| *at);
        }
        content
    }

    fn plus(&mut self, now: Length, length: Length, node: Node<'a, 'a>) -> Length {
        now.plus(length).unwrap_or_else(|_| {
            // Told once, however many notes are too many.
            if !std::mem::replace(&mut self.beyond, true) {
                let range = node.range();
                self.report.add(range.start, range.end, ProblemKind::BarBeyondCounting);
            }
            now
        })
    }

    /// The length of a forward or a backup.
    fn duration(&self, node: Node<'a, 'a>) -> Length {
        let (over, under) =
            text(node, "duration").and_then(super::score::decimal).unwrap_or((0, 1));
        let under = under.checked_mul(4).and_then(|u| u.checked_mul(self.divisions));
        under.and_then(|under| Length::new(over, under).ok()).unwrap_or(Length::ZERO)
    }

    fn note(
        &mut self,
        node: Node<'a, 'a>,
        content: &mut Content<'a>,
        now: &mut Length,
        ours: &mut bool,
    ) {
        let note = note::read(node, self.clef.octave);
        if note.chord {
            if *ours && note.voice == self.voice {
                self.chord_note(&note, content);
            }
            return;
        }
        *ours = note.voice == self.voice;
        let range = node.range();
        if note.grace.is_some() {
            if *ours && let Some(pitch) = note.sound.pitch() {
                let length = note.value.map_or(Length::QUAVER, crate::notation::Value::length);
                self.slashed |= self.grace.is_empty() && note.grace == Some(true);
                if self.grace.len() < MOST_NOTES {
                    self.grace.push((pitch, length));
                }
                self.grace_slurs.add_grace(note.slurs);
            }
            *ours = false;
            return;
        }
        let looks = note.looks();
        let full = self.metre.bar_length().filter(|_| note.whole_bar && !self.implicit);
        let length = full.or_else(|| note.length(self.divisions));
        if *ours && !note.whole_bar {
            self.counts.no_duration += usize::from(length.is_none());
            self.counts.differs +=
                usize::from(length.is_some_and(|l| looks.is_some_and(|v| v != l)));
            self.counts.unpitched += usize::from(note.unpitched);
            self.counts.microtones += usize::from(note.microtone);
        }
        let Some(length) = length.or(looks) else {
            *ours = false;
            return;
        };
        let at = *now;
        *now = self.plus(at, length, node);
        if !*ours || *now == at {
            *ours = false;
            return;
        }
        if note.bad_pitch {
            let found = child(node, "pitch").map(|p| elements(p).map(said).collect::<String>());
            let found = excerpt(&found.unwrap_or_default());
            self.report.add(range.start, range.end, P::Pitch { found }.into());
        }
        self.counts.tied_only += usize::from(note.tied && !note.tie);
        let (grace, slashed) = (std::mem::take(&mut self.grace), self.slashed);
        self.slashed = false;
        let before = std::mem::take(&mut self.grace_slurs);
        let mut piece = Piece { note, others: Vec::new(), length, grace, slashed };
        piece.note.slurs.grace = before.grace;
        piece.note.slurs.stops = piece.note.slurs.stops.and(before.stops);
        if piece.note.cue {
            // Small notes are a hint for the player, not the melody.
            piece.note.sound = Sound::HiddenRest;
        }
        content.items.push((at, What::Sound(Box::new(piece))));
    }

    /// A further note of a chord: the highest is the melody.
    fn chord_note(&mut self, note: &Note<'a>, content: &mut Content<'a>) {
        let Some((_, What::Sound(piece))) = content.items.last_mut() else { return };
        // A slur may hang on any note of a chord.
        let slurs = &mut piece.note.slurs;
        slurs.starts = slurs.starts.and(note.slurs.starts);
        slurs.stops = slurs.stops.and(note.slurs.stops);
        let Some(pitch) = note.sound.pitch() else { return };
        let Some(top) = piece.note.sound.pitch() else { return };
        // With its top note, which is the melody, it has one more.
        if piece.others.len() + 1 >= MOST_NOTES {
            if piece.others.len() + 1 == MOST_NOTES && !self.large_chord {
                self.large_chord = true;
                let (place, limit) = (note.node.range(), MOST_NOTES);
                self.report.add(place.start, place.end, ProblemKind::ChordTooLarge { limit });
            }
            return;
        }
        if self.chords.1 == 0 {
            self.chords.1 = note.node.range().start;
        }
        if pitch.midi() > top.midi() {
            piece.others.push(top);
            piece.note.sound = Sound::Note(pitch);
            piece.note.tie = note.tie;
        } else {
            piece.others.push(pitch);
        }
    }

    fn attributes(&mut self, node: Node<'a, 'a>, content: &mut Content<'a>, now: Length) {
        let on_stave = |node: &Node<'a, 'a>, stave: &str| {
            node.attribute("number").is_none_or(|number| number == stave)
        };
        let stave = self.voice.stave;
        for inner in elements(node).filter(|n| on_stave(n, stave)) {
            let range = inner.range();
            match inner.tag_name().name() {
                "divisions" => {
                    let number = super::score::decimal(said(inner))
                        .filter(|&(n, under)| under == 1 && (1..=MOST_DIVISIONS).contains(&n));
                    match number {
                        Some((number, _)) => self.divisions = number,
                        None => {
                            let found = excerpt(said(inner));
                            self.report.add(range.start, range.end, P::Divisions { found }.into());
                        }
                    }
                }
                "key" => {
                    let key = attributes::key(inner, &mut self.report);
                    content.items.push((now, What::Key(key)));
                }
                "time" => {
                    let metre = attributes::metre(inner, &mut self.report);
                    self.metre = metre;
                    content.items.push((now, What::Metre(metre)));
                }
                "clef" => self.set_clef(attributes::clef(inner)),
                "transpose" if !self.concert => {
                    self.set_transpose(attributes::transpose(inner), range.start, range.end);
                }
                _ => {}
            }
        }
    }

    fn set_clef(&mut self, clef: Clef) {
        if !self.clef_known {
            self.clef_known = true;
            self.clef = clef;
        }
    }

    fn set_transpose(&mut self, semitones: i16, start: usize, end: usize) {
        match self.transpose {
            Some(known) if known != semitones => {
                self.report.add(start, end, ProblemKind::ShiftChanges);
            }
            _ => self.transpose = Some(semitones),
        }
    }

    /// Hands a measure to the builder.
    pub(super) fn emit(&mut self, content: Content<'a>) {
        let mut position = Length::ZERO;
        let mut overlaps = None;
        let end = content.end;
        for (at, what) in content.items {
            if self.full {
                return;
            }
            match what {
                What::Key(key) => self.builder.key(key),
                What::Metre(metre) => self.builder.metre(metre),
                What::Mark(kind, node) => self.mark(kind, node),
                What::Line(line) => {
                    let line_at = span(0, 0);
                    if line.style != BarStyle::Dotted || line.ends_strain() {
                        self.builder.bar_line(line, line_at);
                    }
                }
                What::Sound(piece) => {
                    if let Some(gap) = at.minus(position).filter(|gap| !gap.is_zero()) {
                        self.fill(gap, piece.note.node);
                    } else if at < position {
                        overlaps = overlaps.or(Some(piece.note.node.range()));
                        continue;
                    }
                    position = at.plus(piece.length).unwrap_or(at);
                    self.sound(*piece);
                }
            }
        }
        if let Some(range) = overlaps {
            self.report.add(range.start, range.end, ProblemKind::OverlayLeftOut);
        }
        if let Some(gap) = end.minus(position).filter(|gap| !gap.is_zero()) {
            self.event(Sound::HiddenRest, gap, span(0, 0));
        } else if end.is_zero()
            && let Some(full) = self.metre.bar_length()
        {
            // A measure of which nothing is told rests.
            self.event(Sound::Rest, full, span(0, 0));
        }
    }

    fn fill(&mut self, gap: Length, node: Node<'a, 'a>) {
        let at = node.range().start;
        self.close_tie(None);
        self.event(Sound::HiddenRest, gap, span(at, at));
    }

    fn mark(&mut self, kind: MarkKind, node: Node<'a, 'a>) {
        if let MarkKind::Tempo(tempo) = &kind
            && self.builder.next_event() == 0
        {
            let known = &mut self.builder.tune_mut().tempo;
            match known {
                // Words and number of one speed may stand apart.
                Some(first) if first.per_minute.is_none() => {
                    let words = first.words.take();
                    *known = Some(tempo.clone());
                    if let Some(known) = known {
                        known.words = known.words.take().or(words);
                    }
                }
                Some(_) => {}
                None => *known = Some(tempo.clone()),
            }
            return;
        }
        let range = node.range();
        self.builder.mark(kind, span(range.start, range.end));
    }

    fn sound(&mut self, piece: Piece<'a>) {
        let Piece { note, others, length, grace, slashed } = piece;
        let range = note.node.range();
        let place = span(range.start, range.end);
        self.close_tie(note.sound.pitch());
        if others.iter().any(|other| Some(*other) != note.sound.pitch()) {
            self.chords.0 += 1;
        }
        let event = self.builder.next_event();
        if !grace.is_empty() {
            self.builder.mark(MarkKind::Grace { notes: grace, slashed }, place);
        }
        for name in &note.signs {
            self.builder.mark(MarkKind::Sign(name.clone()), place);
        }
        let (starts, ends) = self.slurs.note(note.slurs);
        for _ in 0..starts {
            self.builder.mark(MarkKind::SlurStart, place);
        }
        self.tuplet(&note, length, event);
        if self.joins && !self.builder.bar_is_empty() {
            self.builder.join_last();
        }
        self.joins = note.beam;
        if !self.event(note.sound, length, place) {
            return;
        }
        for pitch in others {
            self.builder.mark_at(event, MarkKind::ChordNote(pitch), place);
        }
        for _ in 0..ends {
            self.builder.mark_at(event, MarkKind::SlurEnd, place);
        }
        let mut sung = 0_u128;
        for (number, syllable) in note.lyrics {
            if note.sound.pitch().is_some() {
                // A second syllable of the same verse goes to the next that has none here.
                let verse = self.verse(number);
                let free = (verse..VERSES).find(|verse| sung >> verse & 1 == 0);
                let verse = free.unwrap_or(verse);
                sung |= 1_u128.checked_shl(verse.into()).unwrap_or(0);
                self.builder.mark_at(event, MarkKind::Lyric { verse, syllable }, place);
            }
        }
        if let Some(pitch) = note.sound.pitch().filter(|_| note.tie) {
            self.builder.tie_last();
            self.tie = Some((pitch, range.start));
        }
        if note.tuplet_stops {
            self.close_tuplet();
        }
    }

    /// Adds a note or rest; `false` where there is no room for it.
    fn event(&mut self, sound: Sound, length: Length, place: modewright_core::tune::Span) -> bool {
        let (start, end) = (place.start as usize, place.end as usize);
        match self.builder.event(sound, length, place) {
            Ok(()) => return true,
            Err(BuildError::BarTooLong) => {
                self.report.add(start, end, ProblemKind::BarBeyondCounting);
            }
            Err(BuildError::TooManyEvents) => {
                let limit = TuneBuilder::MAX_EVENTS;
                self.report.add(start, end, ProblemKind::TooManyNotes { limit });
                self.full = true;
            }
        }
        false
    }
}

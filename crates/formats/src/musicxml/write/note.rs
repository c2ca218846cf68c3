//! One note, rest or chord.

use super::beams::Beam;
use super::{Open, Writer};
use crate::abc::write::VERSES;
use crate::musicxml::signs::{self, Group};
use crate::notation::Value;
use modewright_core::tune::{Event, Mark, MarkKind, Sound, Syllable, WrittenKey};
use modewright_core::{Alter, Length, Pitch};

/// Accidentals in force, as printed music has them: for one octave, until the bar line.
#[derive(Debug, Default)]
pub(super) struct Accidentals {
    key: WrittenKey,
    bar: Vec<(i16, Alter)>,
    tied: Option<Pitch>,
}

impl Accidentals {
    pub(super) fn key(&mut self, key: WrittenKey) {
        self.key = key;
        self.bar.clear();
    }

    pub(super) fn bar_line(&mut self) {
        self.bar.clear();
    }

    /// The name of the accidental to be printed before a note.
    fn shown(&mut self, pitch: Pitch) -> Option<&'static str> {
        if self.tied == Some(pitch) {
            return None;
        }
        let (place, alter) = (pitch.stave_place(), pitch.spelling().alter);
        let known = self.bar.iter().rev().find(|(p, _)| *p == place).map(|&(_, alter)| alter);
        if known.unwrap_or_else(|| self.key.alter(pitch.spelling().step)) == alter {
            return None;
        }
        self.bar.retain(|(p, _)| *p != place);
        self.bar.push((place, alter));
        Some(match alter.semitones() {
            ..=-3 => "triple-flat",
            -2 => "flat-flat",
            -1 => "flat",
            0 => "natural",
            1 => "sharp",
            2 => "double-sharp",
            3.. => "triple-sharp",
        })
    }
}

impl Writer<'_> {
    /// Writes an event with all that hangs on it.
    pub(super) fn note(&mut self, at: usize, event: &Event, hung: &[Mark], beams: &[Beam]) {
        for mark in hung {
            match &mark.kind {
                MarkKind::Grace { notes, slashed } => self.grace(notes, *slashed),
                MarkKind::Tuplet { actual, normal, count } => {
                    let unit = self.unit(at, *actual, *normal, *count);
                    self.tuplet =
                        Some(Open { actual: *actual, normal: *normal, left: *count, unit });
                }
                _ => {}
            }
        }
        let starts = hung.iter().any(|m| matches!(m.kind, MarkKind::Tuplet { .. }));
        let tuplet = self.tuplet.take();
        let stops = tuplet.as_ref().is_some_and(|open| open.left <= 1);
        let tied_from = at.checked_sub(1).and_then(|i| self.tune.events.get(i)).is_some_and(|e| {
            e.tied && e.sound.pitch().is_some() && e.sound.pitch() == event.sound.pitch()
        });
        let tied_to = event.tied
            && event.sound.pitch().is_some()
            && self.tune.events.get(at + 1).is_some_and(|n| n.sound.pitch() == event.sound.pitch());
        let ratio = tuplet.as_ref().map_or((1, 1), |t| (u32::from(t.actual), u32::from(t.normal)));
        let value = event.length.times(ratio.0, ratio.1).ok().and_then(Value::of);
        let full = self.metre.bar_length() == Some(event.length);
        let whole_bar = full && event.at.is_zero() && event.sound == Sound::Rest;

        let hidden = [("print-object", "no")];
        self.xml.open("note", if event.sound == Sound::HiddenRest { &hidden } else { &[] });
        match event.sound {
            Sound::Note(pitch) => self.pitch(pitch),
            _ if whole_bar => self.xml.empty("rest", &[("measure", "yes")]),
            // The sign of a semibreve's rest is that of a whole bar too: some programs guess.
            _ if event.length == Length::SEMIBREVE => {
                self.xml.empty("rest", &[("measure", "no")]);
            }
            _ => self.xml.empty("rest", &[]),
        }
        self.duration(event.length);
        if tied_from {
            self.xml.empty("tie", &[("type", "stop")]);
        }
        if tied_to {
            self.xml.empty("tie", &[("type", "start")]);
        }
        self.look(value, event.sound.pitch());
        if let Some(open) = &tuplet {
            self.time_modification(open);
        }
        for (i, beam) in beams.iter().enumerate() {
            self.xml.leaf_with("beam", &[("number", &(i + 1).to_string())], beam);
        }
        let tuplet_edges = (tuplet.is_some() && starts, tuplet.is_some() && stops);
        self.notations(hung, (tied_from, tied_to), tuplet_edges);
        self.lyrics(hung);
        self.xml.close("note");
        self.accidentals.tied = None;
        for pitch in hung.iter().filter_map(|m| match m.kind {
            MarkKind::ChordNote(pitch) => Some(pitch),
            _ => None,
        }) {
            self.xml.open("note", &[]);
            self.xml.empty("chord", &[]);
            self.pitch(pitch);
            self.duration(event.length);
            self.look(value, Some(pitch));
            if let Some(open) = &tuplet {
                self.time_modification(open);
            }
            self.xml.close("note");
        }
        self.accidentals.tied = event.sound.pitch().filter(|_| tied_to);
        self.tuplet =
            tuplet.filter(|open| open.left > 1).map(|open| Open { left: open.left - 1, ..open });
    }

    /// The value that a tuplet is counted in, where its notes fill it.
    fn unit(&self, at: usize, actual: u8, normal: u8, count: u16) -> Option<Value> {
        let events = self.tune.events.get(at..at + usize::from(count))?;
        let sum = events.iter().try_fold(Length::ZERO, |sum, e| sum.plus(e.length).ok())?;
        let unit = sum.times(1, u32::from(normal)).ok()?;
        Value::of(unit).filter(|unit| unit.dots == 0 && actual > 1)
    }

    fn pitch(&mut self, pitch: Pitch) {
        let octave = pitch.octave() + self.tune.clef.octave;
        self.xml.open("pitch", &[]);
        self.xml.leaf("step", &pitch.spelling().step.to_string());
        let alter = pitch.spelling().alter;
        if alter != Alter::NATURAL {
            self.xml.leaf("alter", &alter.semitones().to_string());
        }
        self.xml.leaf("octave", &octave.to_string());
        self.xml.close("pitch");
    }

    fn duration(&mut self, length: Length) {
        let over = u64::from(length.numerator()) * 4 * u64::from(self.divisions);
        let under = u64::from(length.denominator());
        // Divisions are chosen so that nothing is left over, unless there would be too many.
        let duration = ((over + under / 2) / under).max(1);
        self.xml.leaf("duration", &duration.to_string());
    }

    /// Voice, note value, dots and accidental.
    fn look(&mut self, value: Option<Value>, pitch: Option<Pitch>) {
        self.xml.leaf("voice", "1");
        if let Some(value) = value {
            self.xml.leaf("type", value.name());
            for _ in 0..value.dots {
                self.xml.empty("dot", &[]);
            }
        }
        if let Some(accidental) = pitch.and_then(|pitch| self.accidentals.shown(pitch)) {
            self.xml.leaf("accidental", accidental);
        }
    }

    fn time_modification(&mut self, open: &Open) {
        self.xml.open("time-modification", &[]);
        self.xml.leaf("actual-notes", &open.actual.to_string());
        self.xml.leaf("normal-notes", &open.normal.to_string());
        if let Some(unit) = open.unit {
            self.xml.leaf("normal-type", unit.name());
        }
        self.xml.close("time-modification");
    }

    fn grace(&mut self, notes: &[(Pitch, Length)], slashed: bool) {
        for (i, &(pitch, length)) in notes.iter().enumerate() {
            self.xml.open("note", &[]);
            let slash = [("slash", "yes")];
            self.xml.empty("grace", if slashed && i == 0 { &slash } else { &[] });
            self.pitch(pitch);
            self.xml.leaf("voice", "1");
            if let Some(value) = Value::of(length) {
                self.xml.leaf("type", value.name());
                for _ in 0..value.dots {
                    self.xml.empty("dot", &[]);
                }
            }
            self.xml.close("note");
        }
    }

    fn notations(&mut self, hung: &[Mark], tied: (bool, bool), tuplet: (bool, bool)) {
        let names = || {
            hung.iter().filter_map(|mark| match &mark.kind {
                MarkKind::Sign(name) => Some(name.as_str()),
                _ => None,
            })
        };
        let count = |kind: &MarkKind| hung.iter().filter(|mark| mark.kind == *kind).count();
        let (starts, stops) = (count(&MarkKind::SlurStart), count(&MarkKind::SlurEnd));
        let slurs = self.slurs.note(starts, stops);
        let any =
            tied.0 || tied.1 || tuplet.0 || tuplet.1 || slurs.ends.len() + slurs.begins.len() > 0;
        if !any && names().next().is_none() {
            return;
        }
        self.xml.open("notations", &[]);
        for (there, kind) in [(tied.0, "stop"), (tied.1, "start")] {
            if there {
                self.xml.empty("tied", &[("type", kind)]);
            }
        }
        for (numbers, kind) in
            [(&slurs.ends, "stop"), (&slurs.begins, "start"), (&slurs.alone, "stop")]
        {
            for number in numbers {
                let number = number.to_string();
                self.xml.empty("slur", &[("type", kind), ("number", &number)]);
            }
        }
        for (there, kind) in [(tuplet.0, "start"), (tuplet.1, "stop")] {
            if there {
                self.xml.empty("tuplet", &[("type", kind), ("number", "1")]);
            }
        }
        let found = |name: &str| signs::element(name).unwrap_or((Group::Ornament, ""));
        for (group, element) in [
            (Group::Ornament, "ornaments"),
            (Group::Technical, "technical"),
            (Group::Articulation, "articulations"),
            (Group::Notation, ""),
        ] {
            if !names().any(|name| found(name).0 == group) {
                continue;
            }
            if !element.is_empty() {
                self.xml.open(element, &[]);
            }
            for name in names().filter(|name| found(name).0 == group) {
                match found(name).1 {
                    "" => self.xml.leaf("other-ornament", name),
                    sign => self.xml.empty(sign, &[]),
                }
            }
            if !element.is_empty() {
                self.xml.close(element);
            }
        }
        self.xml.close("notations");
    }

    fn lyrics(&mut self, hung: &[Mark]) {
        for mark in hung {
            let MarkKind::Lyric { verse: verse @ 0..VERSES, syllable } = &mark.kind else {
                continue;
            };
            let number = (verse.saturating_add(1)).to_string();
            let row = verse.checked_sub(self.first_row);
            let name = row.and_then(|row| self.names.get(usize::from(row))).cloned();
            let mut attributes = vec![("number", number.as_str())];
            if let Some(name) = &name {
                attributes.push(("name", name));
            }
            self.xml.open("lyric", &attributes);
            match syllable {
                Syllable::Text { text, hyphen } => {
                    self.xml.leaf("syllabic", if *hyphen { "begin" } else { "single" });
                    self.xml.leaf("text", text);
                }
                Syllable::Held => self.xml.empty("extend", &[]),
            }
            self.xml.close("lyric");
        }
    }
}

//! The writer: a tune as MusicXML 4.0, partwise, in one part.

mod beams;
mod fields;
mod note;
mod slurs;
mod xml;

use super::direction::KINDS;
use super::signs;
use crate::notation::{Row, add_rows, notatable};
use modewright_core::tune::{Bar, BarStyle, FormSign, KeyForm, Mark, MarkKind, Passes, Place};
use modewright_core::{Metre, Tune};
use note::Accidentals;
use slurs::Slurs;
use xml::Xml;

/// Writes a tune as MusicXML 4.0, with rows of text as further verses under the notes.
///
/// A length that no single note value has is written as tied notes (see
/// [`notatable`](crate::notation::notatable)). Pitches are written as they are read by the
/// player; `transpose` says how far away they sound.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, abc, musicxml, notation, source::TuneText};
///
/// let text = TuneText::abc("X:1\nT:Five Oars\nM:3/4\nL:1/4\nK:Edor\nE F>G|A3|]\n");
/// let tune = abc::read(&text, &ReadOptions::default()).tune;
/// let row = notation::Row { name: "degree".into(), texts: ["1", "2", "3", "4"].map(String::from).to_vec() };
/// let score = musicxml::write(&tune, &[row]);
/// assert!(score.contains("<fifths>2</fifths>\n          <mode>dorian</mode>"));
/// assert!(score.contains("<lyric number=\"1\" name=\"degree\">"));
/// let again = musicxml::read(&TuneText::musicxml(score), &ReadOptions::default()).tune;
/// assert_eq!(again.events[1].length.to_string(), "3/8");
/// ```
#[must_use]
pub fn write(tune: &Tune, rows: &[Row]) -> String {
    let mut tune = tune.clone();
    let first_row = add_rows(&mut tune, rows);
    let names = rows.iter().map(|row| row.name.clone()).collect();
    let tune = notatable(&tune);
    let mut writer = Writer {
        tune: &tune,
        xml: Xml::new(),
        divisions: divisions(&tune),
        accidentals: Accidentals::default(),
        metre: tune.metre,
        mark: 0,
        waiting: Vec::new(),
        tuplet: None,
        leaving: Vec::new(),
        slurs: Slurs::default(),
        first_row,
        names,
    };
    writer.score();
    writer.xml.finish()
}

/// The most divisions that a crotchet is given.
const MOST_DIVISIONS: u64 = 1_000_000;

/// Divisions of a crotchet in which every length is whole.
fn divisions(tune: &Tune) -> u32 {
    let mut least: u64 = 1;
    for event in &tune.events {
        let Ok(crotchets) = event.length.times(4, 1) else { continue };
        let under = u64::from(crotchets.denominator());
        let (mut a, mut b) = (least, under);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        let next = least / a * under;
        if next <= MOST_DIVISIONS {
            least = next;
        }
    }
    u32::try_from(least).unwrap_or(1)
}

/// A tuplet that is being written.
#[derive(Debug)]
struct Open {
    actual: u8,
    normal: u8,
    left: u16,
    /// The value that it is counted in.
    unit: Option<crate::notation::Value>,
}

struct Writer<'a> {
    tune: &'a Tune,
    xml: Xml,
    divisions: u32,
    accidentals: Accidentals,
    /// The metre in force.
    metre: Metre,
    /// The next mark.
    mark: usize,
    /// Marks of the next note that were met before the end of the bar.
    waiting: Vec<Mark>,
    tuplet: Option<Open>,
    /// What is said at the end of the measure of what comes after it.
    leaving: Vec<FormSign>,
    /// Slurs that are open.
    slurs: Slurs,
    first_row: u16,
    names: Vec<String>,
}

impl Writer<'_> {
    fn score(&mut self) {
        let tune = self.tune;
        self.xml.open("score-partwise", &[("version", "4.0")]);
        fields::header(&mut self.xml, tune);
        self.xml.open("part-list", &[]);
        self.xml.open("score-part", &[("id", "P1")]);
        self.xml.leaf("part-name", "Melody");
        self.xml.close("score-part");
        self.xml.close("part-list");
        self.xml.open("part", &[("id", "P1")]);
        self.accidentals.key(tune.keys.first().copied().unwrap_or_default());
        for (i, bar) in tune.bars.iter().enumerate() {
            self.measure(i, bar);
        }
        if tune.bars.is_empty() {
            // A part without a measure is no part.
            self.xml.open("measure", &[("number", "1")]);
            self.beginning();
            self.xml.close("measure");
        }
        self.xml.close("part");
        self.xml.close("score-partwise");
    }

    fn measure(&mut self, index: usize, bar: &Bar) {
        let tune = self.tune;
        let before = index.checked_sub(1).and_then(|i| tune.bars.get(i));
        let goes_on = before.is_some_and(|b| b.number == bar.number);
        let number = if goes_on { format!("X{index}") } else { bar.number.to_string() };
        let mut attributes = vec![("number", number.as_str())];
        if goes_on || bar.number == 0 {
            attributes.push(("implicit", "yes"));
        }
        self.xml.open("measure", &attributes);
        let marks = tune.marks.get(self.mark..).unwrap_or(&[]).iter();
        let mut here = marks.take_while(|m| m.event <= bar.first);
        if index > 0 && here.any(|m| m.kind == MarkKind::LineEnd) {
            self.xml.empty("print", &[("new-system", "yes")]);
        }
        self.left(index, bar);
        if index == 0 {
            self.beginning();
        }
        let groups = beams::of(tune, index);
        for (at, event) in (bar.first..bar.end).zip(tune.events_of(index)) {
            let hung = self.marks(at);
            let beams = groups.get(at - bar.first).map(Vec::as_slice).unwrap_or_default();
            self.note(at, event, &hung, beams);
        }
        if self.metre != bar.metre {
            self.early_metre(bar);
        }
        if index + 1 == tune.bars.len() {
            self.marks(tune.events.len());
        }
        for sign in std::mem::take(&mut self.leaving) {
            fields::form(&mut self.xml, sign);
        }
        self.right(index, bar);
        self.xml.close("measure");
        self.accidentals.bar_line();
        if bar.close.ends_strain() {
            self.tuplet = None;
        }
    }

    /// What stands at the beginning of the part.
    fn beginning(&mut self) {
        let tune = self.tune;
        self.xml.open("attributes", &[]);
        self.xml.leaf("divisions", &self.divisions.to_string());
        let key = tune.keys.first().copied().unwrap_or_default();
        if key.form != KeyForm::None {
            fields::key(&mut self.xml, &key);
        }
        fields::metre(&mut self.xml, tune.metre);
        fields::clef(&mut self.xml, tune.clef);
        fields::transpose(&mut self.xml, tune.sounding_shift, tune.clef);
        self.xml.close("attributes");
        if let Some(tempo) = &tune.tempo {
            fields::tempo(&mut self.xml, tempo);
        }
    }

    fn early_metre(&mut self, bar: &Bar) {
        let marks = self.tune.marks.iter().enumerate().skip(self.mark);
        let mut here = marks.take_while(|(_, m)| m.event <= bar.end);
        let found = here.find(|(_, m)| m.kind == MarkKind::Metre(bar.metre)).map(|(i, _)| i);
        if let Some(last) = found {
            // What belongs to the next note waits for it.
            let mut hung = std::mem::take(&mut self.waiting);
            while self.mark <= last {
                self.one_mark(&mut hung);
            }
            self.waiting = hung;
        }
    }

    /// Writes what stands before an event; gives the marks that belong to its note.
    fn marks(&mut self, event: usize) -> Vec<Mark> {
        let mut hung = std::mem::take(&mut self.waiting);
        while self.tune.marks.get(self.mark).is_some_and(|m| m.event <= event) {
            self.one_mark(&mut hung);
        }
        hung
    }

    fn one_mark(&mut self, hung: &mut Vec<Mark>) {
        let Some(mark) = self.tune.marks.get(self.mark) else { return };
        self.mark += 1;
        match &mark.kind {
            MarkKind::Key(index) => {
                let key = self.tune.keys.get(*index).copied().unwrap_or_default();
                self.xml.open("attributes", &[]);
                fields::key(&mut self.xml, &key);
                self.xml.close("attributes");
                self.accidentals.key(key);
            }
            MarkKind::Metre(metre) => {
                // After the last note only what the last bar is in.
                let last = self.tune.bars.last().is_some_and(|bar| bar.metre == *metre);
                if mark.event < self.tune.events.len() || last {
                    self.metre = *metre;
                    self.xml.open("attributes", &[]);
                    fields::metre(&mut self.xml, *metre);
                    self.xml.close("attributes");
                }
            }
            MarkKind::Tempo(tempo) => fields::tempo(&mut self.xml, tempo),
            MarkKind::Part(name) => fields::direction(&mut self.xml, "above", |xml| {
                xml.leaf("rehearsal", name);
            }),
            MarkKind::Text { place, text } => {
                let place = if *place == Place::Below { "below" } else { "above" };
                fields::direction(&mut self.xml, place, |xml| xml.leaf("words", text));
            }
            MarkKind::ChordSign(text) => self.harmony(text),
            MarkKind::Sign(name) if signs::DYNAMICS.contains(&name.as_str()) => {
                fields::direction(&mut self.xml, "below", |xml| {
                    xml.open("dynamics", &[]);
                    xml.empty(name, &[]);
                    xml.close("dynamics");
                });
            }
            MarkKind::Sign(name) if FormSign::from_words(name).is_some() => {
                match FormSign::from_words(name) {
                    Some(sign) if sign.ends_a_bar() => self.leaving.push(sign),
                    Some(sign) => fields::form(&mut self.xml, sign),
                    None => {}
                }
            }
            MarkKind::LineEnd => {}
            _ => hung.push(mark.clone()),
        }
    }

    /// A chord sign, by its root and its bass; what has no root is text.
    fn harmony(&mut self, sign: &str) {
        let (root, rest) = chord_note(sign).unwrap_or((("", 0), sign));
        if root.0.is_empty() {
            fields::direction(&mut self.xml, "above", |xml| xml.leaf("words", sign));
            return;
        }
        let (kind, bass) = match rest.rsplit_once('/') {
            Some((kind, bass)) => match chord_note(bass) {
                Some((bass, "")) => (kind, Some(bass)),
                _ => (rest, None),
            },
            None => (rest, None),
        };
        let known = KINDS.iter().find(|&&(short, _)| short == kind).map_or("other", |&(_, n)| n);
        self.xml.open("harmony", &[]);
        self.chord_part("root", root);
        self.xml.leaf_with("kind", &[("text", kind)], known);
        if let Some(bass) = bass {
            self.chord_part("bass", bass);
        }
        self.xml.close("harmony");
    }

    fn chord_part(&mut self, name: &str, (step, alter): (&str, i32)) {
        self.xml.open(name, &[]);
        self.xml.leaf(&format!("{name}-step"), step);
        if alter != 0 {
            self.xml.leaf(&format!("{name}-alter"), &alter.to_string());
        }
        self.xml.close(name);
    }

    fn left(&mut self, index: usize, bar: &Bar) {
        let line = bar.open;
        let begins = line.repeat_on > 0 || line.style == BarStyle::Initial;
        let first = index == 0 && line.style != BarStyle::None;
        let drawn = begins || first;
        if !drawn && bar.ending.is_none() {
            return;
        }
        self.xml.open("barline", &[("location", "left")]);
        if drawn {
            let style = if begins { "heavy-light" } else { style(line.style) };
            self.xml.leaf("bar-style", style);
        }
        if let Some(passes) = bar.ending {
            let attributes = [("number", &*list(passes)), ("type", "start")];
            self.xml.empty("ending", &attributes);
        }
        if line.repeat_on > 0 {
            self.xml.empty("repeat", &[("direction", "forward")]);
        }
        self.xml.close("barline");
    }

    fn right(&mut self, index: usize, bar: &Bar) {
        let line = bar.close;
        let ending = self.ending_stops(index);
        let both = line.repeat_back > 0 && line.repeat_on > 0;
        // The next measure begins with what is thick on its left.
        let shown = match line.style {
            _ if both => BarStyle::Final,
            BarStyle::Initial => BarStyle::Single,
            other => other,
        };
        let plain = shown == BarStyle::Single && line.repeat_back == 0;
        if plain && ending.is_none() {
            return;
        }
        self.xml.open("barline", &[("location", "right")]);
        if !plain {
            self.xml.leaf("bar-style", style(shown));
        }
        if let Some((passes, kind)) = ending {
            self.xml.empty("ending", &[("number", &*list(passes)), ("type", kind)]);
        }
        if line.repeat_back > 0 {
            let times = (u32::from(line.repeat_back) + 1).to_string();
            let mut attributes = vec![("direction", "backward")];
            if line.repeat_back > 1 && ending.is_none() {
                attributes.push(("times", &times));
            }
            self.xml.empty("repeat", &attributes);
        }
        self.xml.close("barline");
    }

    /// The ending that stops at the end of a bar, and how.
    fn ending_stops(&self, index: usize) -> Option<(Passes, &'static str)> {
        let bars = &self.tune.bars;
        // An ending that no sign closes is at most so long.
        const LONGEST: usize = 32;
        let from = (index.saturating_sub(LONGEST)..=index)
            .rev()
            .find(|&i| bars.get(i).is_some_and(|bar| bar.ending.is_some()))?;
        let passes = bars.get(from)?.ending?;
        let ends = |i: usize| {
            bars.get(i).is_some_and(|bar| bar.close.ends_strain())
                || bars.get(i + 1).is_some_and(|next| next.ending.is_some())
        };
        let stop = (from..from + LONGEST).find(|&i| ends(i));
        match stop {
            Some(stop) if stop == index => Some((passes, "stop")),
            None if from == index => Some((passes, "discontinue")),
            _ => None,
        }
    }
}

/// A note name at the beginning of a chord sign, with its alteration, and what follows it.
fn chord_note(sign: &str) -> Option<((&str, i32), &str)> {
    let step = sign.get(..1).filter(|s| matches!(s.as_bytes(), [b'A'..=b'G']))?;
    let rest = sign.get(1..)?;
    Some(match rest.as_bytes().first() {
        Some(b'#') => ((step, 1), rest.get(1..)?),
        Some(b'b') => ((step, -1), rest.get(1..)?),
        _ => ((step, 0), rest),
    })
}

const fn style(style: BarStyle) -> &'static str {
    match style {
        BarStyle::None | BarStyle::Hidden => "none",
        BarStyle::Single => "regular",
        BarStyle::Double => "light-light",
        BarStyle::Final => "light-heavy",
        BarStyle::Initial => "heavy-light",
        BarStyle::Dotted => "dotted",
    }
}

fn list(passes: Passes) -> String {
    let all = (1..=Passes::MAX).filter(|&pass| passes.contains(pass));
    all.map(|pass| pass.to_string()).collect::<Vec<_>>().join(",")
}

//! Header, keys, metres, clefs, speeds.

use super::super::header::{ABC_FIELD, PARTS};
use super::xml::Xml;
use crate::notation::Value;
use modewright_core::tune::{Clef, ClefSign, FormSign, Tempo, WrittenKey};
use modewright_core::{Alter, Length, Metre, MetreSign, Mode, Step, Tune};

/// Titles, names and other words.
pub(super) fn header(xml: &mut Xml, tune: &Tune) {
    let words = &tune.header;
    if words.number.is_some() || !words.titles.is_empty() {
        xml.open("work", &[]);
        if let Some(number) = &words.number {
            xml.leaf("work-number", number);
        }
        if let Some(title) = words.titles.first() {
            xml.leaf("work-title", title);
        }
        xml.close("work");
    }
    xml.open("identification", &[]);
    for name in &words.composer {
        xml.leaf_with("creator", &[("type", "composer")], name);
    }
    for name in &words.transcriber {
        xml.leaf_with("creator", &[("type", "transcriber")], name);
    }
    let is_abc = |field: &str| matches!(field.as_bytes(), [letter] if letter.is_ascii_alphabetic());
    for (role, name) in words.other.iter().filter(|(f, _)| !is_abc(f) && f != "rights") {
        xml.leaf_with("creator", &[("type", role)], name);
    }
    for (_, text) in words.other.iter().filter(|(f, _)| f == "rights") {
        xml.leaf("rights", text);
    }
    xml.open("encoding", &[]);
    xml.leaf("software", concat!("Modewright ", env!("CARGO_PKG_VERSION")));
    xml.close("encoding");
    if let Some(source) = words.source.first() {
        xml.leaf("source", source);
    }
    let mut fields: Vec<(String, String)> = Vec::new();
    let rhythm: Vec<String> = words.rhythm.iter().cloned().collect();
    for (name, texts) in [
        ("title", words.titles.get(1..).unwrap_or(&[])),
        ("source", words.source.get(1..).unwrap_or(&[])),
        ("origin", &words.origin),
        ("book", &words.book),
        ("rhythm", &rhythm),
        ("notes", &words.notes),
        ("words", &words.words),
    ] {
        fields.extend(texts.iter().map(|text| (name.to_owned(), text.clone())));
    }
    for (field, text) in words.other.iter().filter(|(f, _)| is_abc(f)) {
        fields.push((format!("{ABC_FIELD}{field}"), text.clone()));
    }
    if !tune.part_order.is_empty() {
        fields.push((PARTS.to_owned(), tune.part_order.concat()));
    }
    if !fields.is_empty() {
        xml.open("miscellaneous", &[]);
        for (name, text) in fields {
            xml.leaf_with("miscellaneous-field", &[("name", &name)], &text);
        }
        xml.close("miscellaneous");
    }
    xml.close("identification");
}

/// A key: a signature with its mode, a signature alone, or a list of accidentals.
pub(super) fn key(xml: &mut Xml, key: &WrittenKey) {
    xml.open("key", &[]);
    match key.signature() {
        Some(signature) => {
            xml.leaf("fifths", &signature.fifths().to_string());
            let plain = key.key().filter(|k| k.signature() == Ok(signature));
            if let Some(home) = plain {
                xml.leaf("mode", mode(home.mode));
            }
        }
        None => {
            for step in Step::ALL {
                let alter = key.alter(step);
                if alter != Alter::NATURAL {
                    xml.leaf("key-step", &step.to_string());
                    xml.leaf("key-alter", &alter.semitones().to_string());
                }
            }
        }
    }
    xml.close("key");
}

/// Programs know major and minor better than their other names.
const fn mode(mode: Mode) -> &'static str {
    match mode {
        Mode::Ionian => "major",
        Mode::Aeolian => "minor",
        other => other.name(),
    }
}

pub(super) fn metre(xml: &mut Xml, metre: Metre) {
    let symbol = match metre.sign() {
        MetreSign::Common => Some(("symbol", "common")),
        MetreSign::Cut => Some(("symbol", "cut")),
        MetreSign::Numbers => None,
    };
    let attributes: Vec<_> = symbol.into_iter().collect();
    xml.open("time", &attributes);
    if metre.is_free() {
        xml.empty("senza-misura", &[]);
    } else {
        let groups: Vec<String> = metre.groups().iter().map(ToString::to_string).collect();
        xml.leaf("beats", &groups.join("+"));
        xml.leaf("beat-type", &metre.lower().to_string());
    }
    xml.close("time");
}

pub(super) fn clef(xml: &mut Xml, clef: Clef) {
    xml.open("clef", &[]);
    let sign = match clef.sign {
        ClefSign::Treble => "G",
        ClefSign::Alto | ClefSign::Tenor => "C",
        ClefSign::Bass => "F",
        ClefSign::Percussion => "percussion",
        ClefSign::None => "none",
    };
    xml.leaf("sign", sign);
    if !matches!(clef.sign, ClefSign::Percussion | ClefSign::None) {
        xml.leaf("line", &clef.line.to_string());
    }
    if clef.octave != 0 {
        xml.leaf("clef-octave-change", &clef.octave.to_string());
    }
    xml.close("clef");
}

/// Steps of the stave that belong to semitones, up to an octave.
const STEPS: [i32; 12] = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];

/// What to add to the written pitch to get the sounding one; the octave of the clef is in the
/// pitches already.
pub(super) fn transpose(xml: &mut Xml, shift: i16, clef: Clef) {
    let shift = i32::from(shift) - 12 * i32::from(clef.octave);
    if shift == 0 {
        return;
    }
    let (octaves, semitones) = (shift / 12, shift % 12);
    let steps = STEPS.get(semitones.unsigned_abs() as usize).copied().unwrap_or(0);
    xml.open("transpose", &[]);
    xml.leaf("diatonic", &(steps * semitones.signum()).to_string());
    xml.leaf("chromatic", &semitones.to_string());
    if octaves != 0 {
        xml.leaf("octave-change", &octaves.to_string());
    }
    xml.close("transpose");
}

/// A direction with what it says.
pub(super) fn direction(xml: &mut Xml, placement: &str, inner: impl FnOnce(&mut Xml)) {
    xml.open("direction", &[("placement", placement)]);
    xml.open("direction-type", &[]);
    inner(xml);
    xml.close("direction-type");
    xml.close("direction");
}

/// A sign of the form: printed, and told to programs that play.
pub(super) fn form(xml: &mut Xml, sign: FormSign) {
    let (attribute, value) = match sign {
        FormSign::Segno => ("segno", "segno"),
        FormSign::Coda => ("coda", "coda"),
        FormSign::ToCoda => ("tocoda", "coda"),
        FormSign::Fine => ("fine", "yes"),
        FormSign::DaCapo(_) => ("dacapo", "yes"),
        FormSign::DalSegno(_) => ("dalsegno", "segno"),
    };
    xml.open("direction", &[("placement", "above")]);
    xml.open("direction-type", &[]);
    match sign {
        FormSign::Segno | FormSign::Coda => xml.empty(sign.name(), &[]),
        _ => xml.leaf("words", sign.words()),
    }
    xml.close("direction-type");
    xml.empty("sound", &[(attribute, value)]);
    xml.close("direction");
}

pub(super) fn tempo(xml: &mut Xml, tempo: &Tempo) {
    let beat = tempo.beat.iter().try_fold(Length::ZERO, |sum, &beat| sum.plus(beat).ok());
    let beat = beat.filter(|beat| !beat.is_zero());
    let count = tempo.per_minute.zip(beat);
    if tempo.words.is_none() && count.is_none() {
        return;
    }
    xml.open("direction", &[("placement", "above")]);
    if let Some(words) = &tempo.words {
        xml.open("direction-type", &[]);
        xml.leaf_with("words", &[("font-weight", "bold")], words);
        xml.close("direction-type");
    }
    let value = count.and_then(|(_, beat)| Value::of(beat));
    if let (Some(value), Some((count, _))) = (value, count) {
        xml.open("direction-type", &[]);
        xml.open("metronome", &[]);
        xml.leaf("beat-unit", value.name());
        for _ in 0..value.dots {
            xml.empty("beat-unit-dot", &[]);
        }
        xml.leaf("per-minute", &count.to_string());
        xml.close("metronome");
        xml.close("direction-type");
    } else if tempo.words.is_none() {
        // A direction shows something: the number, where the beat is no note value.
        let count = count.map_or(0, |(count, _)| count);
        xml.open("direction-type", &[]);
        xml.leaf_with("words", &[("font-weight", "bold")], &count.to_string());
        xml.close("direction-type");
    }
    if let Some((count, beat)) = count {
        xml.empty("sound", &[("tempo", &crotchets(count, beat))]);
    }
    xml.close("direction");
}

/// Crotchets a minute, with two decimals at most.
fn crotchets(count: u32, beat: Length) -> String {
    let over = u64::from(count) * u64::from(beat.numerator()) * 400;
    let hundredths = over / u64::from(beat.denominator());
    let (whole, part) = (hundredths / 100, hundredths % 100);
    let text = format!("{whole}.{part:02}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

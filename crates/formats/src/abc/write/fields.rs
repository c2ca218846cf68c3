//! Fields: words about the tune, metre, key, speed.

use super::escape;
use crate::abc::metre::read_unit;
use crate::abc::spelled::sign;
use crate::report::Report;
use crate::source::is_music;
use modewright_core::tune::{Clef, KeyForm, Tempo, WrittenKey};
use modewright_core::{Alter, Length, Metre, MetreSign, Mode, Signature, Step, Tune};
use std::fmt::Write;

/// The fields before the music.
pub(super) fn header(tune: &Tune, unit: Length) -> String {
    let words = &tune.header;
    let mut out = String::new();
    let mut line = |field: &str, text: &str| {
        let mut text = escape::text(text, "");
        // A field by the letter of a note, with bar lines in it, would be read as music.
        if matches!(field.as_bytes(), [b'A'..=b'G' | b'a'..=b'g'])
            && is_music(format!("{field}:{text}").as_bytes())
        {
            text = text.replace('|', "\\u007c");
        }
        if !text.is_empty() {
            out.push_str(field);
            out.push(':');
            out.push_str(&text);
            out.push('\n');
        }
    };
    line("X", words.number.as_deref().unwrap_or("1"));
    for (field, texts) in [
        ("T", &words.titles),
        ("C", &words.composer),
        ("O", &words.origin),
        ("B", &words.book),
        ("S", &words.source),
        ("N", &words.notes),
        ("Z", &words.transcriber),
    ] {
        for text in texts {
            line(field, text);
        }
    }
    let is_field =
        |field: &str| matches!(field.as_bytes(), [letter] if letter.is_ascii_alphabetic());
    // Before the others, which keep their order: of two rhythms the first is the tune's.
    if let Some(rhythm) = &words.rhythm {
        line("R", rhythm);
    }
    for (field, text) in words.other.iter().filter(|(field, _)| is_field(field)) {
        line(field, text);
    }
    line("M", &metre(tune.metre));
    line("L", &unit.to_string());
    if let Some(tempo) = &tune.tempo {
        // Already escaped as far as it needs to be.
        out.push_str(&format!("Q:{}\n", speed(tempo, "")));
    }
    let parts: String = tune.part_order.concat();
    if !parts.is_empty() && tune.part_order.iter().all(|p| matches!(p.as_bytes(), [b'A'..=b'Z'])) {
        out.push_str(&format!("P:{parts}\n"));
    }
    let shift = i32::from(tune.sounding_shift) - i32::from(tune.clef.octave) * 12;
    let first = tune.keys.first().copied().unwrap_or_default();
    let mut text = key(&first);
    if tune.clef != Clef::default() {
        text.push_str(&format!(" clef={}", tune.clef));
    }
    if shift != 0 {
        text.push_str(&format!(" transpose={shift}"));
    }
    out.push_str(&format!("K:{text}\n"));
    out
}

/// The unit length: the tune's own where it may be written; else a crotchet where every length is
/// whole in it, else a quaver.
pub(super) fn unit(tune: &Tune) -> Length {
    let allowed =
        |unit: &Length| read_unit(&unit.to_string(), 0, &mut Report::default()) == Some(*unit);
    let crotchets = !tune.events.is_empty()
        && tune.events.iter().all(|e| Length::CROTCHET.divides(e.length).is_some());
    let usual = if crotchets { Length::CROTCHET } else { Length::QUAVER };
    tune.unit.filter(allowed).unwrap_or(usual)
}

pub(super) fn metre(metre: Metre) -> String {
    match (metre.sign(), metre.upper(), metre.lower()) {
        (MetreSign::Common, 4, 4) => "C".to_owned(),
        (MetreSign::Cut, 2, 2) => "C|".to_owned(),
        _ if metre.is_free() => "none".to_owned(),
        _ => metre.to_string(),
    }
}

/// A speed; `also` are further characters to escape in its words.
pub(super) fn speed(tempo: &Tempo, also: &str) -> String {
    let mut out = String::new();
    if let Some(words) = &tempo.words {
        out = format!("\"{}\"", escape::text(words, &format!("\"{also}")));
    }
    if let Some(count) = tempo.per_minute.filter(|_| !tempo.beat.is_empty()) {
        for beat in &tempo.beat {
            let blank = if out.is_empty() { "" } else { " " };
            out.push_str(&format!("{blank}{}/{}", beat.numerator(), beat.denominator()));
        }
        out.push_str(&format!("={count}"));
    }
    out
}

/// A key as `K:` states it.
///
/// A signature without home is a list of accidentals: to name a home would claim more than the
/// tune says.
pub(super) fn key(key: &WrittenKey) -> String {
    let mut out = match (key.form, key.key()) {
        (KeyForm::PipesBare, _) => return "HP".to_owned(),
        (KeyForm::PipesMarked, _) => return "Hp".to_owned(),
        (KeyForm::Standard | KeyForm::Modified, Some(home)) => {
            let mode = match home.mode {
                Mode::Ionian => "",
                Mode::Dorian => "dor",
                Mode::Phrygian => "phr",
                Mode::Lydian => "lyd",
                Mode::Mixolydian => "mix",
                Mode::Aeolian => "m",
                Mode::Locrian => "loc",
            };
            let plain = home.signature().unwrap_or_default();
            let mut out = format!("{}{mode}", home.home);
            accidentals(key.alters, plain, &mut out);
            if key.form == KeyForm::Modified && key.alters == plain.alters() {
                // It adds what was there already.
                out.push_str(&accidental(Step::C, key.alter(Step::C)));
            }
            return out;
        }
        (KeyForm::None, _) => return "none".to_owned(),
        _ if key.form == KeyForm::SignatureOnly && key.alters == [Alter::NATURAL; 7] => {
            return "none".to_owned();
        }
        _ => key.home.map_or_else(String::new, |home| format!("{home} ")) + "exp",
    };
    accidentals(key.alters, Signature::NATURAL, &mut out);
    out
}

fn accidentals(alters: [Alter; 7], from: Signature, out: &mut String) {
    for step in Step::ALL {
        let alter = alters.get(usize::from(step.index())).copied().unwrap_or_default();
        if alter != from.alter(step) {
            out.push_str(&accidental(step, alter));
        }
    }
}

fn accidental(step: Step, alter: Alter) -> String {
    format!(" {}{}", sign(alter), step.to_string().to_lowercase())
}

/// A length in units, as it stands after a note: nothing, `2`, `/`, `3/2`.
pub(super) fn length(length: Length, unit: Length) -> String {
    let ratio = length.times(unit.denominator(), unit.numerator()).unwrap_or(Length::SEMIBREVE);
    let mut out = String::new();
    if ratio.numerator() != 1 {
        let _ = write!(out, "{}", ratio.numerator());
    }
    match ratio.denominator() {
        1 => {}
        2 if ratio.numerator() == 1 => out.push('/'),
        under => {
            let _ = write!(out, "/{under}");
        }
    }
    out
}

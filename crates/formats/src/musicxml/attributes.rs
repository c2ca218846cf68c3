//! Keys, metres, clefs, transposition.

use super::MusicXmlProblem as P;
use super::score::{child, elements, said, text};
use crate::names;
use crate::report::{Report, excerpt, span};
use modewright_core::tune::{Clef, ClefSign, KeyForm, WrittenKey};
use modewright_core::{Alter, Key, Metre, MetreSign, Mode, Signature, Spelling, Step};
use roxmltree::Node;

/// Reads a key.
///
/// Without a mode, or with the mode `none`, it is a signature and names no home.
pub(super) fn key(node: Node<'_, '_>, report: &mut Report) -> WrittenKey {
    let range = node.range();
    let place = span(range.start, range.end);
    let Some(fifths) = text(node, "fifths") else { return listed(node, place) };
    let number = fifths.parse::<i32>().ok();
    let Some(signature) = number.and_then(|n| Signature::new(n).ok()) else {
        let found = excerpt(fifths);
        report.add(range.start, range.end, P::Fifths { found }.into());
        return WrittenKey { span: place, ..WrittenKey::default() };
    };
    let plain = WrittenKey {
        form: KeyForm::SignatureOnly,
        alters: signature.alters(),
        span: place,
        ..WrittenKey::default()
    };
    let said = text(node, "mode").filter(|mode| !mode.eq_ignore_ascii_case("none"));
    let Some(said) = said else { return plain };
    match names::mode(said).ok().and_then(|mode| home(signature, mode)) {
        Some(key) => WrittenKey { span: place, ..WrittenKey::from_key(key) },
        None => {
            report.add(range.start, range.end, P::Mode { found: excerpt(said) }.into());
            plain
        }
    }
}

/// The key of a signature and a mode.
fn home(signature: Signature, mode: Mode) -> Option<Key> {
    let home = Spelling::from_fifths(i32::from(signature.fifths()) - mode.fifths()).ok()?;
    Some(Key::new(home, mode))
}

/// A signature that lists its accidentals.
fn listed(node: Node<'_, '_>, span: modewright_core::tune::Span) -> WrittenKey {
    let mut key = WrittenKey { form: KeyForm::Explicit, span, ..WrittenKey::default() };
    let mut step = None;
    for inner in node.children().filter(Node::is_element) {
        let said = inner.text().unwrap_or_default().trim();
        match inner.tag_name().name() {
            "key-step" => step = said.chars().next().and_then(Step::from_letter),
            "key-alter" => {
                // No sign of a signature is more than double.
                let alter = said.parse::<i32>().ok().map(|n| n.clamp(-2, 2));
                let alter = alter.and_then(|n| Alter::new(n).ok());
                let slot = step.take().and_then(|s| key.alters.get_mut(usize::from(s.index())));
                if let (Some(slot), Some(alter)) = (slot, alter) {
                    *slot = alter;
                }
            }
            _ => {}
        }
    }
    if key.alters == [Alter::NATURAL; 7] {
        key.form = KeyForm::None;
    }
    key
}

/// Reads a metre: one pair of numbers, sums above the line, or several pairs over one number.
pub(super) fn metre<'a>(node: Node<'a, 'a>, report: &mut Report) -> Metre {
    if child(node, "senza-misura").is_some() {
        return Metre::FREE;
    }
    let mut groups: Vec<u32> = Vec::new();
    let mut value: Option<u32> = None;
    let mut understood = true;
    let mut written = String::new();
    for inner in elements(node) {
        match inner.tag_name().name() {
            "beats" => {
                written.push_str(said(inner));
                for part in said(inner).split('+') {
                    match part.trim().parse() {
                        Ok(number) if groups.len() < Metre::MAX_GROUPS => groups.push(number),
                        _ => understood = false,
                    }
                }
            }
            "beat-type" => {
                written.push_str(&format!("/{} ", said(inner)));
                let number = said(inner).parse().ok();
                understood &= number.is_some() && value.is_none_or(|v| Some(v) == number);
                value = number;
            }
            _ => {}
        }
    }
    let metre = value.filter(|_| understood).and_then(|v| Metre::new(&groups, v).ok());
    let Some(metre) = metre else {
        let range = node.range();
        report.add(range.start, range.end, P::Metre { found: excerpt(&written) }.into());
        return Metre::FREE;
    };
    match (node.attribute("symbol"), metre.upper(), metre.lower()) {
        (Some("common"), 4, 4) => metre.with_sign(MetreSign::Common),
        (Some("cut"), 2, 2) => metre.with_sign(MetreSign::Cut),
        _ => metre,
    }
}

/// Reads a clef; the treble clef for a sign that is none of ours.
pub(super) fn clef<'a>(node: Node<'a, 'a>) -> Clef {
    let line = text(node, "line").and_then(|line| line.parse::<u8>().ok());
    let sign = match (text(node, "sign").unwrap_or_default(), line) {
        ("F", _) => ClefSign::Bass,
        ("C", Some(4)) => ClefSign::Tenor,
        ("C", _) => ClefSign::Alto,
        ("percussion", _) => ClefSign::Percussion,
        ("none" | "TAB", _) => ClefSign::None,
        _ => ClefSign::Treble,
    };
    let mut clef = Clef::new(sign).on_line(line.unwrap_or(0));
    let octave = text(node, "clef-octave-change").and_then(|o| o.parse::<i8>().ok());
    clef.octave = octave.unwrap_or(0).clamp(-1, 1);
    clef
}

/// Semitones from the written pitch to the sounding one; no more than ABC can say.
pub(super) fn transpose<'a>(node: Node<'a, 'a>) -> i16 {
    let number = |name| text(node, name).and_then(|t| t.parse::<f32>().ok()).unwrap_or(0.0);
    let whole = |number: f32| {
        #[expect(clippy::cast_possible_truncation, reason = "clamped to what fits")]
        let whole = number.clamp(-60.0, 60.0) as i16;
        whole
    };
    (whole(number("chromatic")) + 12 * whole(number("octave-change"))).clamp(-60, 60)
}

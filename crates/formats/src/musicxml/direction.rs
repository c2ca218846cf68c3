//! What stands above and below the stave: speeds, words, parts, chord signs.

use super::score::{child, elements, said, text};
use super::signs;
use crate::notation::Value;
use modewright_core::Length;
use modewright_core::tune::{FormSign, MarkKind, Place, Tempo, Until};
use roxmltree::Node;

/// What a direction says.
pub(super) fn read<'a>(node: Node<'a, 'a>) -> Vec<MarkKind> {
    let mut marks = Vec::new();
    let mut words: Vec<(&str, bool)> = Vec::new();
    let mut tempo: Option<Tempo> = None;
    for inner in elements(node).filter(|n| n.tag_name().name() == "direction-type") {
        for said_in in elements(inner) {
            match said_in.tag_name().name() {
                "words" if !said(said_in).is_empty() => {
                    let bold = said_in.attribute("font-weight") == Some("bold");
                    words.push((said(said_in), bold));
                }
                "metronome" => tempo = metronome(said_in).or(tempo),
                "rehearsal" if !said(said_in).is_empty() => {
                    marks.push(MarkKind::Part(said(said_in).to_owned()));
                }
                "segno" => marks.push(MarkKind::Sign("segno".to_owned())),
                "coda" => marks.push(MarkKind::Sign("coda".to_owned())),
                "dynamics" => {
                    let names = elements(said_in).map(|n| n.tag_name().name());
                    let known = names.filter(|name| signs::DYNAMICS.contains(name));
                    marks.extend(known.map(|name| MarkKind::Sign(name.to_owned())));
                }
                _ => {}
            }
        }
    }
    if let Some(sound) = child(node, "sound") {
        tempo = tempo.or_else(|| self::sound(sound));
        form(sound, &words, &mut marks);
    }
    // Bold words above the stave are a speed, as printed music has it.
    let above = node.attribute("placement") != Some("below");
    let is_sign = |(words, _): &(&str, bool)| FormSign::from_words(words).is_some();
    let (signs, words): (Vec<_>, Vec<_>) = words.into_iter().partition(is_sign);
    let mut said = words.into_iter();
    if let Some(tempo) = &mut tempo {
        tempo.words = said.next().map(|(words, _)| words.to_owned());
    }
    for (words, bold) in said.chain(signs) {
        let words = words.to_owned();
        if let Some(sign) = FormSign::from_words(&words) {
            marks.push(MarkKind::Sign(sign.name().to_owned()));
        } else if bold && above && tempo.is_none() {
            tempo = Some(Tempo { beat: Vec::new(), per_minute: None, words: Some(words) });
        } else {
            let place = if above { Place::Above } else { Place::Below };
            marks.push(MarkKind::Text { place, text: words });
        }
    }
    marks.extend(tempo.map(MarkKind::Tempo));
    marks
}

/// The signs that a sound element says, where the words and signs about it do not say them.
pub(super) fn form(sound: Node<'_, '_>, words: &[(&str, bool)], marks: &mut Vec<MarkKind>) {
    use FormSign::{Coda, DaCapo, DalSegno, Fine, Segno, ToCoda};
    let back = |sign: FormSign| matches!(sign, DaCapo(_) | DalSegno(_));
    for (attribute, sign) in [
        ("dacapo", DaCapo(Until::Unsaid)),
        ("dalsegno", DalSegno(Until::Unsaid)),
        ("fine", Fine),
        ("tocoda", ToCoda),
        ("segno", Segno),
        ("coda", Coda),
    ] {
        if sound.attribute(attribute).is_none_or(|said| said == "no") {
            continue;
        }
        let same = |said: FormSign| said == sign || back(said) && back(sign);
        let mut printed = words.iter().filter_map(|(words, _)| FormSign::from_words(words));
        if printed.any(same) {
            continue;
        }
        let kind = |sign: FormSign| MarkKind::Sign(sign.name().to_owned());
        // The sign at the way to the coda looks like the coda's own.
        let coda = marks.iter_mut().find(|mark| sign == ToCoda && **mark == kind(Coda));
        if let Some(coda) = coda {
            *coda = kind(ToCoda);
        } else if !marks.contains(&kind(sign)) {
            marks.push(kind(sign));
        }
    }
}

/// Whether a mark is a sign of the form, which is meant for all staves.
pub(super) fn is_form(kind: &MarkKind) -> bool {
    match kind {
        MarkKind::Sign(words) | MarkKind::Text { text: words, .. } => {
            FormSign::from_words(words).is_some()
        }
        _ => false,
    }
}

/// The speed of a sound element, in crotchets a minute.
pub(super) fn sound(node: Node<'_, '_>) -> Option<Tempo> {
    let count = count(node.attribute("tempo")?)?;
    Some(Tempo { beat: vec![Length::CROTCHET], per_minute: Some(count), words: None })
}

fn metronome<'a>(node: Node<'a, 'a>) -> Option<Tempo> {
    let kind = text(node, "beat-unit")?;
    let dots = elements(node).filter(|n| n.tag_name().name() == "beat-unit-dot").count();
    let beat = Value::named(kind, u8::try_from(dots).ok()?.min(4))?.length();
    let per_minute = count(text(node, "per-minute")?)?;
    Some(Tempo { beat: vec![beat], per_minute: Some(per_minute), words: None })
}

/// The first whole number of a text: `120`, `c. 120`, `119.8`.
fn count(text: &str) -> Option<u32> {
    let from = text.find(|c: char| c.is_ascii_digit())?;
    let rest = text.get(from..)?;
    let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
    let count: u32 = rest.get(..digits)?.parse().ok()?;
    let half = rest.get(digits..)?.starts_with('.')
        && rest.as_bytes().get(digits + 1).is_some_and(|b| matches!(b, b'5'..=b'9'));
    let count = count.saturating_add(u32::from(half));
    (1..=9999).contains(&count).then_some(count)
}

/// A harmony as a chord sign: its root, what follows it, its bass.
pub(super) fn harmony<'a>(node: Node<'a, 'a>) -> Option<MarkKind> {
    let note = |node: Node<'a, 'a>, step: &str, alter: &str| -> Option<String> {
        let sign = match text(node, alter).unwrap_or("0") {
            "1" => "#",
            "-1" => "b",
            "2" => "##",
            "-2" => "bb",
            _ => "",
        };
        Some(format!("{}{sign}", text(node, step)?))
    };
    let mut sign = note(child(node, "root")?, "root-step", "root-alter")?;
    if let Some(kind) = child(node, "kind") {
        let usual = KINDS.iter().find(|&&(_, name)| name == said(kind)).map(|&(short, _)| short);
        sign.push_str(kind.attribute("text").or(usual).unwrap_or_default());
    }
    if let Some(bass) = child(node, "bass").and_then(|b| note(b, "bass-step", "bass-alter")) {
        sign.push('/');
        sign.push_str(&bass);
    }
    Some(MarkKind::ChordSign(sign))
}

/// What stands after the root of a chord sign, and the kind that MusicXML calls it.
pub(super) const KINDS: [(&str, &str); 14] = [
    ("", "major"),
    ("m", "minor"),
    ("7", "dominant"),
    ("maj7", "major-seventh"),
    ("m7", "minor-seventh"),
    ("dim", "diminished"),
    ("aug", "augmented"),
    ("dim7", "diminished-seventh"),
    ("m7b5", "half-diminished"),
    ("6", "major-sixth"),
    ("m6", "minor-sixth"),
    ("9", "dominant-ninth"),
    ("sus4", "suspended-fourth"),
    ("sus2", "suspended-second"),
];

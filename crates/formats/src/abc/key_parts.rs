//! What may follow the mode in `K:`, and the name in `V:`: accidentals, clef, octave,
//! transposition.

use crate::ProblemKind;
use crate::piece::cut;
use crate::report::{Report, excerpt};
use modewright_core::tune::{Clef, ClefSign};
use modewright_core::{Alter, Step};

/// The parts that were found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct KeyParts {
    /// Accidentals in the order of the text.
    pub(super) accidentals: Vec<(Step, Alter)>,
    /// Where each of them stands.
    pub(super) places: Vec<(usize, usize)>,
    /// The clef.
    pub(super) clef: Option<Clef>,
    /// Octaves that the letters are moved by.
    pub(super) octave: Option<i32>,
    /// Semitones from the written pitch to the sounding one.
    pub(super) transpose: Option<i16>,
}

/// The most octaves that `octave=` moves notes by.
const MOST_OCTAVES: i32 = 6;
/// The most semitones that `transpose=` moves notes by.
const MOST_SEMITONES: i32 = 60;

/// Whether a word is a clef or `name=value`.
pub(super) fn is_part(word: &str) -> bool {
    let name = word.split_once('=').map(|(name, _)| name);
    name.is_some_and(|name| !name.is_empty() && name.bytes().all(|b| b.is_ascii_alphabetic()))
        || clef(word).is_some()
        || octave_mark(word).is_some()
}

/// Reads the parts; each that has no meaning is a problem.
pub(super) fn read_parts(text: &str, at: usize, report: &mut Report) -> KeyParts {
    let mut parts = KeyParts::default();
    let mut rest = text;
    loop {
        rest = rest.trim_start();
        if rest.is_empty() {
            return parts;
        }
        let start = at + text.len() - rest.len();
        let (word, after) = word(rest);
        rest = after;
        if word.starts_with(['^', '_', '=']) {
            accidentals(word, start, &mut parts, report);
        } else if let Some((name, value)) = word.split_once('=') {
            setting(name, value.trim_matches('"'), start, word.len(), &mut parts, report);
        } else if let Some(clef) = clef(word) {
            parts.clef = Some(clef);
        } else if let Some(octave) = octave_mark(word) {
            parts.clef.get_or_insert_default().octave = octave;
        } else {
            let kind = ProblemKind::KeyPartIgnored { found: excerpt(word) };
            report.add(start, start + word.len(), kind);
        }
    }
}

/// Up to the next blank outside quotation marks.
fn word(text: &str) -> (&str, &str) {
    let mut quoted = false;
    let end = text.bytes().position(|b| {
        quoted ^= b == b'"';
        !quoted && b.is_ascii_whitespace()
    });
    cut(text, end.unwrap_or(text.len()))
}

/// `^f`, `__b` and several in a row.
fn accidentals(word: &str, at: usize, parts: &mut KeyParts, report: &mut Report) {
    let mut rest = word;
    while !rest.is_empty() {
        let signs = rest.bytes().take_while(|b| matches!(b, b'^' | b'_' | b'=')).count();
        let (sign, after) = cut(rest, signs);
        let alter = match sign {
            "^" => Some(Alter::SHARP),
            "^^" => Some(Alter::DOUBLE_SHARP),
            "_" => Some(Alter::FLAT),
            "__" => Some(Alter::DOUBLE_FLAT),
            "=" => Some(Alter::NATURAL),
            _ => None,
        };
        let step = after.chars().next().and_then(Step::from_letter);
        let (Some(alter), Some(step)) = (alter, step) else {
            let start = at + word.len() - rest.len();
            let kind = ProblemKind::KeyPartIgnored { found: excerpt(rest) };
            report.add(start, start + rest.len(), kind);
            return;
        };
        let start = at + word.len() - rest.len();
        parts.accidentals.push((step, alter));
        parts.places.push((start, start + signs + 1));
        rest = after.get(1..).unwrap_or_default();
    }
}

/// `name=value`; what only changes the page is passed over.
fn setting(
    name: &str,
    value: &str,
    at: usize,
    length: usize,
    parts: &mut KeyParts,
    report: &mut Report,
) {
    let number = |most: i32| value.parse::<i32>().ok().filter(|n| (-most..=most).contains(n));
    let understood = match name.to_ascii_lowercase().as_str() {
        "clef" => {
            parts.clef = clef(value).or(parts.clef);
            if clef(value).is_none() {
                let kind = ProblemKind::ClefUnknown { found: excerpt(value) };
                report.add(at, at + length, kind);
            }
            true
        }
        "octave" => {
            parts.octave = number(MOST_OCTAVES).or(parts.octave);
            number(MOST_OCTAVES).is_some()
        }
        "transpose" | "t" => {
            let semitones = number(MOST_SEMITONES).and_then(|n| i16::try_from(n).ok());
            parts.transpose = semitones.or(parts.transpose);
            semitones.is_some()
        }
        // Everything else is about the page, and so is `middle=` (erratum of February 2013).
        _ => true,
    };
    if !understood {
        let kind = ProblemKind::KeyPartIgnored { found: excerpt(&format!("{name}={value}")) };
        report.add(at, at + length, kind);
    }
}

/// A clef by its name, with its line and its 8: `treble`, `alto1`, `bass-8`.
fn clef(word: &str) -> Option<Clef> {
    const NAMES: [(&str, ClefSign); 7] = [
        ("treble", ClefSign::Treble),
        ("alto", ClefSign::Alto),
        ("tenor", ClefSign::Tenor),
        ("bass", ClefSign::Bass),
        ("percussion", ClefSign::Percussion),
        ("perc", ClefSign::Percussion),
        ("none", ClefSign::None),
    ];
    let (sign, rest) = NAMES.into_iter().find_map(|(name, sign)| {
        let head = word.get(..name.len())?;
        head.eq_ignore_ascii_case(name).then(|| (sign, word.get(name.len()..).unwrap_or_default()))
    })?;
    let mut clef = Clef::new(sign);
    let rest = match rest.as_bytes() {
        [line @ b'1'..=b'5', ..] => {
            clef = clef.on_line(line - b'0');
            rest.get(1..)?
        }
        _ => rest,
    };
    match rest {
        "" => Some(clef),
        // An older way to write treble-8, from memory.
        "8" => Some(Clef { octave: -1, ..clef }),
        _ => octave_mark(rest).map(|octave| Clef { octave, ..clef }),
    }
}

/// An 8 above or below the clef; `8va` and `8vb` are print's own words for it.
fn octave_mark(word: &str) -> Option<i8> {
    match word {
        "+8" | "8va" | "+8va" => Some(1),
        "-8" | "8vb" | "-8va" | "-8vb" => Some(-1),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(text: &str) -> (KeyParts, Vec<&'static str>) {
        let mut report = Report::default();
        let parts = read_parts(text, 0, &mut report);
        (parts, report.finish(text, 1).iter().map(|p| p.kind.code()).collect())
    }

    #[test]
    fn clefs() {
        for name in
            ["treble", "alto", "tenor", "bass", "perc", "none", "treble-8", "bass+8", "alto1"]
        {
            for text in [name.to_owned(), format!("clef={name}"), format!("clef=\"{name}\"")] {
                let (parts, codes) = parts(&text);
                assert_eq!(parts.clef.map(|c| c.to_string()).as_deref(), Some(name));
                assert!(codes.is_empty());
            }
        }
        assert_eq!(parts("clef=wobble"), (KeyParts::default(), vec!["clef-unknown"]));
        assert_eq!(parts("none1").0.clef, parts("none").0.clef);
        assert_eq!(parts("-8va").0.clef.map(|c| c.to_string()).as_deref(), Some("treble-8"));
    }

    #[test]
    fn settings() {
        let (read, codes) = parts("octave=-1 t=-2 middle=d name=\"Small pipes\" stafflines=4");
        assert_eq!((read.octave, read.transpose), (Some(-1), Some(-2)));
        assert!(codes.is_empty());
        for text in [
            "octave=99",
            "octave=-2147483648",
            "t=-2147483648",
            "transpose=x",
            "^",
            "^^^f",
            "^h",
            "wobble",
            "_b^",
        ] {
            assert_eq!(parts(text).1, ["key-part-ignored"], "{text}");
        }
    }
}

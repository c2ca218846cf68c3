//! `Q:`: the speed.

use super::metre::{length, number};
use super::text::decode;
use crate::ProblemKind;
use crate::report::{Report, excerpt};
use modewright_core::Length;
use modewright_core::tune::{FormSign, Tempo};

/// A speed as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct TempoText {
    tempo: Tempo,
    /// Old style: the beat is so many unit lengths.
    units: Option<u32>,
}

impl TempoText {
    /// Takes the words out where they print a sign of the form, like "D.C.".
    pub(super) fn take_sign(&mut self) -> Option<String> {
        self.tempo.words.take_if(|words| FormSign::from_words(words).is_some())
    }

    /// Whether nothing is said of the speed.
    pub(super) const fn is_empty(&self) -> bool {
        self.tempo.words.is_none() && self.tempo.per_minute.is_none()
    }

    /// The speed under a unit length.
    pub(super) fn with_unit(mut self, unit: Length) -> Tempo {
        if let Some(beat) = self.units.and_then(|count| unit.times(count, 1).ok()) {
            self.tempo.beat = vec![beat];
        }
        self.tempo
    }
}

/// The fastest speed that is read, in beats a minute.
const FASTEST: u32 = 9999;
/// The most lengths that make one beat (ABC 2.1, §3.1.8).
const MOST_LENGTHS: usize = 4;

/// Reads the value of `Q:`; `None` where it is empty or not understood.
pub(super) fn read_tempo(text: &str, at: usize, report: &mut Report) -> Option<TempoText> {
    let mut value = text.trim();
    if value.is_empty() {
        return None;
    }
    let mut words = None;
    // Words stand before the speed or after it.
    if let Some((before, said, after)) = quoted(value) {
        words = Some(decode(said)).filter(|said| !said.is_empty());
        value = if before.trim().is_empty() { after.trim() } else { before.trim() };
        if value.is_empty() {
            // Quotation marks around nothing say nothing.
            let tempo = Tempo { beat: Vec::new(), per_minute: None, words: Some(words?) };
            return Some(TempoText { tempo, units: None });
        }
    }
    let Some((beat, units, per_minute)) = speed(value) else {
        let found = excerpt(text);
        report.add(at, at + text.len(), ProblemKind::TempoNotUnderstood { found });
        let words = words?;
        let tempo = Tempo { beat: Vec::new(), per_minute: None, words: Some(words) };
        return Some(TempoText { tempo, units: None });
    };
    if units.is_some() {
        report.add(at, at + text.len(), ProblemKind::TempoOldStyle);
    }
    let tempo = Tempo { beat, per_minute: Some(per_minute), words };
    Some(TempoText { tempo, units })
}

fn quoted(text: &str) -> Option<(&str, &str, &str)> {
    let (before, rest) = text.split_once('"')?;
    let (said, after) = rest.split_once('"').unwrap_or((rest, ""));
    Some((before, said, after))
}

type Speed = (Vec<Length>, Option<u32>, u32);

/// `1/4=120`, `1/4 3/8=40`, and the old `120`, `C=120`, `C3=120`.
fn speed(text: &str) -> Option<Speed> {
    let Some((beat, count)) = text.split_once('=') else {
        return Some((Vec::new(), Some(1), per_minute(text)?));
    };
    let per_minute = per_minute(count)?;
    let mut rest = beat.trim();
    if let Some(units) = rest.strip_prefix(['C', 'c']) {
        let units = if units.is_empty() { 1 } else { number(units)?.0 };
        return Some((Vec::new(), Some(units).filter(|&u| u > 0), per_minute));
    }
    let mut lengths = Vec::new();
    while !rest.is_empty() && lengths.len() < MOST_LENGTHS {
        let (length, after) = length(rest)?;
        lengths.push(length);
        rest = after.trim_start();
    }
    (rest.is_empty() && !lengths.is_empty()).then_some((lengths, None, per_minute))
}

/// A whole number; a fraction or a range after it is dropped.
fn per_minute(text: &str) -> Option<u32> {
    let (count, rest) = number(text.trim())?;
    let plain = rest.is_empty() || rest.starts_with(['.', '-', ' ']);
    (plain && (1..=FASTEST).contains(&count)).then_some(count)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (Option<Tempo>, Vec<&'static str>) {
        let mut report = Report::default();
        let tempo = read_tempo(text, 0, &mut report);
        let codes = report.finish(text, 1).iter().map(|p| p.kind.code()).collect();
        (tempo.map(|t| t.with_unit(Length::QUAVER)), codes)
    }

    #[test]
    fn speeds() {
        let quarter = || vec![Length::CROTCHET];
        let tempo = |beat, per_minute, words: Option<&str>| {
            Some(Tempo { beat, per_minute, words: words.map(str::to_owned) })
        };
        assert_eq!(read("1/4=120"), (tempo(quarter(), Some(120), None), vec![]));
        assert_eq!(read("1/4 = 72.5"), (tempo(quarter(), Some(72), None), vec![]));
        assert_eq!(read("\"Brisk\" 1/4=120").0, tempo(quarter(), Some(120), Some("Brisk")));
        assert_eq!(read("1/4=120 \"Brisk\"").0, tempo(quarter(), Some(120), Some("Brisk")));
        assert_eq!(read("\"Brisk\""), (tempo(vec![], None, Some("Brisk")), vec![]));
        assert_eq!(read("\"Brisk"), (tempo(vec![], None, Some("Brisk")), vec![]));
        let eighth = vec![Length::QUAVER];
        assert_eq!(read("120"), (tempo(eighth.clone(), Some(120), None), vec!["tempo-old-style"]));
        assert_eq!(read("C=120").0, tempo(eighth, Some(120), None));
        assert_eq!(read("C2=60").0, tempo(quarter(), Some(60), None));
        let two = vec![Length::CROTCHET, Length::new(3, 8).unwrap()];
        assert_eq!(read("1/4 3/8=40").0, tempo(two, Some(40), None));
        assert_eq!(read(""), (None, vec![]));
        for text in ["fast", "1/4=", "=120", "1/4=0", "1/0=100", "1/4=99999", "x=3"] {
            assert_eq!(read(text), (None, vec!["tempo-not-understood"]), "{text}");
        }
    }
}

//! What one line tells of a tune.

use super::find::{PlaceAnswer, WrittenAnswer, agreement, pattern, verdict_name, written};
use modewright_core::Tune;
use modewright_core::find::Finding;

/// The part of [`FindAnswer`](super::FindAnswer) that needs no reasons and no strains, for lists of
/// many tunes: it takes a fraction of the time. Its fields are those of the whole answer.
#[derive(Clone, Debug, PartialEq)]
pub struct FindLine {
    /// Where the tune comes from: a file name, or `-`.
    pub source: String,
    /// Its number in its book.
    pub number: Option<String>,
    /// Its title.
    pub title: Option<String>,
    /// Home note; nothing where nothing honest can be said.
    pub home: Option<String>,
    /// Mode, in small letters; nothing without `home`.
    pub mode: Option<&'static str>,
    /// The answer's chance among 12 homes × 7 modes, to four places.
    pub chance: Option<f64>,
    /// `clear`, `open`, `doubtful` or `none`.
    pub verdict: &'static str,
    /// The set of notes used, seen from home.
    pub pattern: Option<&'static str>,
    /// The home of the parent major scale.
    pub parent: Option<String>,
    /// Sharps (positive) or flats (negative) of the answer's signature.
    pub signature: Option<i8>,
    /// The key on the page.
    pub written: Option<WrittenAnswer>,
    /// `yes`, `same_notes`, `no`; nothing without a written home and mode.
    pub agrees: Option<&'static str>,
    /// The lowest note.
    pub lowest: Option<PlaceAnswer>,
    /// The highest note.
    pub highest: Option<PlaceAnswer>,
}

impl FindLine {
    /// What is told of a finding.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::find::find;
    /// use modewright_formats::{ReadOptions, abc, source::TuneText};
    /// use modewright_lesson::answer::FindLine;
    ///
    /// let text = TuneText::abc("X:7\nT:Slack Water\nL:1/4\nK:Ador\nA B c d | e d c B | A4 |]\n");
    /// let tune = abc::read(&text, &ReadOptions::default()).tune;
    /// let line = FindLine::new("-", &tune, &find(&tune));
    /// assert_eq!((line.number.as_deref(), line.home.as_deref()), (Some("7"), Some("A")));
    /// // The key on the page is told beside what was found, whatever that is.
    /// assert_eq!(line.written.and_then(|written| written.mode), Some("dorian"));
    /// ```
    #[must_use]
    pub fn new(source: &str, tune: &Tune, finding: &Finding) -> Self {
        let best = finding.best();
        let key = best.map(|b| b.key);
        let range = finding.range.as_ref();
        Self {
            source: source.to_owned(),
            number: tune.header.number.clone(),
            title: tune.header.titles.first().cloned(),
            home: key.map(|k| k.home.to_string()),
            mode: key.map(|k| k.mode.name()),
            chance: best.map(|b| b.chance.as_f64()),
            verdict: verdict_name(finding.verdict),
            pattern: finding.pattern.map(pattern),
            parent: key.and_then(|k| k.parent().ok()).map(|p| p.home.to_string()),
            signature: key.and_then(|k| k.signature().ok()).map(modewright_core::Signature::fifths),
            written: written(tune),
            agrees: finding.agrees.map(agreement),
            lowest: range.map(|r| PlaceAnswer::new(tune, r.lowest, r.lowest_at)),
            highest: range.map(|r| PlaceAnswer::new(tune, r.highest, r.highest_at)),
        }
    }
}

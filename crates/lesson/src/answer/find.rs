//! The answer of `find`: one object a tune.

use super::{FindLine, SCHEMA};
use crate::words;
use modewright_core::find::{
    Agreement, Evidence, EvidenceKind, Finding, NotePattern, Ranked, StrainFinding, Unsaid, Verdict,
};
use modewright_core::{Interval, Key, Pitch, Position, Tune};
use modewright_formats::{Problem, Severity};
use serde::Serialize;

/// Everything found about one tune.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FindAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// Where the tune comes from: a file name, or `-`.
    pub source: String,
    /// Its number in its book.
    pub number: Option<String>,
    /// Its title.
    pub title: Option<String>,
    /// Home note; `null` where nothing honest can be said.
    pub home: Option<String>,
    /// Mode, in small letters; `null` with `home`.
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
    /// The likeliest candidates, the answer first.
    pub ranked: Vec<RankedAnswer>,
    /// Degrees that never sound, or once in passing, and the modes they leave open.
    pub open: Vec<OpenAnswer>,
    /// Degrees in two forms.
    pub variants: Vec<VariantAnswer>,
    /// The key on the page.
    pub written: Option<WrittenAnswer>,
    /// `yes`, `same_notes`, `no`; `null` without a written home and mode.
    pub agrees: Option<&'static str>,
    /// The notes used, the longest sounding first.
    pub notes: Vec<NoteAnswer>,
    /// The lowest note.
    pub lowest: Option<PlaceAnswer>,
    /// The highest note.
    pub highest: Option<PlaceAnswer>,
    /// The interval between them.
    pub span: Option<SpanAnswer>,
    /// `authentic`, `plagal` or `mixed`.
    pub position: Option<&'static str>,
    /// What each strain on its own would be.
    pub strains: Vec<StrainAnswer>,
    /// The reasons, the weightiest first within each comparison.
    pub evidence: Vec<EvidenceAnswer>,
    /// What was odd about the text.
    pub problems: Vec<ProblemAnswer>,
    /// Semitones from the written pitch to the sounding one.
    pub sounding_shift: i16,
    /// The answer in a learner's words.
    pub words: WordsAnswer,
}

/// A home and a mode.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct KeyAnswer {
    /// Home note.
    pub home: String,
    /// Mode.
    pub mode: &'static str,
}

/// A candidate.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RankedAnswer {
    /// Home note.
    pub home: String,
    /// Mode.
    pub mode: &'static str,
    /// Its chance, to four places.
    pub chance: f64,
}

/// A degree that leaves the mode open.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct OpenAnswer {
    /// The degree, 1 to 7.
    pub degree: u8,
    /// The modes that differ in it.
    pub modes: Vec<&'static str>,
    /// How often it sounds: 0 or 1.
    pub sounds: u32,
}

/// A degree in two forms.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct VariantAnswer {
    /// The degree, 1 to 7.
    pub degree: u8,
    /// Its forms, the mode's own first.
    pub forms: Vec<String>,
    /// Numbers of the bars that each form stands in.
    pub bars: Vec<Vec<u32>>,
}

/// The key on the page.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WrittenAnswer {
    /// Its home.
    pub home: Option<String>,
    /// Its mode.
    pub mode: Option<&'static str>,
    /// Its signature; `null` where its accidentals make no plain one.
    pub signature: Option<i8>,
}

/// A note of the tune.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NoteAnswer {
    /// Its name.
    pub name: String,
    /// Which degree its letter is, 1 to 7; `null` without a home.
    pub degree: Option<u8>,
    /// Its share of the sounding time, to four places.
    pub share: f64,
}

/// A pitch and where it first stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PlaceAnswer {
    /// The written pitch.
    pub pitch: String,
    /// The number of its bar.
    pub bar: u32,
}

/// An interval.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SpanAnswer {
    /// In semitones.
    pub semitones: i16,
    /// In words.
    pub name: String,
}

/// A strain on its own.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StrainAnswer {
    /// Its part name or letter.
    pub label: String,
    /// Number of its first and last bar.
    pub bars: [u32; 2],
    /// Home note.
    pub home: String,
    /// Mode.
    pub mode: &'static str,
    /// Its chance, to four places.
    pub chance: f64,
}

/// A reason.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EvidenceAnswer {
    /// What it speaks of; for a tune that nothing can be said of, why.
    pub kind: &'static str,
    /// The candidate that it speaks for.
    #[serde(rename = "for")]
    pub favours: Option<KeyAnswer>,
    /// The candidate that it speaks against.
    pub against: Option<KeyAnswer>,
    /// How much: a natural logarithm of odds, to two places.
    pub weight: f64,
    /// The reason as a sentence.
    pub text: String,
    /// The notes that it is about, counted from 0 over notes and rests.
    pub notes: Vec<usize>,
}

/// A problem of the text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ProblemAnswer {
    /// A stable code.
    pub code: &'static str,
    /// `note`, `warning` or `error`.
    pub severity: &'static str,
    /// Line in the file, from 1.
    pub line: u32,
    /// Column in the line, from 1.
    pub column: u32,
    /// What was found.
    pub message: String,
    /// A way out.
    pub hint: String,
}

/// The answer in sentences.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct WordsAnswer {
    /// The verdict in one line.
    pub verdict: String,
    /// How sure; `null` where nothing was found.
    pub sure: Option<String>,
    /// How the mode differs from the major or minor that a learner knows.
    pub compared: Option<String>,
    /// The lowest note, for somebody who knows middle C.
    pub lowest: Option<String>,
    /// The highest note.
    pub highest: Option<String>,
    /// Where the tune lies about home.
    pub position: Option<String>,
    /// What is left open, a sentence a degree.
    pub open: Vec<String>,
    /// Double forms, a sentence a degree.
    pub variants: Vec<String>,
    /// What the page says against what was found.
    pub agrees: Option<String>,
    /// Strains that differ from the whole.
    pub strains: Option<String>,
}

impl FindAnswer {
    /// Puts a finding into its shape.
    #[must_use]
    pub fn new(source: &str, tune: &Tune, finding: &Finding, problems: &[Problem]) -> Self {
        let line = FindLine::new(source, tune, finding);
        let strains = finding.strains(tune);
        let has_home = line.home.is_some();
        Self {
            schema: SCHEMA,
            source: line.source,
            number: line.number,
            title: line.title,
            home: line.home,
            mode: line.mode,
            chance: line.chance,
            verdict: line.verdict,
            pattern: line.pattern,
            parent: line.parent,
            signature: line.signature,
            ranked: finding.ranked.iter().copied().map(ranked).collect(),
            open: finding.open.iter().map(open).collect(),
            variants: finding.variants.iter().map(variant).collect(),
            written: line.written,
            agrees: line.agrees,
            notes: finding.notes.iter().map(|n| note(n, has_home)).collect(),
            lowest: line.lowest,
            highest: line.highest,
            span: finding.range.map(|r| SpanAnswer::new(r.span())),
            position: finding.position.map(position),
            strains: strains.iter().map(strain).collect(),
            evidence: evidence(tune, finding),
            problems: problems.iter().map(ProblemAnswer::new).collect(),
            sounding_shift: tune.sounding_shift,
            words: WordsAnswer::of(tune, finding, &strains),
        }
    }
}

impl PlaceAnswer {
    /// A pitch that first stands at an event.
    pub(super) fn new(tune: &Tune, pitch: Pitch, event: usize) -> Self {
        let bar = tune.events.get(event).map_or(0, |e| tune.bar_number(e));
        Self { pitch: pitch.to_string(), bar }
    }
}

impl SpanAnswer {
    /// Puts an interval into its shape.
    pub(super) fn new(span: Interval) -> Self {
        Self { semitones: span.semitones(), name: span.in_words() }
    }
}

impl WordsAnswer {
    /// The sentences for a finding.
    #[must_use]
    pub fn new(tune: &Tune, finding: &Finding) -> Self {
        Self::of(tune, finding, &finding.strains(tune))
    }

    fn of(tune: &Tune, finding: &Finding, strains: &[StrainFinding]) -> Self {
        let verdict = words::headline(finding);
        let range = finding.range.as_ref();
        let lowest = range.map(|r| words::pitch(r.lowest));
        let highest = range.map(|r| words::pitch(r.highest));
        let Some(best) = finding.best() else {
            return Self { verdict, lowest, highest, ..Self::default() };
        };
        Self {
            verdict,
            sure: Some(words::sure_of(best, finding.given)),
            compared: words::compared(best.key),
            lowest,
            highest,
            position: finding.position.map(|p| words::position(p).to_owned()),
            open: finding.open.iter().map(|o| words::open(o, best.key)).collect(),
            variants: finding.variants.iter().map(words::variants).collect(),
            agrees: tune.key().and_then(|k| words::agreement(finding.agrees, k, best.key)),
            strains: words::strains(strains, best.key),
        }
    }
}

impl ProblemAnswer {
    /// Puts a problem into its shape.
    #[must_use]
    pub fn new(problem: &Problem) -> Self {
        let advice = words::problem(&problem.kind);
        Self {
            code: problem.kind.code(),
            severity: match problem.kind.severity() {
                Severity::Note => "note",
                Severity::Warning => "warning",
                Severity::Error => "error",
            },
            line: problem.line,
            column: problem.column,
            message: advice.message,
            hint: advice.hint,
        }
    }
}

fn key_answer(key: Key) -> KeyAnswer {
    KeyAnswer { home: key.home.to_string(), mode: key.mode.name() }
}

fn ranked(r: Ranked) -> RankedAnswer {
    let KeyAnswer { home, mode } = key_answer(r.key);
    RankedAnswer { home, mode, chance: r.chance.as_f64() }
}

fn strain(s: &StrainFinding) -> StrainAnswer {
    let KeyAnswer { home, mode } = key_answer(s.best.key);
    let chance = s.best.chance.as_f64();
    StrainAnswer { label: s.label.clone(), bars: [s.bars.0, s.bars.1], home, mode, chance }
}

fn open(o: &modewright_core::find::Open) -> OpenAnswer {
    let modes = o.modes.iter().map(|m| m.name()).collect();
    OpenAnswer { degree: o.degree, modes, sounds: o.sounds }
}

fn variant(v: &modewright_core::find::Variant) -> VariantAnswer {
    let forms = v.forms.iter().map(ToString::to_string).collect();
    VariantAnswer { degree: v.degree, forms, bars: v.bars.clone() }
}

fn note(n: &modewright_core::find::NoteShare, has_home: bool) -> NoteAnswer {
    NoteAnswer {
        name: n.note.to_string(),
        degree: has_home.then(|| n.degree.number()),
        share: f64::from(n.share) / 10_000.0,
    }
}

/// The key on the page.
pub(super) fn written(tune: &Tune) -> Option<WrittenAnswer> {
    let key = tune.key()?;
    if key.form == modewright_core::tune::KeyForm::None {
        return None;
    }
    Some(WrittenAnswer {
        home: key.home.map(|h| h.to_string()),
        mode: key.mode.map(modewright_core::Mode::name),
        signature: key.signature().map(modewright_core::Signature::fifths),
    })
}

fn evidence(tune: &Tune, finding: &Finding) -> Vec<EvidenceAnswer> {
    if let Some(why) = finding.unsaid {
        return vec![EvidenceAnswer {
            kind: unsaid(why),
            favours: None,
            against: None,
            weight: 0.0,
            text: words::unsaid(why).to_owned(),
            notes: Vec::new(),
        }];
    }
    let answer = |e: &Evidence| EvidenceAnswer {
        kind: kind(e.kind),
        favours: Some(key_answer(e.favours)),
        against: Some(key_answer(e.over)),
        weight: f64::from(e.weight) / 100.0,
        text: words::evidence(e),
        notes: e.events.clone(),
    };
    finding.evidence(tune).iter().map(answer).collect()
}

/// The name of a verdict, as answers have it.
#[must_use]
pub const fn verdict_name(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Clear => "clear",
        Verdict::Open => "open",
        Verdict::Doubtful => "doubtful",
        Verdict::None => "none",
    }
}

pub(super) const fn pattern(pattern: NotePattern) -> &'static str {
    match pattern {
        NotePattern::SevenNote => "seven-note",
        NotePattern::SixNote => "six-note",
        NotePattern::FiveNote => "five-note",
        NotePattern::HarmonicMinor => "harmonic-minor",
        NotePattern::MelodicMinor => "melodic-minor",
        NotePattern::Chromatic => "chromatic",
        NotePattern::Other => "other",
    }
}

pub(super) const fn agreement(agreement: Agreement) -> &'static str {
    match agreement {
        Agreement::Yes => "yes",
        Agreement::SameNotes => "same_notes",
        Agreement::No => "no",
    }
}

const fn position(position: Position) -> &'static str {
    match position {
        Position::Authentic => "authentic",
        Position::Plagal => "plagal",
        Position::Mixed => "mixed",
    }
}

const fn unsaid(why: Unsaid) -> &'static str {
    match why {
        Unsaid::NoNotes => "no_notes",
        Unsaid::OneNote => "one_note",
        Unsaid::TwoNotes => "two_notes",
        Unsaid::NoCentre => "no_centre",
    }
}

const fn kind(kind: EvidenceKind) -> &'static str {
    match kind {
        EvidenceKind::Time => "time",
        EvidenceKind::Stress => "stress",
        EvidenceKind::FirstStrong => "first_strong_note",
        EvidenceKind::Opening => "opening",
        EvidenceKind::LastNote => "last_note",
        EvidenceKind::StrainEnds => "strain_ends",
        EvidenceKind::Cadence => "cadence",
        EvidenceKind::Register => "register",
        EvidenceKind::Triads => "triads",
        EvidenceKind::Forms => "two_forms",
        EvidenceKind::Motif => "motif",
        EvidenceKind::Outside => "notes_outside",
        EvidenceKind::Signature => "signature",
        EvidenceKind::Usual => "usual_mode",
    }
}

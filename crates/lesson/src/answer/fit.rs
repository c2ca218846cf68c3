//! The answer of `fit`: one object a tune and instrument.

use super::SCHEMA;
use crate::words;
use modewright_core::find::Finding;
use modewright_core::fit::{
    self, Awkwardness, Candidate, Elsewhere, Fit, Reason, ReasonKind, TuneNote, Verdict, Why,
};
use modewright_core::instrument::{Certainty, Instrument};
use modewright_core::transpose::key_of;
use modewright_core::{Key, Pitch, Tune};
use serde::Serialize;

/// Where a tune lies on an instrument.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FitAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// Where the tune comes from: a file name, or `-`.
    pub source: String,
    /// Its number in its book.
    pub number: Option<String>,
    /// Its title.
    pub title: Option<String>,
    /// The instrument.
    pub instrument: FitInstrument,
    /// Home note of the tune as it stands; `null` without one.
    pub home: Option<String>,
    /// Mode, in small letters; `null` with `home`.
    pub mode: Option<&'static str>,
    /// `as_written`, `moved`, `folded`, `nowhere` or `no_notes`.
    pub verdict: &'static str,
    /// Every height with a note on the instrument, and the one of the page; the best first.
    pub transpositions: Vec<TranspositionAnswer>,
    /// The semitones of the best height at which missing notes can be folded; `null` where there
    /// is none, or where no note need be missing.
    pub folded: Option<i16>,
    /// Instruments that play the tune where it stands, if this one does not: other sizes first.
    /// Where none plays all of it, the nearest alone.
    pub elsewhere: Vec<ElsewhereAnswer>,
    /// The answer in sentences.
    pub words: FitWords,
}

/// The instrument of an answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct FitInstrument {
    /// A name for programs.
    pub id: String,
    /// A name for people.
    pub name: String,
    /// What it is a size of.
    pub family: String,
    /// Its size or key.
    pub size: String,
    /// Its lowest written note.
    pub lowest: Option<String>,
    /// Its highest written note.
    pub highest: Option<String>,
    /// Semitones from the written pitch to the sounding one.
    pub written_to_sounding: i16,
    /// `published`, `computed`, `memory`, `practice` or `doubtful`.
    pub certainty: &'static str,
    /// The same for a learner: `published` or `usual, unconfirmed`.
    pub standing: &'static str,
    /// What is uncertain or varies.
    pub remarks: Vec<String>,
}

/// The tune at one height.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct TranspositionAnswer {
    /// Semitones from the page, up or down, octaves included.
    pub semitones: i16,
    /// Whole octaves among them: the rest is five semitones down to six up.
    pub octave: i16,
    /// The interval: `M2`, `-P4`.
    pub interval: String,
    /// Home note there; `null` where the tune has none.
    pub home: Option<String>,
    /// Mode, the same at every height.
    pub mode: Option<&'static str>,
    /// Sharps (positive) or flats (negative) there; `null` where there is no plain signature.
    pub signature: Option<i8>,
    /// Notes that cannot be played.
    pub missing: Vec<MissingNoteAnswer>,
    /// Notes that are awkward.
    pub awkward: Vec<AwkwardAnswer>,
    /// The lowest written note.
    pub lowest: String,
    /// The highest written note.
    pub highest: String,
    /// What the lowest note sounds as.
    pub sounding_lowest: Option<String>,
    /// What the highest note sounds as.
    pub sounding_highest: Option<String>,
    /// How many notes lie outside the comfortable span.
    pub outside: u32,
    /// What it costs, in tenths of a semitone's move; 10 000 and more where notes are missing.
    pub cost: u32,
    /// What the cost is made of.
    pub reasons: Vec<ReasonAnswer>,
    /// Whether notes are missing that another octave would bring onto the instrument, all of them.
    pub foldable: bool,
    /// The height in a line: key, way, range, signature, and what there is to mind.
    pub text: String,
}

/// A note that cannot be played.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MissingNoteAnswer {
    /// Its written pitch.
    pub pitch: String,
    /// How often it sounds.
    pub count: u32,
    /// The bars that it begins in.
    pub bars: Vec<u32>,
    /// `below`, `above`, `absent` or `unconfirmed`.
    pub why: &'static str,
    /// The octaves that bring it onto the instrument; 0 where none do.
    pub fold: i8,
}

/// A note that is awkward.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct AwkwardAnswer {
    /// Its written pitch.
    pub pitch: String,
    /// How often it sounds.
    pub count: u32,
    /// The bars that it begins in.
    pub bars: Vec<u32>,
    /// `half_hole`, `bend` or `hard`.
    pub why: &'static str,
}

/// A part of a cost.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ReasonAnswer {
    /// `missing`, `awkward`, `fair`, `outside`, `distance`, `key` or `signature`.
    pub kind: &'static str,
    /// How many notes, semitones, sharps or flats.
    pub number: i32,
    /// What it costs.
    pub cost: u32,
    /// The reason in words.
    pub text: String,
}

/// Another instrument, with the tune where it stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ElsewhereAnswer {
    /// A name for programs.
    pub id: String,
    /// A name for people.
    pub name: String,
    /// Whether it is another size of the same instrument.
    pub same_family: bool,
    /// How many notes are missing there.
    pub missing: u32,
    /// Semitones from the written pitch to the sounding one.
    pub written_to_sounding: i16,
}

/// The answer in sentences.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct FitWords {
    /// The verdict.
    pub verdict: String,
    /// Which pitch is meant, and what is heard.
    pub pitch: String,
    /// The best heights, a line each.
    pub heights: Vec<String>,
    /// What stands in the way where the tune stands, a note each.
    pub as_written: Vec<String>,
    /// What folding asks for, at the best height for it.
    pub folding: Option<String>,
    /// Who plays it where it stands.
    pub elsewhere: Option<String>,
}

/// The most instruments that are named for the tune where it stands.
const ELSEWHERE: usize = 3;
/// The most heights that are told in words.
const HEIGHTS: usize = 4;
/// How much more than the best a height may cost to be told in words: as much as a move of a
/// whole octave by semitones.
const NEAR: u32 = 120;

impl FitAnswer {
    /// Asks where a tune lies on an instrument; `others` are asked where it stands, if this one
    /// does not play it there.
    #[must_use]
    pub fn new(
        source: &str,
        tune: &Tune,
        finding: &Finding,
        instrument: &Instrument,
        others: &[Instrument],
    ) -> Self {
        let key = key_of(tune, finding);
        let found = fit::fit(tune, instrument, key);
        let stands = matches!(found.verdict(), Verdict::AsWritten | Verdict::NoNotes);
        let places = if stands { Vec::new() } else { elsewhere(tune, instrument, others, key) };
        let whole = |c: &Candidate| c.is_whole();
        Self {
            schema: SCHEMA,
            source: source.to_owned(),
            number: tune.header.number.clone(),
            title: tune.header.titles.first().cloned(),
            instrument: FitInstrument::new(instrument),
            home: key.map(|k| k.home.to_string()),
            mode: key.map(|k| k.mode.name()),
            verdict: verdict(found.verdict()),
            transpositions: found
                .candidates
                .iter()
                .map(|c| TranspositionAnswer::new(c, &found.notes, instrument))
                .collect(),
            folded: if found.candidates.first().is_some_and(whole) {
                None
            } else {
                found.by_folding().map(|c| c.by.semitones())
            },
            words: FitWords::new(&found, instrument, &places),
            elsewhere: places,
        }
    }
}

impl FitAnswer {
    /// Whether every note can be played at some height.
    #[must_use]
    pub fn is_playable(&self) -> bool {
        matches!(self.verdict, "as_written" | "moved")
    }
}

impl FitWords {
    fn new(found: &Fit, instrument: &Instrument, places: &[ElsewhereAnswer]) -> Self {
        let here = found.as_written();
        let as_written = here.map_or_else(Vec::new, |here| {
            let missing = words::missing_notes(here, &found.notes);
            missing.into_iter().chain(words::awkward_notes(here, &found.notes)).collect()
        });
        let best = found.candidates.first().map_or(0, |best| best.cost);
        let near = |c: &&Candidate| c.is_whole() && c.cost <= best.saturating_add(NEAR);
        let whole = found.candidates.iter().filter(near).take(HEIGHTS);
        let names: Vec<String> =
            places.iter().filter(|p| p.missing == 0).map(|p| p.name.clone()).collect();
        let nearest = places.first().map(|p| p.name.as_str());
        Self {
            verdict: words::fit_verdict(found, instrument),
            pitch: words::which_pitch(instrument),
            heights: whole.map(|c| words::height(c, &found.notes)).collect(),
            as_written,
            folding: found
                .by_folding()
                .map(|c| format!("{}, {}", words::place(c), words::folding(c, found))),
            elsewhere: words::elsewhere(&names, nearest),
        }
    }
}

impl FitInstrument {
    /// Puts an instrument into its shape.
    #[must_use]
    pub fn new(it: &Instrument) -> Self {
        Self {
            id: it.id.clone(),
            name: it.name.clone(),
            family: it.family.clone(),
            size: it.size.clone(),
            lowest: it.lowest().map(|p| p.to_string()),
            highest: it.highest().map(|p| p.to_string()),
            written_to_sounding: it.written_to_sounding,
            certainty: match it.certainty {
                Certainty::Published => "published",
                Certainty::Computed => "computed",
                Certainty::Memory => "memory",
                Certainty::Practice => "practice",
                Certainty::Doubtful => "doubtful",
            },
            standing: words::standing(it.certainty),
            remarks: it.remarks.clone(),
        }
    }
}

impl TranspositionAnswer {
    fn new(c: &Candidate, notes: &[TuneNote], instrument: &Instrument) -> Self {
        let sounding = |pitch: Pitch| instrument.sounding(pitch).ok().map(|p| p.to_string());
        let of =
            |note: usize| notes.get(note).map_or((0, Vec::new()), |n| (n.count, n.bars.clone()));
        let missing = |m: &fit::Missing| {
            let (count, bars) = of(m.note);
            let why = match m.why {
                Why::Below => "below",
                Why::Above => "above",
                Why::Absent => "absent",
                Why::Unconfirmed => "unconfirmed",
            };
            MissingNoteAnswer { pitch: m.pitch.to_string(), count, bars, why, fold: m.fold }
        };
        let awkward = |a: &fit::Awkward| {
            let (count, bars) = of(a.note);
            let why = match a.why {
                Awkwardness::HalfHole => "half_hole",
                Awkwardness::Bend => "bend",
                Awkwardness::Hard => "hard",
            };
            AwkwardAnswer { pitch: a.pitch.to_string(), count, bars, why }
        };
        Self {
            semitones: c.by.semitones(),
            octave: c.octaves(),
            interval: c.by.to_string(),
            home: c.key.map(|k| k.home.to_string()),
            mode: c.key.map(|k| k.mode.name()),
            signature: c.signature.map(modewright_core::Signature::fifths),
            missing: c.missing.iter().map(missing).collect(),
            awkward: c.awkward.iter().map(awkward).collect(),
            lowest: c.lowest.to_string(),
            highest: c.highest.to_string(),
            sounding_lowest: sounding(c.lowest),
            sounding_highest: sounding(c.highest),
            outside: c.outside,
            cost: c.cost,
            reasons: c.reasons.iter().map(reason).collect(),
            foldable: !c.is_whole() && c.is_foldable(),
            text: words::height(c, notes),
        }
    }
}

fn reason(r: &Reason) -> ReasonAnswer {
    let kind = match r.kind {
        ReasonKind::Missing => "missing",
        ReasonKind::Awkward => "awkward",
        ReasonKind::Fair => "fair",
        ReasonKind::Outside => "outside",
        ReasonKind::Distance => "distance",
        ReasonKind::Key => "key",
        ReasonKind::Signature => "signature",
    };
    ReasonAnswer { kind, number: r.number, cost: r.cost, text: words::reason(r) }
}

const fn verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::NoNotes => "no_notes",
        Verdict::AsWritten => "as_written",
        Verdict::Moved => "moved",
        Verdict::Folded => "folded",
        Verdict::Nowhere => "nowhere",
    }
}

/// Who plays the tune where it stands: other sizes first, then others; where none plays all of
/// it, the nearest alone.
fn elsewhere(
    tune: &Tune,
    instrument: &Instrument,
    others: &[Instrument],
    key: Option<Key>,
) -> Vec<ElsewhereAnswer> {
    let others: Vec<&Instrument> = others.iter().filter(|it| it.id != instrument.id).collect();
    let mut places = fit::elsewhere(tune, others.iter().copied(), key);
    let is_whole = |place: &Elsewhere| place.candidate.is_whole();
    let family = |place: &Elsewhere| {
        others.get(place.index).is_some_and(|it| it.family == instrument.family)
    };
    if places.iter().any(is_whole) {
        places.retain(is_whole);
        modewright_core::order::by_number(&mut places, |place| u32::from(!family(place)));
        places.truncate(ELSEWHERE);
    } else {
        places.truncate(1);
    }
    let answer = |place: &Elsewhere| {
        let it = others.get(place.index)?;
        let missing = place.candidate.reasons.iter().find(|r| r.kind == ReasonKind::Missing);
        Some(ElsewhereAnswer {
            id: it.id.clone(),
            name: it.name.clone(),
            same_family: family(place),
            missing: missing.map_or(0, |r| r.number.unsigned_abs()),
            written_to_sounding: it.written_to_sounding,
        })
    };
    places.iter().filter_map(answer).collect()
}

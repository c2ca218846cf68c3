//! Where a tune lies on an instrument, in words.

use super::list::{bars, capital, list};
use super::{key_name, missing_notes, signature, way::pitch_name, way_up};
use modewright_core::fit::{Awkwardness, Candidate, Fit, Reason, ReasonKind, TuneNote, Verdict};
use modewright_core::instrument::Instrument;
use modewright_core::{Interval, Signature};

/// The verdict: whether the tune lies on the instrument as it stands, and where it lies best.
///
/// # Examples
///
/// ```
/// use modewright_core::fit::fit;
/// use modewright_formats::instrument::builtin;
/// use modewright_formats::{ReadOptions, abc, source::TuneText};
/// use modewright_lesson::words::fit_verdict;
///
/// let text = TuneText::abc("X:1\nM:4/4\nL:1/4\nK:C\nCDEF|GABc|\n");
/// let tune = abc::read(&text, &ReadOptions::default()).tune;
/// let whistle = builtin::find("tin-whistle-d").unwrap();
/// let found = fit(&tune, whistle, Some("C ionian".parse()?));
/// assert_eq!(
///     fit_verdict(&found, whistle),
///     "It does not lie on the tin whistle in D as it stands. In D major, up a major second, \
///      every note is there."
/// );
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn fit_verdict(found: &Fit, instrument: &Instrument) -> String {
    let name = called(&instrument.name);
    let there = |c: &Candidate| match c.key {
        Some(key) => format!("In {}, {}, every note is there", key_name(key), way_up(c.by)),
        None => format!("Moved {}, every note is there", way_up(c.by)),
    };
    let not = format!("It does not lie on {name} as it stands.");
    match found.verdict() {
        Verdict::NoNotes => "No note sounds here, so there is nothing to play.".to_owned(),
        Verdict::AsWritten => {
            let here = match found.as_written().map(|c| c.awkward.len()) {
                None | Some(0) => format!("It lies on {name} as it stands."),
                Some(_) => {
                    format!("Every note is on {name} as it stands, and some are awkward.")
                }
            };
            match found.better() {
                Some(best) => format!("{here} {}, with less trouble.", there(best)),
                None => here,
            }
        }
        Verdict::Moved => match found.best() {
            Some(best) => format!("{not} {}.", there(best)),
            None => not,
        },
        Verdict::Folded => match found.by_folding() {
            Some(near) => format!(
                "At no height are all its notes on {name}. It comes near {}: {}.",
                place(near),
                folding(near, found)
            ),
            None => not,
        },
        Verdict::Nowhere => {
            format!("The tune does not lie on {name}, however far it is moved.")
        }
    }
}

/// A height in a few words: "in D major, up a major second".
#[must_use]
pub fn place(candidate: &Candidate) -> String {
    let way = way_up(candidate.by);
    match candidate.key {
        Some(key) => format!("in {}, {way}", key_name(key)),
        None => way,
    }
}

/// What folding asks for: "fold 2 notes up an octave (C4 in bar 1)".
#[must_use]
pub fn folding(candidate: &Candidate, found: &Fit) -> String {
    let mut said = Vec::new();
    for octaves in [-3_i8, -2, -1, 1, 2, 3] {
        let folded = candidate.missing.iter().filter(|m| m.fold.clamp(-3, 3) == octaves);
        let mut count = 0_u32;
        let mut names = Vec::new();
        for missing in folded {
            let Some(note) = found.notes.get(missing.note) else { continue };
            count = count.saturating_add(note.count);
            names.push(format!("{} in {}", pitch_name(missing.pitch), bars(&note.bars)));
        }
        if names.is_empty() {
            continue;
        }
        let notes = if count == 1 { "1 note".to_owned() } else { format!("{count} notes") };
        let side = if octaves > 0 { "up" } else { "down" };
        let far = match octaves.unsigned_abs() {
            1 => "an octave",
            2 => "two octaves",
            _ => "three octaves or more",
        };
        said.push(format!("{notes} {side} {far} ({})", list(&names)));
    }
    format!("fold {}", list(&said))
}

/// A height as a line of a list: key, way, range, signature, and what there is to mind.
#[must_use]
pub fn height(candidate: &Candidate, notes: &[TuneNote]) -> String {
    let mut line = capital(&place(candidate));
    line.push_str(&format!(
        "; from {} to {}",
        pitch_name(candidate.lowest),
        pitch_name(candidate.highest)
    ));
    if let Some(fifths) = candidate.signature {
        line.push_str(&format!("; {}", signature(fifths)));
    }
    let minded: Vec<String> = missing_notes(candidate, notes)
        .into_iter()
        .chain(awkward_in_short(candidate, notes))
        .chain(
            candidate
                .reasons
                .iter()
                .filter(|r| {
                    matches!(r.kind, ReasonKind::Outside | ReasonKind::Fair | ReasonKind::Key)
                })
                .map(reason),
        )
        .collect();
    if !minded.is_empty() {
        line.push_str(&format!("; but {}", list(&minded)));
    }
    line
}

/// Awkward notes with their bars and what makes them so.
#[must_use]
pub fn awkward_notes(candidate: &Candidate, notes: &[TuneNote]) -> Vec<String> {
    let told = candidate.awkward.iter().map(|awkward| {
        let places = notes.get(awkward.note).map_or_else(String::new, |n| bars(&n.bars));
        let why = match awkward.why {
            Awkwardness::HalfHole => "needs a half-covered hole",
            Awkwardness::Bend => "needs a bent reed",
            Awkwardness::Hard => "is hard to sound or to tune",
        };
        format!("{} in {places} {why}", pitch_name(awkward.pitch))
    });
    told.collect()
}

/// Awkward notes in short, a piece for each kind: "3 notes need half-covered holes (F4 and F5)".
fn awkward_in_short(candidate: &Candidate, notes: &[TuneNote]) -> Vec<String> {
    let kinds = [
        (Awkwardness::HalfHole, "half-covered holes"),
        (Awkwardness::Bend, "bent reeds"),
        (Awkwardness::Hard, "care to sound or to be in tune"),
    ];
    let told = kinds.into_iter().filter_map(|(kind, what)| {
        let these = candidate.awkward.iter().filter(|a| a.why == kind);
        let names: Vec<String> = these.clone().map(|a| pitch_name(a.pitch)).collect();
        let count: u32 = these.filter_map(|a| Some(notes.get(a.note)?.count)).sum();
        match count {
            0 => None,
            1 => Some(format!("1 note needs {what} ({})", list(&names))),
            _ => Some(format!("{count} notes need {what} ({})", list(&names))),
        }
    });
    told.collect()
}

/// A reason of a height's cost, without a full stop.
#[must_use]
pub fn reason(reason: &Reason) -> String {
    let notes = |one: &str, many: &str| {
        if reason.number == 1 {
            format!("1 note {one}")
        } else {
            format!("{} notes {many}", reason.number)
        }
    };
    match reason.kind {
        ReasonKind::Missing => notes("is missing", "are missing"),
        ReasonKind::Awkward => notes("is awkward", "are awkward"),
        ReasonKind::Fair => notes(
            "is not among the first that a learner plays",
            "are not among the first that a learner plays",
        ),
        ReasonKind::Outside => {
            notes("lies outside the comfortable span", "lie outside the comfortable span")
        }
        ReasonKind::Distance => {
            let by = i16::try_from(reason.number).unwrap_or_default();
            format!("it moves {}", way_up(Interval::from_semitones(by)))
        }
        ReasonKind::Key => "the key is not among those that lie well on it".to_owned(),
        ReasonKind::Signature => {
            Signature::new(reason.number).map_or_else(|_| String::new(), signature)
        }
    }
}

/// Which pitch a report speaks of, and what is heard.
#[must_use]
pub fn which_pitch(instrument: &Instrument) -> String {
    let name = called(&instrument.name);
    let shift = instrument.to_sounding();
    if shift == Interval::UNISON {
        return format!("Pitches are as written, and sound so on {name}.");
    }
    let side = if shift.semitones() > 0 { "higher" } else { "lower" };
    let way = way_up(shift.abs());
    let size = way.strip_prefix("up ").unwrap_or(&way);
    format!("Pitches are as written; on {name} they sound {size} {side}.")
}

/// An instrument's name as a sentence has it: with its article, and what follows a comma in
/// brackets.
///
/// # Examples
///
/// ```
/// use modewright_lesson::words::called;
///
/// assert_eq!(called("fiddle, first position"), "the fiddle (first position)");
/// // What is somebody's needs no article.
/// assert_eq!(called("my voice"), "my voice");
/// ```
#[must_use]
pub fn called(name: &str) -> String {
    let article = if name.starts_with("my ") || name.starts_with("our ") { "" } else { "the " };
    match name.split_once(',') {
        Some((name, more)) => format!("{article}{name} ({})", more.trim_start()),
        None => format!("{article}{name}"),
    }
}

/// Instruments that play the tune where it stands, or come nearest to it, as a sentence; the
/// names are in order, the nearest first.
#[must_use]
pub fn elsewhere(whole: &[String], nearest: Option<&str>) -> Option<String> {
    let whole: Vec<String> = whole.iter().map(|name| called(name)).collect();
    match (whole.as_slice(), nearest.map(called)) {
        ([], None) => None,
        ([], Some(name)) => {
            Some(format!("No other size or instrument plays all of it; {name} comes nearest."))
        }
        ([one], _) => Some(format!("Where it stands it is played by {one}.")),
        (several, _) => Some(format!("Where it stands it is played by {}.", list(several))),
    }
}

/// Who of one's own instruments plays the tune where it stands; the names are in order, the nearest
/// first.
#[must_use]
pub fn who_plays(whole: &[String], nearest: Option<(&str, u32)>) -> String {
    let whole: Vec<String> = whole.iter().map(|name| called(name)).collect();
    match (whole.as_slice(), nearest) {
        ([], None) => "None of yours plays any of it where it stands.".to_owned(),
        ([], Some((name, missing))) => {
            let notes =
                if missing == 1 { "1 note is".to_owned() } else { format!("{missing} notes are") };
            let name = called(name);
            format!(
                "None of yours plays all of it where it stands; {name} comes nearest, {notes} missing there."
            )
        }
        (some, _) => format!("Of yours, it is played where it stands by {}.", list(some)),
    }
}

//! Moves in words: where to, and why not.

use super::list::{bars, list};
use super::{Advice, key_name, theory_error, way::pitch_name};
use crate::moving::{Moved, Unmoved};
use modewright_core::Interval;
use modewright_core::fit::{Candidate, Missing, TuneNote, Why};
use modewright_core::instrument::Instrument;
use modewright_core::transpose::{AimError, TransposeError};
use modewright_formats::abc::RewriteError;

/// A move in a few words: "up a major third", "down an octave", "where it stands".
///
/// # Examples
///
/// ```
/// use modewright_lesson::words::way_up;
///
/// assert_eq!(way_up("-P4".parse()?), "down a perfect fourth");
/// assert_eq!(way_up("M10".parse()?), "up an octave and a major third");
/// assert_eq!(way_up("P15".parse()?), "up two octaves");
/// // A new name for the same sound moves nothing that is heard.
/// assert_eq!(way_up("d2".parse()?), "with the same sound under other names");
/// assert_eq!(way_up("P1".parse()?), "where it stands");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn way_up(by: Interval) -> String {
    if by == Interval::UNISON {
        return "where it stands".to_owned();
    }
    if by.semitones() == 0 {
        return "with the same sound under other names".to_owned();
    }
    let side = if by.semitones() > 0 { "up" } else { "down" };
    let size = by.in_words();
    let article = if size.starts_with(['t', 'w', 'o'])
        && !size.starts_with("triply")
        && size.split(' ').any(|word| word == "octaves")
        || size.starts_with(|c: char| c.is_ascii_digit())
    {
        ""
    } else if size.starts_with(['a', 'e', 'o']) {
        "an "
    } else {
        "a "
    };
    format!("{side} {article}{size}")
}

/// What was done to a tune, a sentence each.
#[must_use]
pub fn moved(moved: &Moved) -> Vec<String> {
    let way = way_up(moved.by);
    let mut said = vec![match moved.keys {
        Some((from, _)) if moved.by == Interval::UNISON => {
            format!("{} stays where it stands.", key_name(from))
        }
        None if moved.by == Interval::UNISON => "The tune stays where it stands.".to_owned(),
        Some((from, to)) if from == to => format!("{} stays, {way}.", key_name(from)),
        Some((from, to)) => format!("{} becomes {}, {way}.", key_name(from), key_name(to)),
        None => format!("The tune moves {way}."),
    }];
    for (side, up) in [("up", true), ("down", false)] {
        let folded = moved.folded.iter().filter(|(octaves, _)| (*octaves > 0) == up);
        let numbers: Vec<u32> = folded.map(|&(_, bar)| bar).collect();
        if !numbers.is_empty() {
            let (notes, are) = count_of(numbers.len());
            let places = bars(&numbers);
            said.push(format!("{notes} {are} folded {side} into another octave: {places}."));
        }
    }
    said
}

/// Notes that an instrument does not have after a move, and a way out.
#[must_use]
pub fn not_all_there(
    moved: &Moved,
    there: &Candidate,
    instrument: &Instrument,
    folded: bool,
) -> Advice {
    let tune = &moved.reading.tune;
    let told = there.missing.iter().map(|missing| {
        let places: Vec<u32> = tune
            .soundings()
            .filter(|s| s.pitch.midi() == missing.pitch.midi())
            .filter_map(|s| Some(tune.bar_number(tune.events.get(s.event)?)))
            .collect();
        format!("{} in {} {}", pitch_name(missing.pitch), bars(&places), why_missing(missing))
    });
    let told: Vec<String> = told.collect();
    let name = super::called(&instrument.name);
    let message = format!("not all of it is on {name}: {}", list(&told));
    let hint = if !folded && there.is_foldable() {
        "the option `fold` takes such notes into another octave".to_owned()
    } else {
        format!("`fit` tells where on {} it lies best", instrument.id)
    };
    Advice { message, hint }
}

/// "1 note is", "3 notes are".
fn count_of(count: usize) -> (String, &'static str) {
    if count == 1 { ("1 note".to_owned(), "is") } else { (format!("{count} notes"), "are") }
}

/// Notes that an instrument does not have, with their bars: "F4 (a hole must …)".
#[must_use]
pub fn missing_notes(candidate: &Candidate, notes: &[TuneNote]) -> Vec<String> {
    let told = candidate.missing.iter().map(|missing| {
        let places = notes.get(missing.note).map_or_else(String::new, |n| bars(&n.bars));
        format!("{} in {places} {}", pitch_name(missing.pitch), why_missing(missing))
    });
    told.collect()
}

const fn why_missing(missing: &Missing) -> &'static str {
    match missing.why {
        Why::Below => "lies below the lowest note",
        Why::Above => "lies above the highest note",
        Why::Absent => "is not among its notes",
        Why::Unconfirmed => "has no confirmed way to play it",
    }
}

/// Text that should say how far to move, and a way out.
#[must_use]
pub fn not_a_distance(text: &str) -> Advice {
    let shown: String = text.chars().take(40).collect();
    Advice {
        message: format!("`{shown}` does not say how far to move"),
        hint: "write semitones, like 2 or -5, or an interval, like M3 or -P4; an octave is 12"
            .to_owned(),
    }
}

/// Why a tune was not moved, and a way out.
#[must_use]
pub fn unmoved(why: &Unmoved) -> Advice {
    match why {
        Unmoved::NoNotes => Advice {
            message: "there are no notes to move".to_owned(),
            hint: "write notes as letters, like D E F# G, or paste a tune in ABC".to_owned(),
        },
        Unmoved::Aim(error) => aim(error),
        Unmoved::Text(RewriteError::Transpose(TransposeError::BeyondMidi { pitch, .. })) => {
            Advice {
                message: format!("{} would leave every instrument", pitch_name(*pitch)),
                hint: "move the tune less far: notes run from C-1 to G9, as MIDI counts them"
                    .to_owned(),
            }
        }
        Unmoved::Text(RewriteError::Transpose(TransposeError::KeyUnwritable { semitones })) => {
            Advice {
                message: format!(
                    "the sharps and flats that K: lists have no names {semitones} semitones away"
                ),
                hint: "write K: as a note and a mode, like K:D or K:E dorian".to_owned(),
            }
        }
        Unmoved::Text(RewriteError::NotExact { line }) => Advice {
            message: format!(
                "near line {line} the moved text would not read as the moved tune, so it was left"
            ),
            hint: "a note there stands where another letter means something else; set it apart"
                .to_owned(),
        },
        Unmoved::Nowhere => Advice {
            message: "no note of the tune lies on the instrument, however far it is moved"
                .to_owned(),
            hint: "`instruments` shows which notes it has".to_owned(),
        },
    }
}

fn aim(error: &AimError) -> Advice {
    match error {
        AimError::NoHome => Advice {
            message: "the tune has no home note to move from".to_owned(),
            hint: "say how far instead, by the option `by`, like 2".to_owned(),
        },
        AimError::OtherMode { asked, tune } => {
            let target = modewright_core::Key::new(asked.home, tune.mode);
            let target = target.respelled().unwrap_or(target);
            Advice {
                message: format!(
                    "the tune is in {}, and a move keeps the mode: it cannot become {}",
                    key_name(*tune),
                    key_name(*asked)
                ),
                hint: format!("ask for {}", list(&[key_name(target)])),
            }
        }
        AimError::Unwritable { key } => match key.signature() {
            Err(error) => theory_error(&error),
            Ok(_) => Advice { message: error.to_string(), hint: String::new() },
        },
    }
}

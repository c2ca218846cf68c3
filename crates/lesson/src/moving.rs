//! Moving the text of a tune as a player asks for it: to a home, by an interval, for an
//! instrument.

use modewright_core::find::{Finding, find};
use modewright_core::fit::{self, Candidate};
use modewright_core::instrument::Instrument;
use modewright_core::transpose::{AimError, Transposition, key_of};
use modewright_core::{Interval, Key, Mode, Spelling, Tune};
use modewright_formats::abc::RewriteError;
use modewright_formats::source::TuneText;
use modewright_formats::{ReadOptions, Reading, read, transpose};

/// Where to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// To a home note; a mode that is named must be the tune's own.
    Home(Spelling, Option<Mode>),
    /// By semitones, named as it suits the key.
    Semitones(i16),
    /// By an interval.
    Interval(Interval),
    /// To where the tune lies best on the instrument.
    Best,
}

/// What is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Wish<'a> {
    /// Where to.
    pub aim: Aim,
    /// The instrument that is to play it.
    pub instrument: Option<&'a Instrument>,
    /// Whether notes that the instrument does not have are taken into another octave.
    pub fold: bool,
}

/// A tune that was moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// The new text, in ABC.
    pub text: String,
    /// What it reads as.
    pub reading: Reading,
    /// The key that the tune is said to be in, before and after; `None` without one.
    pub keys: Option<(Key, Key)>,
    /// The interval of the move.
    pub by: Interval,
    /// Notes that were taken into another octave, with their bars.
    pub folded: Vec<(i8, u32)>,
    /// The tune where it stands now on the instrument.
    pub there: Option<Candidate>,
}

/// Why a tune was not moved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unmoved {
    /// It has no notes.
    NoNotes,
    /// There is no such home for it.
    Aim(AimError),
    /// Its text cannot be moved there.
    Text(RewriteError),
    /// No note of it lies on the instrument at any height.
    Nowhere,
}

impl Unmoved {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoNotes => "no-notes",
            Self::Aim(error) => error.code(),
            Self::Text(error) => error.code(),
            Self::Nowhere => "nowhere-on-instrument",
        }
    }
}

impl From<AimError> for Unmoved {
    fn from(error: AimError) -> Self {
        Self::Aim(error)
    }
}

impl From<RewriteError> for Unmoved {
    fn from(error: RewriteError) -> Self {
        Self::Text(error)
    }
}

/// Moves the text of a tune; where it has several voices, all of them, judged by the one that the
/// options choose.
///
/// For an instrument the best height is taken at which every note can be played; where there is
/// none, the best at which folding helps; else the best there is.
///
/// # Examples
///
/// ```
/// use modewright_formats::instrument::builtin;
/// use modewright_formats::source::TuneText;
/// use modewright_lesson::moving::{Aim, Wish, move_text};
///
/// let tune = TuneText::abc("X:1\nM:4/4\nL:1/4\nK:C\nCDEF|GABc|cGEC|\n");
/// let whistle = builtin::find("tin-whistle-d").unwrap();
/// let wish = Wish { aim: Aim::Best, instrument: Some(whistle), fold: false };
/// let moved = move_text(&tune, &Default::default(), &wish).unwrap();
/// assert!(moved.text.contains("K:D\nDEFG|ABcd|dAFD|"));
/// // A tune without notes has nothing to move.
/// assert!(move_text(&TuneText::abc("X:1\nK:C\n"), &Default::default(), &wish).is_err());
/// ```
///
/// # Errors
///
/// [`Unmoved`], with its reason.
pub fn move_text(
    text: &TuneText,
    options: &ReadOptions,
    wish: &Wish<'_>,
) -> Result<Moved, Unmoved> {
    let tune = read(text, options).tune;
    if tune.soundings().next().is_none() {
        return Err(Unmoved::NoNotes);
    }
    let finding = find(&tune);
    let key = key_of(&tune, &finding);
    let (from, by) = transposition(&tune, &finding, key, wish)?;
    let moved = transpose(text, options, &by, key)?;
    let reading = moved.reading;
    let bar = |event| reading.tune.events.get(event).map_or(0, |e| reading.tune.bar_number(e));
    let folded = moved.folded.iter().map(|&(event, octaves)| (octaves, bar(event))).collect();
    let keys = from.and_then(|from| {
        let to = Key::new(from.home.transpose(by.by()).ok()?, from.mode);
        Some((from, to.respelled().unwrap_or(to)))
    });
    let there = wish.instrument.and_then(|it| fit::stands(&reading.tune, it, None));
    Ok(Moved { text: moved.text.text, keys, by: by.by(), folded, there, reading })
}

/// Moves a tune that was read, as [`move_text`] moves its text, and tells the interval.
///
/// # Errors
///
/// [`Unmoved`], with its reason.
pub fn move_tune(tune: &Tune, wish: &Wish<'_>) -> Result<(Tune, Interval), Unmoved> {
    if tune.soundings().next().is_none() {
        return Err(Unmoved::NoNotes);
    }
    let finding = find(tune);
    let key = key_of(tune, &finding);
    let (_, by) = transposition(tune, &finding, key, wish)?;
    Ok((by.apply(tune).map_err(RewriteError::from)?, by.by()))
}

/// The key that a tune moves from, and the move that is wished for.
fn transposition(
    tune: &Tune,
    finding: &Finding,
    key: Option<Key>,
    wish: &Wish<'_>,
) -> Result<(Option<Key>, Transposition), Unmoved> {
    let (from, by) = match wish.aim {
        Aim::Home(home, mode) => {
            let (from, by) = Transposition::towards(tune, finding, home, mode)?;
            (Some(from), by)
        }
        Aim::Semitones(semitones) => (key, Transposition::by_semitones(tune, semitones)),
        Aim::Interval(by) => (key, Transposition::by_interval(by)),
        Aim::Best => {
            let instrument = wish.instrument.ok_or(Unmoved::Nowhere)?;
            let found = fit::fit(tune, instrument, key);
            let best = found.best().or(found.by_folding()).or(found.candidates.first());
            let best = best.filter(|c| c.missing.len() < found.notes.len());
            (key, Transposition::by_interval(best.ok_or(Unmoved::Nowhere)?.by))
        }
    };
    let by = match wish.instrument.filter(|_| wish.fold) {
        Some(instrument) => by.folded(fit::reach(instrument)),
        None => by,
    };
    Ok((from, by))
}

//! The text of a tune after a move: keys, notes and chord signs renamed, all else kept byte for
//! byte.
//!
//! The reader itself tells where the notes stand and what was in force there; the rewriter walks
//! over that once more with the accidentals of the new text. It writes an accidental where the
//! old text has one, and where the new note would otherwise be read as another. In the end the
//! new text is read and compared with the tune that was to come out.

mod key;
mod music;
#[cfg(test)]
mod tests;

use super::log::{Nothing, Sites};
use super::read_logged;
use crate::source::TuneText;
use crate::{ReadOptions, Reading};
use modewright_core::Tune;
use modewright_core::transpose::{TransposeError, Transposition};
use modewright_core::tune::{Mark, MarkKind, Place, Span};
use std::fmt;

/// The text at a note that was folded up.
const UP: &str = "folded up";
/// The text at a note that was folded down.
const DOWN: &str = "folded down";

/// A tune's text after a move.
#[derive(Clone, Debug, PartialEq)]
pub struct Rewritten {
    /// The new text.
    pub text: TuneText,
    /// What the new text reads as: of the voice that is read, where there are several.
    pub reading: Reading,
    /// Notes that were folded, as indices into the tune's events, with the octaves.
    pub folded: Vec<(usize, i8)>,
}

/// Why a text was not rewritten.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RewriteError {
    /// The tune cannot be moved there.
    Transpose(TransposeError),
    /// The new text would not read as the moved tune: something in the old text, near this line
    /// of it, means another thing once its letters change.
    NotExact {
        /// The line in the old text, from 1.
        line: u32,
    },
}

impl From<TransposeError> for RewriteError {
    fn from(error: TransposeError) -> Self {
        Self::Transpose(error)
    }
}

impl RewriteError {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Transpose(error) => error.code(),
            Self::NotExact { .. } => "text-not-exact",
        }
    }
}

impl fmt::Display for RewriteError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Transpose(error) => error.fmt(f),
            Self::NotExact { line } => {
                write!(f, "near line {line} the moved text would not read as the moved tune")
            }
        }
    }
}

impl std::error::Error for RewriteError {}

/// One change of the text: bytes that give way to others.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Edit {
    start: usize,
    end: usize,
    text: String,
}

/// Moves the text of an ABC tune: all its voices, its keys, its chord signs.
///
/// Comments, layout, words, ornaments and fields stay as they are. A note that is folded into
/// reach gets a text under it, "folded up" or "folded down".
///
/// # Examples
///
/// ```
/// use modewright_core::transpose::Transposition;
/// use modewright_formats::{abc, source::TuneText};
///
/// let text = TuneText::abc("X:1\nK:Em % home\n\"Em\"E2 ^C=C {d}!roll!B,>b|[K:G] F3 |\n");
/// let up = Transposition::by_interval("M2".parse()?);
/// let moved = abc::transpose(&text, &Default::default(), &up).unwrap();
/// assert_eq!(
///     moved.text.text,
///     "X:1\nK:F#m % home\n\"F#m\"F2 ^D=D {e}!roll!C>c'|[K:A] G3 |\n"
/// );
/// // Without any key there is none to rewrite: the sharps stand at the notes.
/// let moved = abc::transpose(&TuneText::abc("X:1\nK:\nCDEE|\n"), &Default::default(), &up).unwrap();
/// assert_eq!(moved.text.text, "X:1\nK:\nDE^FF|\n");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
///
/// # Errors
///
/// [`RewriteError`]; nothing is changed then.
pub fn transpose(
    text: &TuneText,
    options: &ReadOptions,
    by: &Transposition,
) -> Result<Rewritten, RewriteError> {
    let passes = passes(text, options);
    let mut edits = Vec::new();
    let mut wanted = Vec::new();
    for (options, reading, log) in passes {
        let moved = by.apply(&reading.tune)?;
        let intervals = by.intervals(&reading.tune)?;
        edits.extend(music::edits(&log.0, &reading.tune, &text.text, by, &intervals));
        let is_even = intervals.windows(2).all(|pair| matches!(pair, [a, b] if a == b));
        wanted.push((options, reading.tune, moved, is_even));
    }
    let new = TuneText { text: edited(&text.text, edits), ..text.clone() };
    let mut first = None;
    for (options, old, moved, is_even) in wanted {
        let reading = read_logged::<Nothing>(&new, &options).0;
        let folded = folded(&old, &moved, by);
        if let Some(event) = difference(&reading.tune, &moved, &folded, is_even) {
            let at = old.events.get(event).map_or(0, |e| e.span.start);
            return Err(RewriteError::NotExact { line: line(text, at) });
        }
        first.get_or_insert((reading, folded));
    }
    let (reading, folded) = first.unwrap_or_default();
    Ok(Rewritten { text: new, reading, folded })
}

/// The text read once for each voice, the one that the options ask for first.
fn passes(text: &TuneText, options: &ReadOptions) -> Vec<(ReadOptions, Reading, Sites)> {
    let (reading, log) = read_logged::<Sites>(text, options);
    let others: Vec<String> =
        reading.voices.iter().filter(|v| Some(*v) != reading.voice.as_ref()).cloned().collect();
    let mut passes = vec![(options.clone(), reading, log)];
    for voice in others {
        let options = ReadOptions { voice: Some(voice), ..options.clone() };
        let (reading, log) = read_logged::<Sites>(text, &options);
        passes.push((options, reading, log));
    }
    passes
}

/// The text with its changes. What several voices share is changed once.
fn edited(text: &str, mut edits: Vec<Edit>) -> String {
    modewright_core::order::by_number(&mut edits, |e| u32::try_from(e.start).unwrap_or(u32::MAX));
    let mut out = String::with_capacity(text.len() + edits.len());
    let mut at = 0;
    let mut last: Option<&Edit> = None;
    for edit in &edits {
        let again = last.is_some_and(|last| (last.start, last.end) == (edit.start, edit.end));
        if again || edit.start < at {
            continue;
        }
        out.push_str(text.get(at..edit.start).unwrap_or_default());
        out.push_str(&edit.text);
        at = edit.end;
        last = Some(edit);
    }
    out.push_str(text.get(at..).unwrap_or_default());
    out
}

/// The notes of a tune that the move folds, with the octaves.
fn folded(old: &Tune, moved: &Tune, by: &Transposition) -> Vec<(usize, i8)> {
    let pairs = old.events.iter().zip(&moved.events).enumerate();
    let folded = pairs.filter_map(|(i, (old, new))| {
        let (old, new) = (old.sound.pitch()?.midi(), new.sound.pitch()?.midi());
        let octaves = i8::try_from((new - old - by.by().semitones()) / 12).ok()?;
        (octaves != 0).then_some((i, octaves))
    });
    folded.collect()
}

/// Hangs the texts of folded notes on a tune that was moved; gives those notes.
pub(crate) fn mark_folded(old: &Tune, moved: &mut Tune, by: &Transposition) -> Vec<(usize, i8)> {
    let folded = folded(old, moved, by);
    for &(event, octaves) in &folded {
        let text = word(octaves).to_owned();
        let kind = MarkKind::Text { place: Place::Below, text };
        let span = moved.events.get(event).map_or_else(Span::default, |e| e.span);
        moved.marks.push(Mark { event, kind, span });
    }
    let place = |mark: &Mark| u32::try_from(mark.event).unwrap_or(u32::MAX);
    modewright_core::order::by_number(&mut moved.marks, place);
    folded
}

/// The text at a note that is folded by octaves.
const fn word(octaves: i8) -> &'static str {
    if octaves > 0 { UP } else { DOWN }
}

/// The first event at which a text reads otherwise than it should; `None` where all is well.
/// `is_even` says that all parts of it moved by one interval.
fn difference(read: &Tune, wanted: &Tune, folded: &[(usize, i8)], is_even: bool) -> Option<usize> {
    let (mut read, mut wanted) = (without_places(read), without_places(wanted));
    let mut told = folded.iter().peekable();
    read.marks.retain(|mark| match (&mark.kind, told.peek()) {
        (MarkKind::Text { place: Place::Below, text }, Some(&&(event, octaves)))
            if event == mark.event && text == word(octaves) =>
        {
            told.next();
            false
        }
        _ => true,
    });
    if !folded.is_empty() || !is_even {
        // A tie to a note within a chord that was folded away, or that has another name in
        // another key, looks like a slur.
        let is_slur = |mark: &Mark| matches!(mark.kind, MarkKind::SlurStart | MarkKind::SlurEnd);
        read.marks.retain(|mark| !is_slur(mark));
        wanted.marks.retain(|mark| !is_slur(mark));
    }
    if told.next().is_none() && read == wanted {
        return None;
    }
    let pairs = read.events.iter().zip(&wanted.events);
    Some(pairs.take_while(|(a, b)| a == b).count())
}

/// The tune without its places in the source.
fn without_places(tune: &Tune) -> Tune {
    let mut tune = tune.clone();
    let none = Span::default();
    tune.keys.iter_mut().for_each(|key| key.span = none);
    tune.events.iter_mut().for_each(|event| event.span = none);
    tune.bars.iter_mut().for_each(|bar| bar.span = none);
    tune.marks.iter_mut().for_each(|mark| mark.span = none);
    tune
}

/// The line that a byte of the text stands in, counted as the file counts.
fn line(text: &TuneText, at: u32) -> u32 {
    let before = text.text.get(..at as usize).unwrap_or_default();
    let ends = before.matches('\n').count().max(before.matches('\r').count());
    text.first_line.saturating_add(u32::try_from(ends).unwrap_or(u32::MAX))
}

//! Moving a tune to another height, spelled right.
//!
//! A [`Transposition`] is an interval and, where notes are to be folded, the reach that they are
//! folded into. It moves pitches, keys, chord signs and whole tunes by the same rule, so that a
//! writer of text and an analysis of notes cannot disagree.

mod aim;
mod chord_sign;
mod reach;
#[cfg(test)]
mod tests;

pub use aim::{AimError, key_of};
pub use chord_sign::chord_sign;
pub use reach::Reach;

use crate::tune::{KeyForm, MarkKind, Sound, WrittenKey};
use crate::{Alter, Interval, Key, Pitch, Spelling, Step, Tune};
use std::fmt;

/// Why a tune cannot be moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TransposeError {
    /// A note would leave the numbers that MIDI has for pitches, 0 to 127.
    BeyondMidi {
        /// The note before the move.
        pitch: Pitch,
        /// The number that it would have.
        midi: i32,
    },
    /// An explicit key whose accidentals have no name after the move.
    KeyUnwritable {
        /// The semitones of the move.
        semitones: i16,
    },
}

impl TransposeError {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::BeyondMidi { .. } => "beyond-midi",
            Self::KeyUnwritable { .. } => "key-unwritable",
        }
    }
}

impl fmt::Display for TransposeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BeyondMidi { pitch, midi } => {
                write!(f, "{pitch} would have the number {midi}, outside 0 to 127")
            }
            Self::KeyUnwritable { semitones } => {
                write!(f, "the accidentals of the key have no names {semitones} semitones away")
            }
        }
    }
}

impl std::error::Error for TransposeError {}

/// A move by an interval, perhaps with notes folded into a reach.
///
/// # Examples
///
/// ```
/// use modewright_core::transpose::Transposition;
/// use modewright_core::tune::{Sound, Span, TuneBuilder, WrittenKey};
/// use modewright_core::Length;
///
/// let mut builder = TuneBuilder::new();
/// builder.key(WrittenKey::from_key("E dorian".parse()?));
/// for name in ["E4", "C#5"] {
///     builder.event(Sound::Note(name.parse()?), Length::CROTCHET, Span::default()).unwrap();
/// }
/// let tune = builder.finish();
/// let moved = Transposition::by_semitones(&tune, -2).apply(&tune).unwrap();
/// assert_eq!(moved.key().and_then(|k| k.key()), Some("D dorian".parse()?));
/// assert_eq!(moved.events[1].sound.pitch(), Some("B4".parse()?));
/// // Eight semitones up: C Dorian with three flats, not B sharp Dorian with nine sharps.
/// let moved = Transposition::by_semitones(&tune, 8).apply(&tune).unwrap();
/// assert_eq!(moved.key().and_then(|k| k.key()), Some("C dorian".parse()?));
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Transposition {
    by: Interval,
    fold: Option<Reach>,
}

impl Transposition {
    /// A move by a named interval. Where a key of the tune cannot be written after it, that
    /// part alone takes the other name of the same semitones.
    #[must_use]
    pub const fn by_interval(by: Interval) -> Self {
        Self { by, fold: None }
    }

    /// A move by semitones, by the interval whose keys have the fewest sharps and flats.
    ///
    /// One interval serves all keys of the tune where each can be written; six sharps come
    /// before six flats unless the tune begins in flats. A tune without any key takes the
    /// interval that alters the fewest notes.
    #[must_use]
    pub fn by_semitones(tune: &Tune, semitones: i16) -> Self {
        let flat = tune.key().is_some_and(|key| sharpness(key) < 0);
        let best = spellings(semitones).into_iter().min_by_key(|&by| {
            let costs = tune.keys.iter().map(|key| cost(key, by));
            let notes: i32 = match tune.key() {
                Some(key) if key.form != KeyForm::None => 0,
                _ => altered_notes(tune, by),
            };
            let sum: i32 = costs.sum::<i32>().saturating_add(notes);
            // On the line of fifths an interval with more fifths goes to the sharp side.
            (sum, if flat { by.fifths() } else { -by.fifths() })
        });
        Self::by_interval(best.unwrap_or_else(|| Interval::from_semitones(semitones)))
    }

    /// A move of one home note to another, the shorter way; a tritone goes up.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::transpose::Transposition;
    ///
    /// let moved = Transposition::to_home("E".parse()?, "D".parse()?);
    /// assert_eq!(moved.by().to_string(), "-M2");
    /// // A name asked for is a name kept: an augmented fourth, not a diminished fifth.
    /// let moved = Transposition::to_home("C".parse()?, "F#".parse()?);
    /// assert_eq!(moved.by().to_string(), "A4");
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    #[must_use]
    pub fn to_home(from: Spelling, to: Spelling) -> Self {
        let steps = i16::from(to.step.index()) - i16::from(from.step.index());
        let semitones =
            |note: Spelling| i16::from(note.step.semitones()) + i16::from(note.alter.semitones());
        let mut by = Interval::new(steps, semitones(to) - semitones(from));
        while by.semitones() > 6 {
            by = by + -Interval::OCTAVE;
        }
        while by.semitones() <= -6 {
            by = by + Interval::OCTAVE;
        }
        Self::by_interval(by)
    }

    /// The same move, with every note that lies outside a reach moved by whole octaves to where
    /// it lies inside; a note that lies inside in no octave stays where it is.
    #[must_use]
    pub const fn folded(self, into: Reach) -> Self {
        Self { by: self.by, fold: Some(into) }
    }

    /// The interval of the move.
    #[must_use]
    pub const fn by(&self) -> Interval {
        self.by
    }

    /// For each key of a tune, the interval that its part moves by: the same for all, but for
    /// keys that only the other name of the same semitones can write.
    ///
    /// # Errors
    ///
    /// [`TransposeError::KeyUnwritable`] where no name can.
    pub fn intervals(&self, tune: &Tune) -> Result<Vec<Interval>, TransposeError> {
        tune.keys.iter().map(|key| self.interval(key)).collect()
    }

    fn interval(&self, key: &WrittenKey) -> Result<Interval, TransposeError> {
        let semitones = self.by.semitones();
        let others = spellings(semitones).into_iter().filter(|&by| moved_key(key, by).is_some());
        let others = others.min_by_key(|&by| ((by.fifths() - self.by.fifths()).abs(), by.steps()));
        if moved_key(key, self.by).is_some() { Some(self.by) } else { others }
            .ok_or(TransposeError::KeyUnwritable { semitones })
    }

    /// The octaves that a moved note of a MIDI number is folded by; 0 for one within reach.
    #[must_use]
    pub fn fold(&self, moved: i32) -> i8 {
        self.fold.map_or(0, |reach| reach.octaves_into(moved))
    }

    /// The octaves that a note is folded by, after its move.
    #[must_use]
    pub fn fold_of(&self, pitch: Pitch) -> i8 {
        self.fold(i32::from(pitch.midi()) + i32::from(self.by.semitones()))
    }

    /// A pitch after the move by one of [`Transposition::intervals`] and by some octaves.
    ///
    /// # Errors
    ///
    /// [`TransposeError::BeyondMidi`].
    pub fn pitch(&self, pitch: Pitch, by: Interval, octaves: i8) -> Result<Pitch, TransposeError> {
        moved_pitch(moved_pitch(pitch, by)?, octaves_up(octaves))
    }

    /// A grace note after the move: it goes with its note, and further where it must.
    ///
    /// # Errors
    ///
    /// [`TransposeError::BeyondMidi`].
    pub fn grace(&self, pitch: Pitch, by: Interval, octaves: i8) -> Result<Pitch, TransposeError> {
        let moved = self.pitch(pitch, by, octaves)?;
        moved_pitch(moved, octaves_up(self.fold(i32::from(moved.midi()))))
    }

    /// The tune after the move. Spans stay those of the text that it was read from.
    ///
    /// A chord is folded as its melody note is.
    ///
    /// # Errors
    ///
    /// [`TransposeError`], for the first note or key that cannot be moved.
    pub fn apply(&self, tune: &Tune) -> Result<Tune, TransposeError> {
        let intervals = self.intervals(tune)?;
        let by = |key: usize| intervals.get(key).copied().unwrap_or(self.by);
        let mut moved = tune.clone();
        for (key, &by) in moved.keys.iter_mut().zip(&intervals) {
            let semitones = by.semitones();
            *key = moved_key(key, by).ok_or(TransposeError::KeyUnwritable { semitones })?;
        }
        let mut changes = tune.marks.iter().filter_map(key_change).peekable();
        let (mut key, mut tied) = (0, None);
        for (i, event) in moved.events.iter_mut().enumerate() {
            while let Some((_, index)) = changes.next_if(|&(at, _)| at <= i) {
                key = index;
            }
            let Sound::Note(pitch) = event.sound else {
                tied = None;
                continue;
            };
            // A tied note is the note that it is tied to, whatever key comes between.
            let by = tied.unwrap_or_else(|| by(key));
            event.sound = Sound::Note(self.pitch(pitch, by, self.fold_of(pitch))?);
            tied = event.tied.then_some(by);
        }
        let folds = |event: usize| {
            let pitch = tune.events.get(event).and_then(|event| event.sound.pitch());
            pitch.map_or(0, |pitch| self.fold_of(pitch))
        };
        let mut key = 0;
        for mark in &mut moved.marks {
            let octaves = folds(mark.event);
            match &mut mark.kind {
                MarkKind::Key(index) => key = *index,
                MarkKind::ChordSign(text) => *text = chord_sign(text, self.by),
                MarkKind::ChordNote(pitch) => *pitch = self.pitch(*pitch, by(key), octaves)?,
                MarkKind::Grace { notes, .. } => {
                    for (pitch, _) in notes {
                        *pitch = self.grace(*pitch, by(key), octaves)?;
                    }
                }
                _ => {}
            }
        }
        Ok(moved)
    }
}

fn octaves_up(octaves: i8) -> Interval {
    let octaves = i16::from(octaves);
    Interval::new(octaves * 7, octaves * 12)
}

fn key_change(mark: &crate::tune::Mark) -> Option<(usize, usize)> {
    match mark.kind {
        MarkKind::Key(index) => Some((mark.event, index)),
        _ => None,
    }
}

/// The intervals of so many semitones that keep names plain: the usual one and its neighbours.
fn spellings(semitones: i16) -> [Interval; 3] {
    let usual = Interval::from_semitones(semitones);
    [0, 1, -1].map(|more| Interval::new(usual.steps() + more, semitones))
}

/// A key after a move; `None` where it cannot be written.
#[must_use]
pub fn moved_key(key: &WrittenKey, by: Interval) -> Option<WrittenKey> {
    if key.form == KeyForm::None {
        return Some(*key);
    }
    let home = match key.home {
        Some(home) => Some(home.transpose(by).ok()?),
        None => None,
    };
    if let (Some(home), Some(mode)) = (home, key.mode) {
        Key::new(home, mode).signature().ok()?;
    }
    let mut alters = [Alter::NATURAL; 7];
    for step in Step::ALL {
        let moved = Spelling::new(step, key.alter(step)).transpose(by).ok()?;
        if moved.alter.semitones().abs() > 2 {
            return None;
        }
        alters[usize::from(moved.step.index())] = moved.alter;
    }
    let pipes = matches!(key.form, KeyForm::PipesBare | KeyForm::PipesMarked);
    // Off its own notes the chanter's signature is a plain list of accidentals.
    let form = if pipes && by.fifths() != 0 { KeyForm::Explicit } else { key.form };
    Some(WrittenKey { form, home, mode: key.mode, alters, span: key.span })
}

/// A pitch after a move; a name with more than two sharps or flats takes the next letter.
fn moved_pitch(pitch: Pitch, by: Interval) -> Result<Pitch, TransposeError> {
    let midi = i32::from(pitch.midi()) + i32::from(by.semitones());
    let beyond = TransposeError::BeyondMidi { pitch, midi };
    if !(0..128).contains(&midi) {
        return Err(beyond);
    }
    let place = i32::from(pitch.stave_place()) + i32::from(by.steps());
    // A few letters up or down there is always a name with two signs at most.
    [0, 1, -1, 2, -2, 3, -3, 4, -4]
        .into_iter()
        .filter_map(|more| Pitch::from_place(place + more, midi).ok())
        .find(|moved| moved.spelling().alter.semitones().abs() <= 2)
        .ok_or(beyond)
}

/// Sharps minus flats of a key.
fn sharpness(key: &WrittenKey) -> i32 {
    key.alters.iter().map(|alter| i32::from(alter.semitones())).sum()
}

/// How many sharps or flats a key has after a move.
fn cost(key: &WrittenKey, by: Interval) -> i32 {
    const UNWRITABLE: i32 = 1000;
    moved_key(key, by).map_or(UNWRITABLE, |key| {
        key.alters.iter().map(|alter| i32::from(alter.semitones().abs())).sum()
    })
}

/// How many sharps and flats stand at the notes of a tune after a move.
fn altered_notes(tune: &Tune, by: Interval) -> i32 {
    let altered = tune.events.iter().filter_map(|event| {
        let moved = event.sound.pitch()?.spelling().transpose(by).ok()?;
        Some(i32::from(moved.alter.semitones().abs()))
    });
    altered.fold(0, i32::saturating_add)
}

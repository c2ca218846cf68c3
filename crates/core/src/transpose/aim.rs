//! From "in D" to the move that leads there.

use super::Transposition;
use crate::find::{Finding, Verdict};
use crate::{Key, Mode, Spelling, Tune};
use std::fmt;

/// Why a home that was asked for cannot be reached.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AimError {
    /// The tune has no home to move from.
    NoHome,
    /// Another mode was asked for; a move keeps the mode.
    OtherMode {
        /// The key that was asked for.
        asked: Key,
        /// The key that the tune is in.
        tune: Key,
    },
    /// The key that was asked for needs more than seven sharps or flats.
    Unwritable {
        /// That key.
        key: Key,
    },
}

impl AimError {
    /// A stable kebab-case code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoHome => "no-home-to-move",
            Self::OtherMode { .. } => "mode-is-kept",
            Self::Unwritable { .. } => "key-beyond-seven",
        }
    }
}

impl fmt::Display for AimError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoHome => f.write_str("the tune has no home to move from"),
            Self::OtherMode { asked, tune } => {
                write!(f, "the tune is in {tune}: a move keeps its mode and cannot make {asked}")
            }
            Self::Unwritable { key } => write!(f, "{key} cannot be written"),
        }
    }
}

impl std::error::Error for AimError {}

/// The key that a tune is said to be in: the finding where it is clear or open, else what the
/// page states, else the likeliest; `None` where nothing can be said.
#[must_use]
pub fn key_of(tune: &Tune, finding: &Finding) -> Option<Key> {
    keys_of(tune, finding).into_iter().flatten().next()
}

fn keys_of(tune: &Tune, finding: &Finding) -> [Option<Key>; 3] {
    let best = finding.best().map(|best| best.key);
    let sure = matches!(finding.verdict, Verdict::Clear | Verdict::Open);
    let written = tune.key().and_then(crate::tune::WrittenKey::key);
    [best.filter(|_| sure), written, best]
}

impl Transposition {
    /// The move that brings the tune's home to a note, the shorter way, and the key that it
    /// moves from. A mode that is asked for must be one that the tune is in: by its notes, or by
    /// what the page says.
    ///
    /// # Errors
    ///
    /// [`AimError`].
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::find::find;
    /// use modewright_core::transpose::Transposition;
    /// use modewright_core::tune::{Sound, Span, TuneBuilder};
    /// use modewright_core::{Length, Mode};
    ///
    /// let mut builder = TuneBuilder::new();
    /// for name in ["E4", "F#4", "G4", "A4", "B4", "C#5", "D5", "E5"] {
    ///     builder.event(Sound::Note(name.parse()?), Length::CROTCHET, Span::default()).unwrap();
    /// }
    /// let tune = builder.finish();
    /// let finding = find(&tune);
    /// let (from, by) = Transposition::towards(&tune, &finding, "D".parse()?, None).unwrap();
    /// assert_eq!((from, by.by().semitones()), ("E dorian".parse()?, -2));
    /// // Moving a Dorian tune does not make it major.
    /// assert!(Transposition::towards(&tune, &finding, "D".parse()?, Some(Mode::Ionian)).is_err());
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    pub fn towards(
        tune: &Tune,
        finding: &Finding,
        home: Spelling,
        mode: Option<Mode>,
    ) -> Result<(Key, Self), AimError> {
        let keys = keys_of(tune, finding);
        let first = keys.into_iter().flatten().next().ok_or(AimError::NoHome)?;
        let from = match mode {
            None => first,
            Some(mode) => {
                let asked = Key::new(home, mode);
                let same = keys.into_iter().flatten().find(|key| key.mode == mode);
                same.ok_or(AimError::OtherMode { asked, tune: first })?
            }
        };
        let to = Key::new(home, from.mode);
        if to.signature().is_err() {
            return Err(AimError::Unwritable { key: to });
        }
        Ok((from, Self::to_home(from.home, home)))
    }
}

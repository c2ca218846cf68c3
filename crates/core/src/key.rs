//! A home note with a mode, and the relations that a teacher uses.

use crate::{Mode, PitchClass, PitchSet, Signature, Spelling, Step, error::TheoryError};
use std::{fmt, str::FromStr};

/// A home note and a mode.
///
/// A key *has* a signature and a scale; it *is* neither. A key that nobody can write (G sharp
/// major) may be named here, and refuses to give its signature.
///
/// # Examples
///
/// ```
/// use modewright_core::Key;
///
/// let key: Key = "E dorian".parse()?;
/// assert_eq!(key.signature()?.fifths(), 2);
/// assert_eq!(key.parent()?.to_string(), "D ionian");
/// // The way out of a key with too many sharps is its other name.
/// let too_far: Key = "G# ionian".parse()?;
/// assert!(too_far.signature().is_err());
/// assert_eq!(too_far.respelled().map(|k| k.to_string()), Some("Ab ionian".into()));
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key {
    /// The home note.
    pub home: Spelling,
    /// The mode.
    pub mode: Mode,
}

/// A mode on the same home, seen from another: which degree numbers change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Parallel {
    /// The other key.
    pub key: Key,
    /// Degrees that it lowers (negative) or raises (positive), with semitones, in order.
    pub changes: Vec<(u8, i8)>,
}

impl Key {
    /// A home note and a mode, not yet asked whether it can be written.
    #[must_use]
    pub const fn new(home: Spelling, mode: Mode) -> Self {
        Self { home, mode }
    }

    /// Sharps (positive) or flats (negative) that the key needs, however many.
    #[must_use]
    pub const fn fifths(self) -> i32 {
        self.home.fifths() + self.mode.fifths()
    }

    /// The signature this key is written with.
    ///
    /// On one home each mode sits a fixed distance from major: Lydian one fifth sharper, Dorian
    /// two flatter.
    ///
    /// # Errors
    ///
    /// [`TheoryError::SignatureTooLarge`] beyond seven sharps or flats; see [`Key::respelled`].
    pub fn signature(self) -> Result<Signature, TheoryError> {
        match Signature::new(self.fifths()) {
            Ok(signature) => Ok(signature),
            Err(_) => Err(TheoryError::SignatureTooLarge {
                home: self.home,
                mode: self.mode,
                fifths: self.fifths(),
            }),
        }
    }

    /// The key that sounds the same with a writable signature; `None` if this one is writable.
    #[must_use]
    pub fn respelled(self) -> Option<Self> {
        if self.signature().is_ok() {
            return None;
        }
        Some(Self::written(self.home.pitch_class(), self.mode))
    }

    /// The usual way to write a mode on a note: at most six sharps or flats, six as sharps
    /// only where a major key's relative would be (F sharp before G flat).
    #[must_use]
    pub fn written(home: PitchClass, mode: Mode) -> Self {
        // The signature within −5 to +6; Spelling::near keeps home −5..=6 about a centre.
        let centre = -mode.fifths();
        Self::new(Spelling::near(home, centre), mode)
    }

    /// The same key with its home spelled for another signature where that is the same notes:
    /// the one of this sound whose signature is nearest to `fifths`.
    #[must_use]
    pub fn written_near(home: PitchClass, mode: Mode, fifths: i32) -> Self {
        let usual = Self::written(home, mode);
        let place = usual.fifths();
        let best = [place, place - 12, place + 12]
            .into_iter()
            .filter(|f| (-7..=7).contains(f))
            .min_by_key(|f| ((f - fifths).abs(), (f - place).abs()))
            .unwrap_or(place);
        Spelling::from_fifths(best - mode.fifths()).map_or(usual, |home| Self::new(home, mode))
    }

    /// The seven notes from home upwards, each letter once.
    ///
    /// # Errors
    ///
    /// [`TheoryError::SignatureTooLarge`] where the key cannot be written.
    pub fn scale(self) -> Result<[Spelling; 7], TheoryError> {
        let signature = self.signature()?;
        Ok(std::array::from_fn(|i| {
            let step = self.home.step.up(i32::try_from(i).unwrap_or(0));
            Spelling::new(step, signature.alter(step))
        }))
    }

    /// The notes as pitch classes; needs no signature.
    #[must_use]
    pub fn pitch_set(self) -> PitchSet {
        self.mode.pitch_set(self.home.pitch_class())
    }

    /// The major key whose notes these are.
    ///
    /// # Errors
    ///
    /// [`TheoryError::SignatureTooLarge`] where the key cannot be written.
    pub fn parent(self) -> Result<Self, TheoryError> {
        let fifths = i32::from(self.signature()?.fifths());
        Ok(Self::new(Spelling::from_fifths(fifths)?, Mode::Ionian))
    }

    /// The seven keys with the same notes, in the order of the parent's degrees; this key is
    /// one of them.
    ///
    /// # Errors
    ///
    /// [`TheoryError::SignatureTooLarge`] where the key cannot be written.
    pub fn relatives(self) -> Result<[Self; 7], TheoryError> {
        let parent = self.parent()?;
        let notes = parent.scale()?;
        Ok(std::array::from_fn(|i| Self::new(notes[i], Mode::ALL[i])))
    }

    /// The seven modes on the same home from the brightest to the darkest, each with the
    /// degrees that change from this one; this key is one of them, with no change.
    #[must_use]
    pub fn parallels(self) -> [Parallel; 7] {
        let from = self.mode.semitones();
        Mode::BY_BRIGHTNESS.map(|mode| {
            let to = mode.semitones();
            let changes = (0..7_u8)
                .filter_map(|i| {
                    let at = usize::from(i);
                    let by = i8::try_from(i16::from(to[at]) - i16::from(from[at])).ok()?;
                    (by != 0).then_some((i + 1, by))
                })
                .collect();
            Parallel { key: Self::new(self.home, mode), changes }
        })
    }

    /// Which degree of the key a letter is, 1 to 7.
    #[must_use]
    pub fn degree_of(self, step: Step) -> u8 {
        (step.index() + 7 - self.home.step.index()) % 7 + 1
    }
}

impl fmt::Display for Key {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.home, self.mode)
    }
}

impl FromStr for Key {
    type Err = TheoryError;

    /// Reads the canonical form: a note name, a space, a mode: `D dorian`.
    fn from_str(text: &str) -> Result<Self, TheoryError> {
        let bad = || TheoryError::NotA { wanted: "key", found: text.to_owned() };
        let (home, mode) = text.split_once(' ').ok_or_else(bad)?;
        Ok(Self::new(home.parse()?, mode.parse()?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_105_keys_are_spelled_right() {
        let mut count = 0;
        for place in -14..=14 {
            let home = Spelling::from_fifths(place).unwrap();
            for mode in Mode::ALL {
                let key = Key::new(home, mode);
                let Ok(notes) = key.scale() else {
                    let other = key.respelled().unwrap();
                    assert_eq!(other.pitch_set(), key.pitch_set(), "{key}");
                    assert!(other.signature().is_ok());
                    assert!(key.relatives().is_err() && key.parent().is_err());
                    continue;
                };
                count += 1;
                assert_eq!(key.respelled(), None);
                // Each letter once, the pattern of the mode above home.
                for (i, note) in notes.iter().enumerate() {
                    assert_eq!(note.step, home.step.up(i32::try_from(i).unwrap()));
                    assert_eq!(
                        note.pitch_class().above(home.pitch_class()),
                        mode.semitones()[i],
                        "{key}"
                    );
                }
                let relatives = key.relatives().unwrap();
                assert!(relatives.contains(&key));
                for other in relatives {
                    assert_eq!(other.pitch_set(), key.pitch_set());
                    assert_eq!(other.signature(), key.signature());
                }
                assert_eq!(key.to_string().parse(), Ok(key));
            }
        }
        assert_eq!(count, 105);
    }

    #[test]
    fn parallels_change_what_they_say() {
        for mode in Mode::ALL {
            let key = Key::new(Spelling::natural(Step::D), mode);
            for other in key.parallels() {
                let sum: i32 = other.changes.iter().map(|&(_, by)| i32::from(by)).sum();
                assert_eq!(sum, other.key.mode.fifths() - mode.fifths());
            }
        }
    }

    #[test]
    fn written_keys_stay_within_six() {
        for class in PitchClass::all() {
            for mode in Mode::ALL {
                let key = Key::written(class, mode);
                assert!((-5..=6).contains(&key.fifths()), "{key}");
                assert_eq!(key.home.pitch_class(), class);
                for fifths in -7..=7 {
                    let near = Key::written_near(class, mode, fifths);
                    assert_eq!(near.pitch_set(), key.pitch_set());
                    assert!(near.signature().is_ok());
                }
            }
        }
        let e = PitchClass::new(3);
        assert_eq!(Key::written_near(e, Mode::Aeolian, -6).to_string(), "Eb aeolian");
        assert_eq!(Key::written_near(e, Mode::Aeolian, 6).to_string(), "D# aeolian");
    }
}

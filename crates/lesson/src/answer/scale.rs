//! The answer of `scale`: a key with its notes and its relations.

use super::SCHEMA;
use crate::words;
use modewright_core::{Key, TheoryError};
use serde::Serialize;

/// A key, its notes, and the modes related to it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ScaleAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// Home note.
    pub home: String,
    /// Mode.
    pub mode: &'static str,
    /// Sharps (positive) or flats (negative).
    pub signature: i8,
    /// Home of the parent major scale.
    pub parent: String,
    /// The notes from home upwards.
    pub degrees: Vec<DegreeAnswer>,
    /// Degrees that tell the mode from its neighbours, against major.
    pub telltale: Vec<String>,
    /// The keys with the same notes, in the order of the parent's degrees.
    pub relatives: Vec<RelativeAnswer>,
    /// The modes on the same home, from the brightest to the darkest.
    pub parallels: Vec<ParallelAnswer>,
    /// The key in a learner's words.
    pub story: String,
}

/// A note of a scale.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DegreeAnswer {
    /// 1 to 7.
    pub degree: u8,
    /// Its name.
    pub note: String,
    /// Semitones above home.
    pub semitones: u8,
    /// The degree against the major scale on the same home: `b3`, `4`, `#4`.
    pub against_major: String,
}

/// A key with the same notes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RelativeAnswer {
    /// Home note.
    pub home: String,
    /// Mode.
    pub mode: &'static str,
    /// Which degree of the parent major scale its home is.
    pub parent_degree: u8,
}

/// A mode on the same home.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ParallelAnswer {
    /// Home note.
    pub home: String,
    /// Mode.
    pub mode: &'static str,
    /// Its signature; `null` where it would need more than seven sharps or flats.
    pub signature: Option<i8>,
    /// The notes that change from this key: what they were, and what they become.
    pub changes: Vec<[String; 2]>,
}

impl ScaleAnswer {
    /// All about a key.
    ///
    /// # Errors
    ///
    /// [`TheoryError::SignatureTooLarge`] for a key that cannot be written.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_lesson::answer::ScaleAnswer;
    ///
    /// let answer = ScaleAnswer::new("E dorian".parse()?)?;
    /// assert_eq!((answer.signature, answer.parent.as_str()), (2, "D"));
    /// assert!(ScaleAnswer::new("G# ionian".parse()?).is_err());
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    pub fn new(key: Key) -> Result<Self, TheoryError> {
        let notes = key.scale()?;
        let degrees = key.mode.degrees();
        Ok(Self {
            schema: SCHEMA,
            home: key.home.to_string(),
            mode: key.mode.name(),
            signature: key.signature()?.fifths(),
            parent: key.parent()?.home.to_string(),
            degrees: degrees
                .iter()
                .zip(notes)
                .map(|(degree, note)| DegreeAnswer {
                    degree: degree.number(),
                    note: note.to_string(),
                    semitones: degree.semitones(),
                    against_major: degree.to_string(),
                })
                .collect(),
            telltale: key.mode.telltale_degrees().iter().map(ToString::to_string).collect(),
            relatives: key
                .relatives()?
                .into_iter()
                .map(|other| RelativeAnswer {
                    home: other.home.to_string(),
                    mode: other.mode.name(),
                    parent_degree: other.mode.parent_degree(),
                })
                .collect(),
            parallels: key.parallels().iter().map(|other| parallel(key, other.key)).collect(),
            story: words::story(key),
        })
    }
}

fn parallel(from: Key, to: Key) -> ParallelAnswer {
    let changes = words::changed(from, to);
    ParallelAnswer {
        home: to.home.to_string(),
        mode: to.mode.name(),
        signature: to.signature().ok().map(modewright_core::Signature::fifths),
        changes: changes.into_iter().map(|(old, new)| [old, new].map(|n| n.to_string())).collect(),
    }
}

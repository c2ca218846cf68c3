//! A key on the wheel in words: what it is, and what turning to it changed.

use super::{
    key::{key_name, note, signature, story},
    list::list,
};
use modewright_core::Key;

/// A key in one sentence that needs no picture: its story, its notes, its signature.
///
/// # Examples
///
/// ```
/// use modewright_lesson::words::in_one_sentence;
///
/// assert_eq!(
///     in_one_sentence("E dorian".parse()?),
///     "E Dorian is the notes of D major with E as home: E, F♯, G, A, B, C♯ and D; \
///      two sharps, F♯ and C♯."
/// );
/// // A key that cannot be written is not spelled out.
/// assert_eq!(
///     in_one_sentence("G# ionian".parse()?),
///     "G♯ major is the plain major scale on G♯."
/// );
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn in_one_sentence(key: Key) -> String {
    let story = story(key);
    let (Ok(scale), Ok(written)) = (key.scale(), key.signature()) else {
        return format!("{story}.");
    };
    let names: Vec<String> = scale.into_iter().map(note).collect();
    format!("{story}: {}; {}.", list(&names), signature(written))
}

/// What turning from one key to another changed, as a sentence; `None` where they are the same
/// or share neither home nor notes.
///
/// # Examples
///
/// ```
/// use modewright_lesson::words::turned;
///
/// let dorian = "E dorian".parse()?;
/// assert_eq!(
///     turned(dorian, "E aeolian".parse()?),
///     Some("The same home as E Dorian, with C for C♯.".into())
/// );
/// assert_eq!(
///     turned(dorian, "A mixolydian".parse()?),
///     Some("The same notes as E Dorian, with A as home.".into())
/// );
/// // C Dorian is neither.
/// assert_eq!(turned(dorian, "C dorian".parse()?), None);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn turned(from: Key, to: Key) -> Option<String> {
    if from == to {
        return None;
    }
    let name = key_name(from);
    if from.pitch_set() == to.pitch_set() {
        return Some(format!("The same notes as {name}, with {} as home.", note(to.home)));
    }
    if from.home.pitch_class() != to.home.pitch_class() {
        return None;
    }
    let (old, new) = (from.scale().ok()?, to.scale().ok()?);
    let changes: Vec<String> = new
        .into_iter()
        .zip(old)
        .filter(|(new, old)| new.pitch_class() != old.pitch_class())
        .map(|(new, old)| format!("{} for {}", note(new), note(old)))
        .collect();
    Some(format!("The same home as {name}, with {}.", list(&changes)))
}

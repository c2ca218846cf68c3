//! The answer of `whoPlays`: which of some instruments play a tune where it stands.

use super::SCHEMA;
use crate::words;
use modewright_core::Tune;
use modewright_core::find::Finding;
use modewright_core::fit::{Elsewhere, ReasonKind, elsewhere};
use modewright_core::instrument::Instrument;
use modewright_core::transpose::key_of;
use serde::Serialize;

/// Who plays a tune where it stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WhoAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// The instruments, those on which it lies best first.
    pub instruments: Vec<WhoseAnswer>,
    /// The answer in a sentence; `null` without an instrument or a note.
    pub words: Option<String>,
}

/// An instrument, with the tune where it stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WhoseAnswer {
    /// A name for programs.
    pub id: String,
    /// A name for people.
    pub name: String,
    /// How many notes are missing there; 0 where it plays all of it.
    pub missing: u32,
}

impl WhoAnswer {
    /// Asks instruments for a tune.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::find::find;
    /// use modewright_formats::instrument::builtin;
    /// use modewright_formats::{ReadOptions, read, source::split};
    /// use modewright_lesson::answer::WhoAnswer;
    ///
    /// let text = split("X:1\nL:1/4\nK:D\nA,DFA|\n").next().unwrap();
    /// let tune = read(&text, &ReadOptions::default()).tune;
    /// let mine = ["tin-whistle-d", "fiddle"].map(|id| builtin::find(id).unwrap().clone());
    /// let answer = WhoAnswer::new(&tune, &find(&tune), &mine);
    /// assert_eq!(answer.instruments[0].id, "fiddle");
    /// assert_eq!(answer.instruments[1].missing, 1);
    /// assert_eq!(
    ///     answer.words.as_deref(),
    ///     Some("Of yours, it is played where it stands by the fiddle (first position).")
    /// );
    /// // Nobody can be asked for nothing.
    /// assert_eq!(WhoAnswer::new(&tune, &find(&tune), &[]).words, None);
    /// ```
    #[must_use]
    pub fn new(tune: &Tune, finding: &Finding, instruments: &[Instrument]) -> Self {
        let is_asked = !instruments.is_empty();
        let places = elsewhere(tune, instruments, key_of(tune, finding));
        let answer = |place: &Elsewhere| {
            let it = instruments.get(place.index)?;
            let mut reasons = place.candidate.reasons.iter();
            let missing = reasons.find(|reason| reason.kind == ReasonKind::Missing);
            Some(WhoseAnswer {
                id: it.id.clone(),
                name: it.name.clone(),
                missing: missing.map_or(0, |reason| reason.number.unsigned_abs()),
            })
        };
        let instruments: Vec<WhoseAnswer> = places.iter().filter_map(answer).collect();
        let whole = instruments.iter().filter(|it| it.missing == 0).map(|it| it.name.clone());
        let nearest = instruments.first().map(|it| (it.name.as_str(), it.missing));
        let is_asked = is_asked && tune.soundings().next().is_some();
        let words = is_asked.then(|| words::who_plays(&whole.collect::<Vec<String>>(), nearest));
        Self { schema: SCHEMA, instruments, words }
    }
}

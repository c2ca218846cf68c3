//! Instruments: which notes each has, and the ways to play them.
//!
//! An instrument is data; nothing here is known of any one of them. *Written* pitch is what the
//! player reads, *sounding* pitch what is heard; the notes are listed as written, and
//! [`Instrument::written_to_sounding`] is the one place that leads from the one to the other.

mod costs;
mod shift;
mod way;

pub use costs::{Costs, Style};
pub use way::{Certainty, Direction, Ease, Fret, Hand, Hole, Lever, Register, Way};

use crate::{Interval, Pitch, Signature, Spelling, TheoryError, order};
use std::fmt;

/// What blows the reeds, for the names of the two directions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Air {
    /// Bellows: push and draw.
    Bellows,
    /// Breath: blow and draw.
    Breath,
}

/// What a row of buttons is called.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RowName {
    /// The major key that it spells.
    Key(Spelling),
    /// Its place, in a word.
    Place(String),
}

impl fmt::Display for RowName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Key(key) => key.fmt(f),
            Self::Place(place) => f.write_str(place),
        }
    }
}

/// A row of buttons.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// Its key, or its place.
    pub name: RowName,
    /// How far its first button lies beside the first button of row 0, in half buttons.
    pub offset: i8,
    /// The finger that its buttons belong to, where each row has one: rows of one finger are in
    /// each other's way, others are not.
    pub finger: Option<u8>,
}

/// Finger holes that belong together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HoleGroup {
    /// Where they are: "thumb", "upper hand".
    pub name: String,
    /// How many.
    pub count: u8,
}

/// A note that an instrument has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Playable {
    /// The written pitch.
    pub written: Pitch,
    /// At least one way to play it, the usual one first.
    pub ways: Vec<Way>,
}

impl Playable {
    /// How easily it comes in its easiest way that is not doubtful; `None` where all are.
    #[must_use]
    pub fn ease(&self) -> Option<Ease> {
        self.ways.iter().filter(|way| !way.certainty.is_doubtful()).map(|way| way.ease).min()
    }
}

/// An instrument of one size.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Instrument {
    /// A name for programs, in kebab case: `tin-whistle-d`.
    pub id: String,
    /// A name for people: "tin whistle in D".
    pub name: String,
    /// What it is a size of: "tin whistle".
    pub family: String,
    /// Its size or key: "D".
    pub size: String,
    /// Semitones from the written pitch to the sounding one: a tin whistle sounds 12 higher
    /// than it is written.
    pub written_to_sounding: i16,
    /// What blows its reeds.
    pub air: Option<Air>,
    /// Its rows of buttons.
    pub rows: Vec<Row>,
    /// Its open strings, as written, in the order in which they are strung.
    pub strings: Vec<Pitch>,
    /// Names of the strings, where their open notes do not tell them apart; empty otherwise.
    pub string_names: Vec<String>,
    /// Whether the strings have frets; otherwise fingers are counted.
    pub fretted: bool,
    /// Its finger holes, top to bottom.
    pub holes: Vec<HoleGroup>,
    /// The written span that is comfortable, lowest and highest note.
    pub comfortable: Option<(Pitch, Pitch)>,
    /// Written signatures that lie well on it, the best first.
    pub liked: Vec<Signature>,
    /// Manners of playing, the usual one first; an instrument with one has it alone.
    pub styles: Vec<Style>,
    /// How sure its layout is as a whole.
    pub certainty: Certainty,
    /// Where its facts come from.
    pub source: String,
    /// What is uncertain or varies, a sentence each.
    pub remarks: Vec<String>,
    notes: Vec<Playable>,
}

impl Instrument {
    /// The most notes that an instrument may have: the MIDI scale.
    pub const MAX_NOTES: usize = 128;
    /// The most ways to play one note.
    pub const MAX_WAYS: usize = 32;

    /// The instrument with these ways to play, each with its written pitch; those of one height
    /// are gathered in the order of the list under the name that comes first.
    #[must_use]
    pub fn with_ways(self, ways: impl IntoIterator<Item = (Pitch, Way)>) -> Self {
        let mut notes: Vec<Playable> = Vec::new();
        for (written, way) in ways {
            match notes.iter_mut().find(|note| note.written.midi() == written.midi()) {
                Some(note) => note.ways.push(way),
                None => notes.push(Playable { written, ways: vec![way] }),
            }
        }
        self.with_notes(notes)
    }

    /// The instrument with these notes, each of a height of its own.
    #[must_use]
    pub fn with_notes(mut self, mut notes: Vec<Playable>) -> Self {
        order::by_number(&mut notes, |note| height(note.written.midi()));
        self.notes = notes;
        self
    }

    /// Its notes, from the lowest to the highest.
    #[must_use]
    pub fn notes(&self) -> &[Playable] {
        &self.notes
    }

    /// The note of a written height (see [`Pitch::midi`]); `None` where it has none.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::instrument::{Instrument, Way};
    ///
    /// let f_sharp = "F#4".parse()?;
    /// let pipe = Instrument::default().with_ways([(f_sharp, Way::default())]);
    /// assert!(pipe.note(66).is_some());
    /// // Spelling does not matter: G flat is the same key.
    /// assert!(pipe.note("Gb4".parse::<modewright_core::Pitch>()?.midi()).is_some());
    /// assert!(pipe.note(67).is_none());
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    #[must_use]
    pub fn note(&self, written: i16) -> Option<&Playable> {
        let at = self.notes.binary_search_by_key(&written, |note| note.written.midi()).ok()?;
        self.notes.get(at)
    }

    /// How easily the note of a written height comes; `None` where it is missing, or where all
    /// that is known of it is doubtful.
    #[must_use]
    pub fn ease(&self, written: i16) -> Option<Ease> {
        self.note(written)?.ease()
    }

    /// Its lowest note, as written.
    #[must_use]
    pub fn lowest(&self) -> Option<Pitch> {
        self.notes.first().map(|note| note.written)
    }

    /// Its highest note, as written.
    #[must_use]
    pub fn highest(&self) -> Option<Pitch> {
        self.notes.last().map(|note| note.written)
    }

    /// The interval from written to sounding pitch.
    #[must_use]
    pub const fn to_sounding(&self) -> Interval {
        Interval::from_semitones(self.written_to_sounding)
    }

    /// What is heard when a pitch is read.
    ///
    /// # Errors
    ///
    /// [`TheoryError`] where the result leaves what a pitch can be.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::instrument::Instrument;
    ///
    /// let mut pipe = Instrument::default();
    /// pipe.written_to_sounding = 12;
    /// assert_eq!(pipe.sounding("D4".parse()?)?, "D5".parse()?);
    /// // Bagpipes sound about a semitone higher than they are written.
    /// pipe.written_to_sounding = 1;
    /// assert_eq!(pipe.sounding("A4".parse()?)?, "Bb4".parse()?);
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    pub fn sounding(&self, written: Pitch) -> Result<Pitch, TheoryError> {
        written.transpose(self.to_sounding()).map(Pitch::writable)
    }

    /// What must be read so that a pitch is heard.
    ///
    /// # Errors
    ///
    /// [`TheoryError`] where the result leaves what a pitch can be.
    pub fn written(&self, sounding: Pitch) -> Result<Pitch, TheoryError> {
        sounding.transpose(-self.to_sounding()).map(Pitch::writable)
    }

    /// The usual manner of playing; one that minds nothing where the data has none.
    #[must_use]
    pub fn costs(&self) -> Costs {
        self.styles.first().map_or_else(Costs::default, |style| style.costs)
    }
}

/// A signed height as a number that sorts alike.
fn height(midi: i16) -> u32 {
    i32::from(midi).cast_unsigned() ^ 1 << 31
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_are_in_order_and_gather_their_ways() {
        let way = |button| Way { button: Some(button), ..Way::default() };
        let list = [("C5", 1), ("G#3", 2), ("C5", 3), ("Ab3", 4), ("C-1", 5)];
        let list = list.map(|(name, button)| (name.parse().unwrap(), way(button)));
        let instrument = Instrument::default().with_ways(list);
        let told: Vec<(String, usize)> =
            instrument.notes().iter().map(|n| (n.written.to_string(), n.ways.len())).collect();
        assert_eq!(told, [("C-1".into(), 1), ("G#3".into(), 2), ("C5".into(), 2)]);
        assert_eq!(instrument.note(56).unwrap().ways[1].button, Some(4));
        assert_eq!(instrument.lowest().unwrap().to_string(), "C-1");
        assert_eq!(instrument.highest().unwrap().to_string(), "C5");
        assert_eq!(Instrument::default().lowest(), None);
    }

    #[test]
    fn a_doubtful_way_alone_is_no_way() {
        let way = |ease, certainty| Way { ease, certainty, ..Way::default() };
        let c: Pitch = "C4".parse().unwrap();
        let doubtful = way(Ease::Easy, Certainty::Doubtful);
        let alone = Instrument::default().with_ways([(c, doubtful.clone())]);
        assert_eq!(alone.ease(60), None);
        let awkward = way(Ease::Awkward, Certainty::Practice);
        let both = Instrument::default().with_ways([(c, doubtful), (c, awkward)]);
        assert_eq!(both.ease(60), Some(Ease::Awkward));
    }

    #[test]
    fn written_and_sounding_undo_each_other() {
        for shift in -36..=36 {
            let it = Instrument { written_to_sounding: shift, ..Instrument::default() };
            let written: Pitch = "D4".parse().unwrap();
            let sounding = it.sounding(written).unwrap();
            assert_eq!(sounding.midi(), written.midi() + shift);
            assert_eq!(it.written(sounding), Ok(written));
        }
    }
}

//! The answer of `instruments`: what each has, as written and as it sounds.

use super::SCHEMA;
use crate::words;
use modewright_core::Pitch;
use modewright_core::instrument::{
    Air, Certainty, Direction, Hand, Hole, Instrument, Lever, Register, Way,
};
use serde::Serialize;

/// Instruments with their notes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct InstrumentsAnswer {
    /// [`SCHEMA`].
    pub schema: u32,
    /// The instruments, family by family.
    pub instruments: Vec<InstrumentAnswer>,
}

/// An instrument.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct InstrumentAnswer {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Its family.
    pub family: String,
    /// Its size or key.
    pub size: String,
    /// Its lowest note, as written.
    pub lowest: Option<String>,
    /// Its highest note, as written.
    pub highest: Option<String>,
    /// What its lowest note sounds.
    pub sounding_lowest: Option<String>,
    /// What its highest note sounds.
    pub sounding_highest: Option<String>,
    /// Semitones from the written pitch to the sounding one.
    pub written_to_sounding: i16,
    /// The written span that is comfortable.
    pub comfortable: Option<[String; 2]>,
    /// Signatures that lie well, the best first: sharps positive, flats negative.
    pub liked: Vec<i8>,
    /// Manners of playing, the usual one first.
    pub styles: Vec<String>,
    /// How sure its layout is: `published`, `computed`, `memory`, `practice` or `doubtful`.
    pub certainty: &'static str,
    /// The same for a learner: `published` or `usual, unconfirmed`.
    pub standing: &'static str,
    /// Where its facts come from.
    pub source: String,
    /// What is uncertain or varies.
    pub remarks: Vec<String>,
    /// What the signs mean.
    pub legend: Vec<String>,
    /// Its notes, from the lowest.
    pub notes: Vec<PlayableAnswer>,
}

/// A note of an instrument.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PlayableAnswer {
    /// The written pitch.
    pub pitch: String,
    /// The sounding pitch.
    pub sounding: Option<String>,
    /// The ways to play it, the usual one first.
    pub ways: Vec<SignedWayAnswer>,
}

/// A way with its sign and how sure it is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SignedWayAnswer {
    /// The way.
    pub way: WayAnswer,
    /// Its sign; empty where each note has one key, or is sung.
    pub sign: String,
    /// `easy`, `fair` or `awkward`.
    pub ease: &'static str,
    /// How sure it is, as for the instrument.
    pub certainty: &'static str,
    /// The same for a learner.
    pub standing: &'static str,
}

/// A way to play a note; what the instrument does not have is `null`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct WayAnswer {
    /// `left` or `right`.
    pub hand: Option<&'static str>,
    /// The row by its key or place.
    pub row: Option<String>,
    /// The button, counted from the lowest of its row and hand; on a harmonica, the hole.
    pub button: Option<u8>,
    /// `push` or `draw`; on a harmonica `blow` or `draw`.
    pub direction: Option<&'static str>,
    /// Semitones that the reed is bent down by.
    pub bend: u8,
    /// The holes, top to bottom: `X` closed, `/` half closed, `O` open.
    pub holes: Option<String>,
    /// How many holes are closed.
    pub closed: Option<u8>,
    /// The string by its open note, as written.
    pub string: Option<String>,
    /// The fret, like `6+`; without frets, semitones above the open string.
    pub fret: Option<String>,
    /// The finger: 1 is the index finger, 0 an open string.
    pub finger: Option<u8>,
    /// `up` or `down`.
    pub lever: Option<&'static str>,
    /// `low`, `high` or `third`.
    pub register: Option<&'static str>,
}

impl InstrumentsAnswer {
    /// Puts instruments into their shape.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_formats::instrument::builtin;
    /// use modewright_lesson::answer::InstrumentsAnswer;
    ///
    /// let answer = InstrumentsAnswer::new([builtin::find("tin-whistle-d").unwrap()]);
    /// let whistle = &answer.instruments[0];
    /// assert_eq!(whistle.lowest.as_deref(), Some("D4"));
    /// // What is read and what is heard are an octave apart.
    /// assert_eq!(whistle.sounding_lowest.as_deref(), Some("D5"));
    /// ```
    #[must_use]
    pub fn new<'a>(instruments: impl IntoIterator<Item = &'a Instrument>) -> Self {
        let instruments = instruments.into_iter().map(InstrumentAnswer::new).collect();
        Self { schema: SCHEMA, instruments }
    }
}

impl InstrumentAnswer {
    /// Puts an instrument into its shape.
    #[must_use]
    pub fn new(it: &Instrument) -> Self {
        let sounding = |pitch: Pitch| it.sounding(pitch).ok().map(|pitch| pitch.to_string());
        let name = |pitch: Pitch| pitch.to_string();
        Self {
            id: it.id.clone(),
            name: it.name.clone(),
            family: it.family.clone(),
            size: it.size.clone(),
            lowest: it.lowest().map(name),
            highest: it.highest().map(name),
            sounding_lowest: it.lowest().and_then(sounding),
            sounding_highest: it.highest().and_then(sounding),
            written_to_sounding: it.written_to_sounding,
            comfortable: it.comfortable.map(|(low, high)| [name(low), name(high)]),
            liked: it.liked.iter().map(|signature| signature.fifths()).collect(),
            styles: it.styles.iter().map(|style| style.id.clone()).collect(),
            certainty: certainty(it.certainty),
            standing: words::standing(it.certainty),
            source: it.source.clone(),
            remarks: it.remarks.clone(),
            legend: words::legend(it),
            notes: it
                .notes()
                .iter()
                .map(|note| PlayableAnswer {
                    pitch: name(note.written),
                    sounding: sounding(note.written),
                    ways: note.ways.iter().map(|way| SignedWayAnswer::new(it, way)).collect(),
                })
                .collect(),
        }
    }
}

impl SignedWayAnswer {
    /// Puts a way into its shape.
    #[must_use]
    pub fn new(it: &Instrument, way: &Way) -> Self {
        Self {
            way: WayAnswer::new(it, way),
            sign: words::sign(it, way),
            ease: words::ease(way.ease),
            certainty: certainty(way.certainty),
            standing: words::standing(way.certainty),
        }
    }
}

impl WayAnswer {
    /// Puts a way into its shape.
    #[must_use]
    pub fn new(it: &Instrument, way: &Way) -> Self {
        let row = way.row.and_then(|row| it.rows.get(usize::from(row)));
        let string = way.string.and_then(|string| it.strings.get(usize::from(string)));
        let holes = way.holes.iter().map(|hole| match hole {
            Hole::Closed => 'X',
            Hole::Half => '/',
            Hole::Open => 'O',
        });
        Self {
            hand: way.hand.map(|hand| match hand {
                Hand::Left => "left",
                Hand::Right => "right",
            }),
            row: row.map(|row| row.name.to_string()),
            button: way.button,
            direction: way.direction.map(|direction| match (direction, it.air) {
                (Direction::Draw, _) => "draw",
                (Direction::Push, Some(Air::Breath)) => "blow",
                (Direction::Push, _) => "push",
            }),
            bend: way.bend,
            holes: (!way.holes.is_empty()).then(|| holes.collect()),
            closed: way.closed,
            string: string.map(ToString::to_string),
            fret: way.fret.map(|fret| fret.to_string()),
            finger: way.finger,
            lever: way.lever.map(|lever| match lever {
                Lever::Up => "up",
                Lever::Down => "down",
            }),
            register: way.register.map(|register| match register {
                Register::Low => "low",
                Register::High => "high",
                Register::Third => "third",
            }),
        }
    }
}

/// The name of a mark of certainty, as answers and files have it.
const fn certainty(certainty: Certainty) -> &'static str {
    match certainty {
        Certainty::Published => "published",
        Certainty::Computed => "computed",
        Certainty::Memory => "memory",
        Certainty::Practice => "practice",
        Certainty::Doubtful => "doubtful",
    }
}

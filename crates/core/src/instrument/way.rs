//! One way to play a note.

use std::{fmt, str::FromStr};

/// A hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hand {
    /// The left one.
    Left,
    /// The right one.
    Right,
}

/// Which way the air goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Direction {
    /// Bellows closing; on a harmonica, blowing.
    Push,
    /// Bellows opening; on a harmonica, drawing breath.
    Draw,
}

/// What a finger does to a hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hole {
    /// Covered.
    Closed,
    /// Half covered; of a double hole, one of the two.
    Half,
    /// Left open.
    Open,
}

/// How a pipe is blown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Register {
    /// The lowest notes of the pipe.
    Low,
    /// An octave above them: blown harder, or with the thumb hole pinched.
    High,
    /// Above that.
    Third,
}

/// The lever of a harp string.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Lever {
    /// The string sounds its open note.
    Down,
    /// The string sounds a semitone higher.
    Up,
}

/// A fret, counted from the nut; 0 is the open string. Diatonic fretboards have half frets
/// between the numbered ones.
///
/// # Examples
///
/// ```
/// use modewright_core::instrument::Fret;
///
/// let six_and_a_half: Fret = "6+".parse()?;
/// assert_eq!((six_and_a_half.number, six_and_a_half.half), (6, true));
/// assert!(Fret::new(6) < six_and_a_half && six_and_a_half < Fret::new(7));
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fret {
    /// Its number, or that of the fret below a half fret.
    pub number: u8,
    /// Whether it is the half fret above that number.
    pub half: bool,
}

impl Fret {
    /// A numbered fret.
    #[must_use]
    pub const fn new(number: u8) -> Self {
        Self { number, half: false }
    }
}

impl fmt::Display for Fret {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.number, if self.half { "+" } else { "" })
    }
}

impl FromStr for Fret {
    type Err = crate::TheoryError;

    /// Reads the canonical form: `6` or `6+`.
    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let (number, half) = text.strip_suffix('+').map_or((text, false), |rest| (rest, true));
        let number = number
            .parse()
            .map_err(|_| crate::TheoryError::NotA { wanted: "fret", found: text.to_owned() })?;
        Ok(Self { number, half })
    }
}

/// How easily a note comes, easiest first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Ease {
    /// Among the first that a learner plays.
    #[default]
    Easy,
    /// In common use, but not among the first: a cross fingering, the fourth finger.
    Fair,
    /// Hard to sound or to tune: a half-covered hole, a bent reed.
    Awkward,
}

/// Where a fact is known from, the surest first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Certainty {
    /// Read in a public source.
    #[default]
    Published,
    /// Follows from published facts, and was checked by arithmetic.
    Computed,
    /// Standard in the trade, written down from memory.
    Memory,
    /// Practice, without a source.
    Practice,
    /// Doubtful: to be confirmed with a player or a maker.
    Doubtful,
}

impl Certainty {
    /// Whether a public source stands behind it.
    #[must_use]
    pub const fn is_published(self) -> bool {
        matches!(self, Self::Published | Self::Computed)
    }

    /// Whether a plan may rest on it without being asked to.
    #[must_use]
    pub const fn is_doubtful(self) -> bool {
        matches!(self, Self::Doubtful)
    }
}

/// One way to play a note. What an instrument does not have stays `None` or empty; a voice has
/// nothing at all.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Way {
    /// The hand, where a hand has its own keys.
    pub hand: Option<Hand>,
    /// The row, as an index into the instrument's rows.
    pub row: Option<u8>,
    /// The button, counted from the lowest of its row and hand, from 1; on a harmonica, the
    /// hole.
    pub button: Option<u8>,
    /// Which way the air goes, where that changes the note.
    pub direction: Option<Direction>,
    /// Semitones that a reed is bent down by.
    pub bend: u8,
    /// The finger holes, top to bottom.
    pub holes: Vec<Hole>,
    /// How many holes are closed, where the order of the fingers is the maker's.
    pub closed: Option<u8>,
    /// The string, as an index into the instrument's strings.
    pub string: Option<u8>,
    /// The fret, or on a bowed string the semitones above the open one.
    pub fret: Option<Fret>,
    /// The finger: 1 is the index finger, 0 an open string.
    pub finger: Option<u8>,
    /// The lever of the string.
    pub lever: Option<Lever>,
    /// How a pipe is blown.
    pub register: Option<Register>,
    /// How easily it comes.
    pub ease: Ease,
    /// Where it is known from.
    pub certainty: Certainty,
}

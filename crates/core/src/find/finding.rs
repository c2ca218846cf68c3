//! The answer: ranked candidates, how sure, and what the tune leaves open.

use crate::{Key, Position, Range};

use super::{Agreement, Given, NotePattern, NoteShare, Open, Variant};

/// A chance in ten-thousandths: 9312 is 93.12 %.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Chance(u16);

impl Chance {
    /// Certainty.
    pub const ONE: Self = Self(10_000);

    /// A chance from ten-thousandths; more than [`Chance::ONE`] counts as certainty.
    #[must_use]
    pub const fn from_ten_thousandths(parts: u16) -> Self {
        if parts > 10_000 { Self::ONE } else { Self(parts) }
    }

    /// Ten-thousandths, 0 to 10 000.
    #[must_use]
    pub const fn ten_thousandths(self) -> u16 {
        self.0
    }

    /// From 0 to 1, exact to four places.
    #[must_use]
    pub fn as_f64(self) -> f64 {
        f64::from(self.0) / 10_000.0
    }
}

/// A candidate with its chance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ranked {
    /// Home and mode, spelled as the tune spells them.
    pub key: Key,
    /// Its chance among all 84.
    pub chance: Chance,
}

/// How far the answer can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// One answer stands out.
    Clear,
    /// Home is clear; the degree that decides the mode never sounds, or once in passing.
    Open,
    /// Two answers are near each other.
    Doubtful,
    /// Nothing honest can be said.
    None,
}

/// Why nothing can be said.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unsaid {
    /// No note sounds.
    NoNotes,
    /// A single note, however often.
    OneNote,
    /// Two notes and no more.
    TwoNotes,
    /// The notes favour no home: every candidate has a small chance.
    NoCentre,
}

/// What a strain on its own would be found to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StrainFinding {
    /// Its part name or letter.
    pub label: String,
    /// Number of its first and last bar.
    pub bars: (u32, u32),
    /// Its best candidate.
    pub best: Ranked,
}

/// Everything that is found about a tune's home, mode and range. Its reasons and what its strains
/// would be are told when they are asked for: [`Finding::evidence`], [`Finding::strains`].
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// How far the answer can be trusted.
    pub verdict: Verdict,
    /// What was known beforehand; the rest is judged given it.
    pub given: Given,
    /// Why not, where the verdict is [`Verdict::None`].
    pub unsaid: Option<Unsaid>,
    /// The candidates from the most likely on; at least three where anything was found.
    pub ranked: Vec<Ranked>,
    /// The set of notes used, as a fact of its own.
    pub pattern: Option<NotePattern>,
    /// Degrees that never sound, or once in passing, and the modes they leave open.
    pub open: Vec<Open>,
    /// Degrees that come in two forms.
    pub variants: Vec<Variant>,
    /// Whether the written key agrees; `None` without a written home and mode.
    pub agrees: Option<Agreement>,
    /// The notes used, with their share of the sounding time, the longest first.
    pub notes: Vec<NoteShare>,
    /// Lowest and highest note; `None` where no note sounds.
    pub range: Option<Range>,
    /// Where the tune lies about home.
    pub position: Option<Position>,
}

impl Finding {
    /// The answer: the most likely home and mode; `None` where nothing can be said.
    #[must_use]
    pub fn best(&self) -> Option<Ranked> {
        if self.verdict == Verdict::None { None } else { self.ranked.first().copied() }
    }
}

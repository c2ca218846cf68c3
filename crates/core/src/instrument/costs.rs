//! What a player pays for, as data of the instrument.

/// What each difficulty costs between one note and the next, in whole points. The numbers say
/// how difficulties compare with each other and mean nothing beside another instrument's.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Costs {
    /// The air changes its direction within a phrase.
    pub turn: u16,
    /// Another row.
    pub row: u16,
    /// Another string; for each string that is crossed.
    pub string: u16,
    /// The finger that holds a button or string must hop to a neighbouring one.
    pub finger: u16,
    /// The hand moves along its row or string: for each button or fret beyond [`Costs::span`].
    pub travel: u16,
    /// How far apart two buttons or frets may lie without the hand moving.
    pub span: u8,
    /// A repeated note changes its way.
    pub repeat: u16,
    /// A lever is set during the tune.
    pub lever: u16,
    /// A note that is not among the first that a learner plays ([`super::Ease::Fair`]).
    pub fair: u16,
    /// An awkward note ([`super::Ease::Awkward`]).
    pub awkward: u16,
}

/// A manner of playing that an instrument offers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Style {
    /// Its name, in kebab case: `along-the-row`.
    pub id: String,
    /// What it avoids.
    pub costs: Costs,
}

//! What is said at a place of the bar.

use std::fmt;

/// A word of counting. It displays as it is said: `1`, `&`, `la`.
///
/// Source of the syllables and of their places in the beat: *Integrated Musicianship: Theory*,
/// units 4 and 21.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Syllable {
    /// The number of a beat.
    Number(u32),
    /// "e": the second quarter of a beat.
    E,
    /// "&": the second half.
    And,
    /// "a": the last quarter.
    A,
    /// "la": the second third.
    La,
    /// "li": the last third.
    Li,
    /// "to": the second of six parts.
    To,
    /// "ta": the fourth of six parts.
    Ta,
    /// "ti": the last of six parts.
    Ti,
    /// A place that the system has no word for: shown as a dot.
    Between,
}

impl fmt::Display for Syllable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Number(number) => return write!(f, "{number}"),
            Self::E => "e",
            Self::And => "&",
            Self::A => "a",
            Self::La => "la",
            Self::Li => "li",
            Self::To => "to",
            Self::Ta => "ta",
            Self::Ti => "ti",
            Self::Between => "·",
        })
    }
}

/// How beats that divide into two are counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Simple {
    /// "1 e & a": halves and quarters have words.
    #[default]
    Quarters,
    /// "1 & 2 &": only halves have; what is shorter is played between the words.
    Halves,
}

/// How the bars of a jig (beats that divide into three) are counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Compound {
    /// "1 2 3 4 5 6": every part has a number. A stage of practice: the beats stay two.
    #[default]
    Parts,
    /// "1 la li 2 la li", with "to", "ta", "ti" between.
    LaLi,
    /// "1 la li 2 la li", with one "ta" for everything between.
    LaLiTa,
    /// "1 & a 2 & a".
    AndA,
}

/// How bars of unequal beats are counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Uneven {
    /// By beats: 2+2+3 is "1 & 2 & 3 la li". Over 4 or less each part is a beat: 5/4 is
    /// "1 2 3 4 5".
    #[default]
    Beats,
    /// By parts: 2+2+3 is "1 2 1 2 1 2 3".
    Parts,
}

/// The words chosen for each kind of metre.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct System {
    /// For beats that divide into two.
    pub simple: Simple,
    /// For beats that divide into three.
    pub compound: Compound,
    /// For unequal beats.
    pub uneven: Uneven,
}

/// How a beat divides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Split {
    Two,
    Three,
}

impl System {
    /// The word at a place inside a beat, given as a fraction of the beat in lowest terms.
    /// `even` says that a beat of three is cut into two or four, as by a duplet.
    pub(super) const fn inside(
        self,
        split: Split,
        (over, under): (u32, u32),
        even: bool,
    ) -> Syllable {
        use Syllable::{A, And, Between, E, La, Li, Ta, Ti, To};
        match split {
            Split::Two => match (over, under, self.simple) {
                (1, 2, _) => And,
                (1, 3, _) => La,
                (2, 3, _) => Li,
                (1, 4, Simple::Quarters) => E,
                (3, 4, Simple::Quarters) => A,
                (1, 6, _) => To,
                (5, 6, _) => Ti,
                _ => Between,
            },
            Split::Three if even => match (over, under) {
                (1, 2) => And,
                (1, 4) => E,
                (3, 4) => A,
                _ => Between,
            },
            Split::Three => match (over, under, self.compound) {
                (1, 3, Compound::AndA) => And,
                (2, 3, Compound::AndA) => A,
                (_, _, Compound::AndA) => Between,
                (1, 3, _) => La,
                (2, 3, _) => Li,
                (1 | 5, 6, Compound::LaLiTa) | (1, 2, _) => Ta,
                (1, 6, _) => To,
                (5, 6, _) => Ti,
                _ => Between,
            },
        }
    }
}

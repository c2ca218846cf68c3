//! What the picture of an instrument says beside its notes.

use super::{Advice, called};
use modewright_core::instrument::{Air, Hand, Instrument};

/// A sign of the picture that needs a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PictureSign {
    /// A house.
    Home,
    /// A filled place.
    Used,
    /// An outlined place.
    Other,
    /// A dashed place.
    Idle,
    /// Two rows for one row of reeds.
    Turn,
    /// Rows beyond these two.
    Bent,
    /// A note above its string.
    Lever,
    /// A plus under a pipe.
    Upper,
    /// Two of them.
    Third,
    /// A number in place of holes.
    Closed,
    /// A question mark in place of holes.
    Unsure,
    /// Numbers under a neck with frets.
    Frets,
    /// Numbers under a neck without.
    Fingers,
}

/// What a sign means, as a sentence.
#[must_use]
pub const fn picture_sign(sign: PictureSign, air: Option<Air>) -> &'static str {
    match sign {
        PictureSign::Home => "A house is home.",
        PictureSign::Used => "Filled: how the tune is played here.",
        PictureSign::Other => "Outlined: another way to play such a note.",
        PictureSign::Idle => "Dashed: not in the tune.",
        PictureSign::Turn => match air {
            Some(Air::Breath) => "Above: blow; below: draw.",
            _ => "Above: push (bellows closing); below: draw (opening).",
        },
        PictureSign::Bent => "Further out: the reed is bent.",
        PictureSign::Lever => "A note above its string: lever up.",
        PictureSign::Upper => "+ is the upper register.",
        PictureSign::Third => "++ is the register above that.",
        PictureSign::Closed => "The number says how many holes are closed.",
        PictureSign::Unsure => "? has no sure fingering.",
        PictureSign::Frets => "Numbers are frets, counted from the nut.",
        PictureSign::Fingers => "Numbers are fingers; 1 is the index finger.",
    }
}

/// The whole picture in a sentence.
#[must_use]
pub fn picture(instrument: &Instrument, of_a_tune: bool) -> String {
    let name = called(&instrument.name);
    if of_a_tune {
        format!("The notes of the tune on {name}")
    } else {
        format!("The notes of {name}")
    }
}

/// The name of a hand.
#[must_use]
pub const fn hand(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => "left hand",
        Hand::Right => "right hand",
    }
}

/// A picture of several tunes was asked for.
#[must_use]
pub fn one_picture() -> Advice {
    Advice {
        message: "a picture shows one tune, and there are more".to_owned(),
        hint: "name a file with one tune, or hand one over on standard input".to_owned(),
    }
}

/// A picture's name that does not end in `.svg`.
#[must_use]
pub fn picture_name(name: &str) -> Advice {
    Advice {
        message: format!("`{name}` does not end in .svg"),
        hint: "a picture is an SVG file: name it like picture.svg".to_owned(),
    }
}

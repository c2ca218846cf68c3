//! The file as it stands, before anything is understood. `tests/schema/instrument.json`
//! describes the same shape for people.

use super::{
    build::Fault,
    json::Node,
    place::Step,
    shape::{Shape, fields, text},
};
use modewright_core::instrument::{Air, Certainty, Direction, Ease, Hand, Lever, Register};

/// An object, what a message calls it, the fields that it needs, and those that it may have.
macro_rules! object {
    ($(#[$about:meta])* $raw:ident, $called:literal,
     needs { $($(#[$of_needed:meta])* $needed:ident: $its:ty),* $(,)? }
     may { $($(#[$of:meta])* $field:ident: $kind:ty),* $(,)? }) => {
        $(#[$about])*
        #[derive(Clone, Debug, Default)]
        pub(super) struct $raw {
            $($(#[$of_needed])* pub $needed: $its,)*
            $($(#[$of])* pub $field: $kind),*
        }

        impl Shape for $raw {
            fn read(node: &Node) -> Result<Self, Fault> {
                const NEEDED: &[&str] = &[$(stringify!($needed)),*];
                const KNOWN: &[&str] = &[$(stringify!($needed),)* $(stringify!($field)),*];
                let mut raw = Self::default();
                for (name, node) in fields(node, $called, KNOWN, NEEDED)? {
                    let read = match name.as_str() {
                        $(stringify!($needed) => Shape::read(node).map(|it| raw.$needed = it),)*
                        $(stringify!($field) => Shape::read(node).map(|it| raw.$field = it),)*
                        // `fields` lets known names alone pass.
                        _ => Ok(()),
                    };
                    read.map_err(|fault| fault.within(Step::Field(name.clone())))?;
                }
                Ok(raw)
            }
        }
    };
}

object! {
    /// An instrument, or a size of one; what a size does not say it has from its family.
    Raw, "an instrument, in braces",
    needs {}
    may {
        format: Option<u32>,
        id: Option<String>,
        name: Option<String>,
        family: Option<String>,
        size: Option<String>,
        shift: Option<String>,
        written_to_sounding: Option<i16>,
        air: Option<RawAir>,
        rows: Option<Vec<RawRow>>,
        strings: Option<Vec<String>>,
        string_names: Option<Vec<String>>,
        string_ease: Option<Vec<RawEase>>,
        fretted: Option<bool>,
        holes: Option<Vec<RawHoles>>,
        comfortable: Option<[String; 2]>,
        liked: Option<Vec<i32>>,
        styles: Option<Vec<RawStyle>>,
        certainty: Option<RawCertainty>,
        source: Option<String>,
        remarks: Option<Vec<String>>,
        notes: Option<Vec<RawNote>>,
        buttons: Option<Vec<RawButton>>,
        frets: Option<Vec<RawFret>>,
        levers: Option<bool>,
        range: Option<[String; 2]>,
        sizes: Option<Vec<Raw>>,
    }
}

object! {
    RawRow, "a row, in braces",
    needs {}
    may {
        key: Option<String>,
        place: Option<String>,
        offset: i8,
        finger: Option<u8>,
    }
}

object! {
    RawHoles, "a group of holes, in braces",
    needs {
        name: String,
        count: u8,
    }
    may {}
}

object! {
    RawStyle, "a style, in braces",
    needs {
        id: String,
        costs: RawCosts,
    }
    may {}
}

object! {
    RawCosts, "costs, in braces",
    needs {}
    may {
        turn: u16,
        row: u16,
        string: u16,
        finger: u16,
        travel: u16,
        span: u8,
        repeat: u16,
        lever: u16,
        fair: u16,
        awkward: u16,
    }
}

object! {
    RawNote, "a note, in braces",
    needs {
        pitch: String,
        ways: Vec<RawWay>,
    }
    may {}
}

object! {
    RawWay, "a way to play, in braces",
    needs {}
    may {
        hand: Option<RawHand>,
        row: Option<u8>,
        button: Option<u8>,
        direction: Option<RawDirection>,
        bend: u8,
        holes: Option<String>,
        closed: Option<u8>,
        string: Option<u8>,
        fret: Option<String>,
        finger: Option<u8>,
        lever: Option<RawLever>,
        register: Option<RawRegister>,
        ease: RawEase,
        certainty: Option<RawCertainty>,
    }
}

object! {
    RawButton, "a button, in braces",
    needs {
        button: u8,
    }
    may {
        hand: Option<RawHand>,
        row: Option<u8>,
        push: Option<String>,
        draw: Option<String>,
        /// The note that it sounds whichever way the air goes.
        both: Option<String>,
        push_bends: Vec<String>,
        draw_bends: Vec<String>,
        ease: RawEase,
        certainty: Option<RawCertainty>,
    }
}

object! {
    RawFret, "a fret, in braces",
    needs {
        fret: String,
        semitones: u8,
    }
    may {
        finger: Option<u8>,
        ease: RawEase,
        certainty: Option<RawCertainty>,
    }
}

/// A word of the file and what it stands for.
macro_rules! words {
    ($(#[$about:meta])* $raw:ident for $core:ident {
        $($(#[$of:meta])* $variant:ident = $word:literal),*
    }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug)]
        pub(super) enum $raw { $($(#[$of])* $variant),* }

        impl Shape for $raw {
            fn read(node: &Node) -> Result<Self, Fault> {
                match text(node)? {
                    $($word => Ok(Self::$variant),)*
                    found => Err(Fault::unknown("word", found, &[$($word),*])),
                }
            }
        }

        impl From<$raw> for $core {
            fn from(raw: $raw) -> Self {
                match raw { $($raw::$variant => Self::$variant),* }
            }
        }
    };
}

words! {
    RawHand for Hand { Left = "left", Right = "right" }
}
words! {
    RawDirection for Direction { Push = "push", Draw = "draw" }
}
words! {
    RawLever for Lever { Down = "down", Up = "up" }
}
words! {
    RawRegister for Register { Low = "low", High = "high", Third = "third" }
}
words! {
    #[derive(Default)]
    RawEase for Ease { #[default] Easy = "easy", Fair = "fair", Awkward = "awkward" }
}
words! {
    RawCertainty for Certainty {
        Published = "published",
        Computed = "computed",
        Memory = "memory",
        Practice = "practice",
        Doubtful = "doubtful"
    }
}
words! {
    RawAir for Air { Bellows = "bellows", Breath = "breath" }
}

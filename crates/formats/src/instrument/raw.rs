//! The file as it stands, before anything is understood. `tests/schema/instrument.json`
//! describes the same shape for people.

use modewright_core::instrument::{Air, Certainty, Direction, Ease, Hand, Lever, Register};
use serde::Deserialize;

/// An instrument, or a size of one; what a size does not say it has from its family.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, expecting = "an instrument, in braces")]
pub(super) struct Raw {
    pub format: Option<u32>,
    pub id: Option<String>,
    pub name: Option<String>,
    pub family: Option<String>,
    pub size: Option<String>,
    pub shift: Option<String>,
    pub written_to_sounding: Option<i16>,
    pub air: Option<RawAir>,
    pub rows: Option<Vec<RawRow>>,
    pub strings: Option<Vec<String>>,
    pub string_names: Option<Vec<String>>,
    pub string_ease: Option<Vec<RawEase>>,
    pub fretted: Option<bool>,
    pub holes: Option<Vec<RawHoles>>,
    pub comfortable: Option<[String; 2]>,
    pub liked: Option<Vec<i32>>,
    pub styles: Option<Vec<RawStyle>>,
    pub certainty: Option<RawCertainty>,
    pub source: Option<String>,
    pub remarks: Option<Vec<String>>,
    pub notes: Option<Vec<RawNote>>,
    pub buttons: Option<Vec<RawButton>>,
    pub frets: Option<Vec<RawFret>>,
    pub levers: Option<bool>,
    pub range: Option<[String; 2]>,
    pub sizes: Option<Vec<Raw>>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a row, in braces")]
pub(super) struct RawRow {
    pub key: Option<String>,
    pub place: Option<String>,
    #[serde(default)]
    pub offset: i8,
    pub finger: Option<u8>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a group of holes, in braces")]
pub(super) struct RawHoles {
    pub name: String,
    pub count: u8,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a style, in braces")]
pub(super) struct RawStyle {
    pub id: String,
    pub costs: RawCosts,
}

#[derive(Clone, Copy, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default, expecting = "costs, in braces")]
pub(super) struct RawCosts {
    pub turn: u16,
    pub row: u16,
    pub string: u16,
    pub finger: u16,
    pub travel: u16,
    pub span: u8,
    pub repeat: u16,
    pub lever: u16,
    pub fair: u16,
    pub awkward: u16,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a note, in braces")]
pub(super) struct RawNote {
    pub pitch: String,
    pub ways: Vec<RawWay>,
}

#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields, default, expecting = "a way to play, in braces")]
pub(super) struct RawWay {
    pub hand: Option<RawHand>,
    pub row: Option<u8>,
    pub button: Option<u8>,
    pub direction: Option<RawDirection>,
    pub bend: u8,
    pub holes: Option<String>,
    pub closed: Option<u8>,
    pub string: Option<u8>,
    pub fret: Option<String>,
    pub finger: Option<u8>,
    pub lever: Option<RawLever>,
    pub register: Option<RawRegister>,
    pub ease: RawEase,
    pub certainty: Option<RawCertainty>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a button, in braces")]
pub(super) struct RawButton {
    pub hand: Option<RawHand>,
    pub row: Option<u8>,
    pub button: u8,
    pub push: Option<String>,
    pub draw: Option<String>,
    /// The note that it sounds whichever way the air goes.
    pub both: Option<String>,
    #[serde(default)]
    pub push_bends: Vec<String>,
    #[serde(default)]
    pub draw_bends: Vec<String>,
    #[serde(default)]
    pub ease: RawEase,
    pub certainty: Option<RawCertainty>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a fret, in braces")]
pub(super) struct RawFret {
    pub fret: String,
    pub semitones: u8,
    pub finger: Option<u8>,
    #[serde(default)]
    pub ease: RawEase,
    pub certainty: Option<RawCertainty>,
}

/// A word of the file and what it stands for.
macro_rules! words {
    ($(#[$about:meta])* $raw:ident for $core:ident { $($(#[$of:meta])* $variant:ident),* }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, Deserialize)]
        #[serde(rename_all = "kebab-case")]
        pub(super) enum $raw { $($(#[$of])* $variant),* }

        impl From<$raw> for $core {
            fn from(raw: $raw) -> Self {
                match raw { $($raw::$variant => Self::$variant),* }
            }
        }
    };
}

words! {
    /// `left`, `right`.
    RawHand for Hand { Left, Right }
}
words! {
    /// `push`, `draw`.
    RawDirection for Direction { Push, Draw }
}
words! {
    /// `down`, `up`.
    RawLever for Lever { Down, Up }
}
words! {
    /// `low`, `high`, `third`.
    RawRegister for Register { Low, High, Third }
}
words! {
    /// `easy`, `fair`, `awkward`.
    #[derive(Default)]
    RawEase for Ease { #[default] Easy, Fair, Awkward }
}
words! {
    /// `published`, `computed`, `memory`, `practice`, `doubtful`.
    RawCertainty for Certainty { Published, Computed, Memory, Practice, Doubtful }
}
words! {
    /// `bellows`, `breath`.
    RawAir for Air { Bellows, Breath }
}

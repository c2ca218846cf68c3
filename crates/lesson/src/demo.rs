//! Invented tunes of the winter tune class at the Lantern Quay boathouse.
//!
//! They are ours, made for this project; the class and the boathouse do not exist. What each one
//! shows is told in the README beside them.

/// A demo tune.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Demo {
    /// A short name for links and options.
    pub id: &'static str,
    /// What it shows, in a few words.
    pub shows: &'static str,
    /// Its text, in ABC.
    pub abc: &'static str,
}

macro_rules! demos {
    ($($id:literal: $shows:literal,)*) => {
        /// All demo tunes, the one for a first visit first.
        pub const TUNES: &[Demo] = &[$(Demo {
            id: $id,
            shows: $shows,
            abc: include_str!(concat!("../demo/", $id, ".abc")),
        },)*];
    };
}

demos! {
    "ebb-at-lantern-quay": "Dorian",
    "boathouse-welcome": "major",
    "tide-over-the-slipway": "Mixolydian",
    "the-mooring-lamp": "minor (Aeolian)",
    "fog-on-the-landing": "Dorian, an air",
    "five-oars": "five notes: which mode is open",
    "round-the-far-buoy": "ends away from home",
    "two-lights-at-the-bar": "two forms of the seventh",
    "keel-on-the-shingle": "below the stave",
    "the-lock-gate": "Phrygian",
    "kite-above-the-weir": "Lydian",
    "slack-water-turning": "strains in two modes",
    "the-ferry-bell": "the page says another mode",
    "seven-planks": "an uneven metre",
}

/// The tune that answers when nothing is asked: E Dorian, a jig.
#[must_use]
pub fn first() -> Demo {
    TUNES[0]
}

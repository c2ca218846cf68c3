//! What is said of letters beside them.

/// What the reader says of letters, which cannot tell it themselves.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Given {
    /// The metre, as [`METRES`] has it; empty where none is given.
    pub metre: &'static str,
    /// The length of the pickup, as [`PICKUPS`] has it; empty where there is none.
    pub pickup: &'static str,
}

/// The metres that can be given.
pub const METRES: [&str; 12] =
    ["", "2/4", "3/4", "4/4", "2/2", "3/8", "6/8", "9/8", "12/8", "5/4", "5/8", "7/8"];
/// The pickups that can be given, in whole notes.
pub const PICKUPS: [&str; 7] = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4"];

impl Given {
    /// Gives a metre; what is not in the list is none.
    pub fn set_metre(&mut self, metre: &str) {
        self.metre = METRES.into_iter().find(|known| *known == metre).unwrap_or_default();
    }

    /// Gives a pickup; what is not in the list is none.
    pub fn set_pickup(&mut self, pickup: &str) {
        self.pickup = PICKUPS.into_iter().find(|known| *known == pickup).unwrap_or_default();
    }
}

//! What stands under the notes of the staff.

use modewright_sheet::RowKind;

/// What stands under the notes of the staff.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rows(u8);

/// The rows that can be shown, from the top down.
pub const ROWS: [RowKind; 7] = [
    RowKind::Note,
    RowKind::Degree,
    RowKind::Solfa,
    RowKind::Count,
    RowKind::Fingering,
    RowKind::Bellows,
    RowKind::Words,
];

impl Default for Rows {
    fn default() -> Self {
        Self(0).with(RowKind::Note, true).with(RowKind::Words, true)
    }
}

impl Rows {
    fn bit(row: RowKind) -> u8 {
        ROWS.iter().position(|other| *other == row).map_or(0, |place| 1 << place)
    }

    /// Whether a row is shown.
    #[must_use]
    pub fn has(self, row: RowKind) -> bool {
        self.0 & Self::bit(row) != 0
    }

    /// With or without a row.
    #[must_use]
    pub fn with(self, row: RowKind, shown: bool) -> Self {
        Self(if shown { self.0 | Self::bit(row) } else { self.0 & !Self::bit(row) })
    }

    /// As a number, to be kept.
    #[must_use]
    pub const fn number(self) -> u8 {
        self.0
    }

    /// From a number that was kept; what it does not know is left out.
    #[must_use]
    pub const fn from_number(number: u8) -> Self {
        Self(number & 127)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_shown_and_hidden_one_by_one_and_kept_as_a_number() {
        for number in 0..=255 {
            let rows = Rows::from_number(number);
            assert_eq!(Rows::from_number(rows.number()), rows);
            for row in ROWS {
                assert!(rows.with(row, true).has(row) && !rows.with(row, false).has(row));
                let others = ROWS.into_iter().filter(|other| *other != row);
                for other in others {
                    assert_eq!(rows.with(row, true).has(other), rows.has(other));
                }
            }
        }
    }
}

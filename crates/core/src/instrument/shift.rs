//! Sizes of one family: the same fingers, another pitch.

use super::{Instrument, Playable, RowName};
use crate::{Interval, Signature, TheoryError};

impl Instrument {
    /// The same instrument built an interval higher or lower: every note and string moves, what
    /// the fingers do stays. Rows that are named by their key are named anew, and signatures
    /// that lie well move along; one that no longer can be written is left out.
    ///
    /// # Errors
    ///
    /// [`TheoryError`] where a note leaves what a pitch can be.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::instrument::{Instrument, Way};
    ///
    /// let in_d = Instrument::default().with_ways([("F#4".parse()?, Way::default())]);
    /// let in_c = in_d.shifted("-M2".parse()?)?;
    /// assert_eq!(in_c.notes()[0].written, "E4".parse()?);
    /// // The lowest note that can be named has nothing below it.
    /// let low = Instrument::default().with_ways([("C-4".parse()?, Way::default())]);
    /// assert!(low.shifted("-P8".parse()?).is_err());
    /// # Ok::<(), modewright_core::TheoryError>(())
    /// ```
    pub fn shifted(&self, by: Interval) -> Result<Self, TheoryError> {
        let mut moved = self.clone();
        for Playable { written, .. } in &mut moved.notes {
            *written = written.transpose(by)?;
        }
        for string in &mut moved.strings {
            *string = string.transpose(by)?;
        }
        for row in &mut moved.rows {
            if let RowName::Key(key) = &mut row.name {
                *key = key.transpose(by)?;
            }
        }
        if let Some((low, high)) = &mut moved.comfortable {
            (*low, *high) = (low.transpose(by)?, high.transpose(by)?);
        }
        let liked = self.liked.iter().filter_map(|signature| {
            Signature::new(i32::from(signature.fifths()) + by.fifths()).ok()
        });
        moved.liked = liked.collect();
        Ok(moved)
    }
}

//! The numbers of the slurs that are open.

use crate::musicxml::slurs::MOST;

/// The slurs that are open where a score is written, the last one last; `None` for one more than
/// there are numbers, which is not written.
#[derive(Debug, Default)]
pub(super) struct Slurs(Vec<Option<u8>>);

/// The numbers of the slurs at one note.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct AtNote {
    /// Those that end there and began before.
    pub(super) ends: Vec<u8>,
    pub(super) begins: Vec<u8>,
    /// Those that end there and began there.
    pub(super) alone: Vec<u8>,
}

impl Slurs {
    /// Ends and begins slurs at a note. What ends is what began last, but before this note: so a
    /// note may end one slur and begin the next (ABC 2.1, §4.11).
    pub(super) fn note(&mut self, begins: usize, ends: usize) -> AtNote {
        let mut at = AtNote::default();
        let before = ends.min(self.0.len());
        at.ends.extend(self.0.drain(self.0.len() - before..).rev().flatten());
        for _ in 0..begins {
            let taken = |n: &u8| self.0.contains(&Some(*n)) || at.ends.contains(n);
            let number = (1..=MOST).find(|n| !taken(n));
            at.begins.extend(number);
            self.0.push(number);
        }
        let alone = (ends - before).min(begins);
        at.alone.extend(self.0.drain(self.0.len() - alone..).rev().flatten());
        at
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_free_after_its_note() {
        let mut slurs = Slurs::default();
        let mut note = |begins: usize, ends: usize| {
            let at = slurs.note(begins, ends);
            (at.ends, at.begins, at.alone)
        };
        assert_eq!(note(2, 0), (vec![], vec![1, 2], vec![]));
        // One ends, one begins: another number, so that nothing is mistaken.
        assert_eq!(note(1, 1), (vec![2], vec![3], vec![]));
        assert_eq!(note(0, 1), (vec![3], vec![], vec![]));
        assert_eq!(note(1, 2), (vec![1], vec![2], vec![2]));
        assert_eq!(note(0, 3), (vec![], vec![], vec![]));
    }

    #[test]
    fn there_are_sixteen_numbers() {
        let mut slurs = Slurs::default();
        assert_eq!(slurs.note(18, 0).begins, (1..=16).collect::<Vec<_>>());
        // The two that have no number end first.
        assert_eq!(slurs.note(0, 3).ends, [16]);
        assert_eq!(slurs.note(1, 0).begins, [16]);
    }
}

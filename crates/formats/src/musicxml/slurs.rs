//! Slurs by their numbers: what is open, and what a note ends and begins.

/// The most slurs that are open at a time: numbers go from 1 to 16 (MusicXML 4.0, number-level).
pub(super) const MOST: u8 = 16;

/// Numbers of slurs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Numbers(u16);

impl Numbers {
    /// Adds a number as it is written; none means 1, and so does one that there is not.
    pub(super) fn add(&mut self, written: Option<&str>) {
        let number = written.and_then(|number| number.trim().parse().ok());
        let number: u8 = number.filter(|number| (1..=MOST).contains(number)).unwrap_or(1);
        self.0 |= 1 << (number - 1);
    }

    /// The numbers of either.
    pub(super) const fn and(self, others: Self) -> Self {
        Self(self.0 | others.0)
    }

    /// The numbers that are not among others.
    pub(super) const fn without(self, others: Self) -> Self {
        Self(self.0 & !others.0)
    }

    /// The numbers that are among others as well.
    pub(super) const fn both(self, others: Self) -> Self {
        Self(self.0 & others.0)
    }

    /// How many there are.
    pub(super) const fn count(self) -> u32 {
        self.0.count_ones()
    }
}

/// What the elements of a note say of slurs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct OnNote {
    pub(super) starts: Numbers,
    pub(super) stops: Numbers,
    /// What begins at its grace notes.
    pub(super) grace: Numbers,
}

/// The slurs that are open where a score is read.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Open(Numbers);

impl OnNote {
    /// A grace note, after others of its group: what begins and ends in the group says nothing.
    pub(super) fn add_grace(&mut self, note: Self) {
        let ended = note.stops.both(self.grace);
        self.stops = self.stops.and(note.stops.without(note.starts).without(ended));
        self.grace = self.grace.without(ended).and(note.starts.without(note.stops));
    }
}

impl Open {
    /// How many slurs begin at a note and how many end there.
    ///
    /// What ends and never began, or begins and has not ended yet, says nothing; nor does a slur
    /// from grace notes to their note.
    pub(super) fn note(&mut self, slurs: OnNote) -> (u32, u32) {
        let OnNote { starts, stops, grace } = slurs;
        let ended = stops.both(self.0);
        let left = self.0.without(ended);
        let begun = starts.and(grace.without(stops)).without(left);
        // A number that ends and begins at one note, and was not open, is a slur of one note.
        let alone = stops.both(starts).without(ended).without(left);
        self.0 = left.and(begun).without(alone);
        (begun.count(), ended.and(alone).count())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbers(all: &[&str]) -> Numbers {
        let mut numbers = Numbers::default();
        all.iter().for_each(|number| numbers.add(Some(number)));
        numbers
    }

    #[test]
    fn slurs_end_by_their_numbers() {
        let mut open = Open::default();
        let mut note = |stops: &[&str], starts: &[&str], grace: &[&str]| {
            let (starts, stops, grace) = (numbers(starts), numbers(stops), numbers(grace));
            open.note(OnNote { starts, stops, grace })
        };
        assert_eq!(note(&[], &["1"], &[]), (1, 0));
        // An end without its beginning, and a number that is open.
        assert_eq!(note(&["2"], &["1"], &[]), (0, 0));
        // One ends, one of the same number begins.
        assert_eq!(note(&["1"], &["1"], &[]), (1, 1));
        assert_eq!(note(&["1"], &["16", "3"], &[]), (2, 1));
        assert_eq!(note(&["3", "16"], &[], &[]), (0, 2));
        assert_eq!(note(&["3", "16"], &[], &[]), (0, 0));
        // Of one note.
        assert_eq!(note(&["2"], &["2"], &[]), (1, 1));
        assert_eq!(note(&["2"], &[], &[]), (0, 0));
        // From grace notes to their note, and further.
        assert_eq!(note(&["1"], &[], &["1"]), (0, 0));
        assert_eq!(note(&[], &[], &["1"]), (1, 0));
        assert_eq!(note(&["1"], &[], &[]), (0, 1));
    }

    #[test]
    fn a_slur_that_ends_at_a_grace_note_ends_at_its_note() {
        let mut group = OnNote::default();
        for (starts, stops) in [(&["2"][..], &["1"][..]), (&["3"], &["2"]), (&["4"], &["4"])] {
            let (starts, stops) = (numbers(starts), numbers(stops));
            group.add_grace(OnNote { starts, stops, ..OnNote::default() });
        }
        let wanted = OnNote { grace: numbers(&["3"]), stops: numbers(&["1"]), ..group };
        assert_eq!(group, wanted);
        assert_eq!(group.starts, Numbers::default());
    }

    #[test]
    fn a_number_that_there_is_not_is_the_first() {
        for odd in [None, Some("0"), Some("17"), Some("x"), Some("-1"), Some(" 1 ")] {
            let mut all = Numbers::default();
            all.add(odd);
            assert_eq!(all, numbers(&["1"]), "{odd:?}");
        }
        assert_ne!(numbers(&["16"]), numbers(&["1"]));
    }
}

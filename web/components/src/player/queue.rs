//! What has to be scheduled next: the notes and clicks of a performance, once or again and again.

use modewright_sound::{Click, Note, Performance};
use std::rc::Rc;

/// Something to be scheduled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Item {
    /// A note.
    Note(Note),
    /// A click.
    Click(Click),
}

/// A performance on its way, from some place in it on. Times are in nanoseconds from the moment
/// at which the playing began.
#[derive(Clone, Debug)]
pub struct Queue {
    performance: Rc<Performance>,
    /// The place at which the playing began.
    from: u64,
    /// Where the notes begin that are played again; what stands before it (the count-in) is heard
    /// once.
    turn: u64,
    again: bool,
    /// How many times it has gone back.
    round: u64,
    note: usize,
    click: usize,
}

impl Queue {
    /// Plays a performance from a place, once, or again and again from its first note on.
    #[must_use]
    pub fn new(performance: Rc<Performance>, from: u64, again: bool) -> Self {
        let first = performance.notes.first().map_or(0, |note| note.start);
        let turn = first.min(performance.length);
        let again = again && performance.length > turn;
        let mut queue = Self { performance, from, turn, again, round: 0, note: 0, click: 0 };
        queue.seek(from);
        queue
    }

    fn seek(&mut self, place: u64) {
        self.note = self.performance.notes.partition_point(|note| note.start < place);
        self.click = self.performance.clicks.partition_point(|click| click.at < place);
    }

    /// When a place of the performance is heard in the present round.
    fn when(&self, place: u64) -> u64 {
        let round = self.performance.length - self.turn;
        place.saturating_add(self.round.saturating_mul(round)).saturating_sub(self.from)
    }

    /// What begins before a moment and has not been given yet, with its moment.
    pub fn until(&mut self, moment: u64) -> Vec<(u64, Item)> {
        let mut items = Vec::new();
        loop {
            let note = self.performance.notes.get(self.note).copied();
            let click = self.performance.clicks.get(self.click).copied();
            let (place, item) = match (note, click) {
                (Some(note), Some(click)) if click.at <= note.start => {
                    (click.at, Item::Click(click))
                }
                (Some(note), _) => (note.start, Item::Note(note)),
                (None, Some(click)) => (click.at, Item::Click(click)),
                (None, None) if self.again && self.when(self.performance.length) < moment => {
                    self.round += 1;
                    self.seek(self.turn);
                    continue;
                }
                (None, None) => return items,
            };
            let when = self.when(place);
            if when >= moment {
                return items;
            }
            match item {
                Item::Note(_) => self.note += 1,
                Item::Click(_) => self.click += 1,
            }
            items.push((when, item));
        }
    }

    /// The place of the performance that is heard at a moment; `None` when it is over.
    #[must_use]
    pub fn place(&self, moment: u64) -> Option<u64> {
        let place = self.from.saturating_add(moment);
        let length = self.performance.length;
        if place < length {
            return Some(place);
        }
        let round = length - self.turn;
        (self.again && round > 0).then(|| self.turn + (place - self.turn) % round)
    }

    /// The written note that is heard at a moment.
    #[must_use]
    pub fn lit(&self, moment: u64) -> Option<usize> {
        self.performance.lit(self.place(moment)?)
    }
}

/// The place in a performance at which a note of another performance of the same tune begins:
/// where to go on after a change of speed. `past` is the place in the other one.
///
/// # Examples
///
/// ```
/// use modewright_components::player::same_place;
/// use modewright_sound::{Note, Performance};
///
/// let performance = |second: u64| Performance {
///     notes: (0..3).map(|i| Note { event: Some(0), start: i * second, length: second, midi: 60, gain: 99 }).collect(),
///     length: 3 * second,
///     ..Performance::default()
/// };
/// // In the second pass of a note that is played three times.
/// assert_eq!(same_place(&performance(10), 15, &performance(20)), 20);
/// // Beyond everything: from the beginning.
/// assert_eq!(same_place(&performance(10), 99, &Performance::default()), 0);
/// ```
#[must_use]
pub fn same_place(old: &Performance, past: u64, new: &Performance) -> u64 {
    let begun = || old.notes.iter().filter(|note| note.event.is_some() && note.start <= past);
    let Some(event) = begun().next_back().and_then(|note| note.event) else { return 0 };
    let pass = begun().filter(|note| note.event == Some(event)).count();
    let passes = new.notes.iter().filter(|note| note.event == Some(event));
    passes.take(pass).last().map_or(0, |note| note.start)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A click, then two notes of 10.
    fn short() -> Rc<Performance> {
        let note =
            |event, start| Note { event: Some(event), start, length: 10, midi: 60, gain: 100 };
        let clicks = vec![Click { at: 0, first: true }];
        Rc::new(Performance { notes: vec![note(0, 5), note(1, 15)], clicks, length: 25 })
    }

    fn starts(items: &[(u64, Item)]) -> Vec<(u64, Option<usize>)> {
        let event = |item: &Item| match item {
            Item::Note(note) => note.event,
            Item::Click(_) => None,
        };
        items.iter().map(|(when, item)| (*when, event(item))).collect()
    }

    #[test]
    fn every_item_is_given_once_and_in_order() {
        let mut queue = Queue::new(short(), 0, false);
        assert_eq!(starts(&queue.until(5)), [(0, None)]);
        assert_eq!(starts(&queue.until(1000)), [(5, Some(0)), (15, Some(1))]);
        assert!(queue.until(u64::MAX).is_empty());
        assert_eq!((queue.place(24), queue.place(25)), (Some(24), None));
        assert_eq!(queue.lit(6), Some(0));
    }

    #[test]
    fn again_and_again_without_the_count_in() {
        let mut queue = Queue::new(short(), 0, true);
        let all = starts(&queue.until(50));
        let wanted =
            [(0, None), (5, Some(0)), (15, Some(1)), (25, Some(0)), (35, Some(1)), (45, Some(0))];
        assert_eq!(all, wanted);
        assert_eq!(
            [queue.place(25), queue.place(44), queue.place(45)],
            [Some(5), Some(24), Some(5)]
        );
        assert_eq!(queue.lit(36), Some(1));
    }

    #[test]
    fn from_a_place_on_the_clock_begins_at_nothing() {
        let mut queue = Queue::new(short(), 15, true);
        assert_eq!(starts(&queue.until(11)), [(0, Some(1)), (10, Some(0))]);
        assert_eq!(queue.place(0), Some(15));
    }

    #[test]
    fn a_performance_of_nothing_ends_at_once() {
        for again in [false, true] {
            let mut queue = Queue::new(Rc::default(), 0, again);
            assert!(queue.until(u64::MAX).is_empty());
            assert_eq!(queue.place(0), None);
        }
    }
}

//! What it costs to go from one way to the next.

use crate::instrument::{Costs, Ease, Instrument, Way};

/// A kind of difficulty.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Difficulty {
    /// The air changes its direction within a phrase.
    Turn,
    /// Another row.
    Row,
    /// A string is crossed.
    String,
    /// A finger hops to a neighbouring button or string.
    Finger,
    /// The hand moves a button or fret further than it spans.
    Travel,
    /// A repeated note changes its way.
    Repeat,
    /// A lever is set during the tune.
    Lever,
    /// A note that is not among the first that a learner plays.
    Fair,
    /// An awkward note.
    Awkward,
}

impl Difficulty {
    /// All of them, in a fixed order.
    pub const ALL: [Self; 9] = [
        Self::Turn,
        Self::Row,
        Self::String,
        Self::Finger,
        Self::Travel,
        Self::Repeat,
        Self::Lever,
        Self::Fair,
        Self::Awkward,
    ];

    /// What one of it costs.
    #[must_use]
    pub const fn price(self, costs: &Costs) -> u16 {
        match self {
            Self::Turn => costs.turn,
            Self::Row => costs.row,
            Self::String => costs.string,
            Self::Finger => costs.finger,
            Self::Travel => costs.travel,
            Self::Repeat => costs.repeat,
            Self::Lever => costs.lever,
            Self::Fair => costs.fair,
            Self::Awkward => costs.awkward,
        }
    }
}

/// How often each difficulty is met.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Met([u32; Difficulty::ALL.len()]);

impl Met {
    pub(super) fn add(&mut self, kind: Difficulty, times: u32) {
        self.0[kind as usize] = self.0[kind as usize].saturating_add(times);
    }

    pub(super) const fn times(&self, kind: Difficulty) -> u32 {
        self.0[kind as usize]
    }

    pub(super) fn all(&mut self, other: &Self) {
        for kind in Difficulty::ALL {
            self.add(kind, other.times(kind));
        }
    }

    pub(super) fn cost(&self, costs: &Costs) -> u64 {
        let each = Difficulty::ALL
            .into_iter()
            .map(|kind| u64::from(self.times(kind)) * u64::from(kind.price(costs)));
        each.sum()
    }
}

/// What is met at a note itself.
pub(super) fn at(way: &Way) -> Met {
    let mut met = Met::default();
    match way.ease {
        Ease::Easy => {}
        Ease::Fair => met.add(Difficulty::Fair, 1),
        Ease::Awkward => met.add(Difficulty::Awkward, 1),
    }
    met
}

/// What is met between two notes: `same` where they are of one pitch, `free` where a phrase
/// ends between them, so that turning the air costs nothing; `span` is what the hand reaches.
pub(super) fn between(
    it: &Instrument,
    span: u8,
    (from, to): (&Way, &Way),
    same: bool,
    free: bool,
) -> Met {
    let mut met = Met::default();
    let turns = both(from.direction, to.direction).is_some_and(|(a, b)| a != b);
    met.add(Difficulty::Turn, u32::from(turns && !free));
    let rows = both(from.row, to.row).is_some_and(|(a, b)| a != b);
    met.add(Difficulty::Row, u32::from(rows));
    if let Some((a, b)) = both(from.string, to.string) {
        met.add(Difficulty::String, u32::from(a.abs_diff(b)));
    }
    met.add(Difficulty::Finger, u32::from(hops(it, from, to)));
    met.add(Difficulty::Travel, travel(it, span, from, to));
    met.add(Difficulty::Repeat, u32::from(same && !same_place(from, to)));
    met
}

fn both<T>(a: Option<T>, b: Option<T>) -> Option<(T, T)> {
    Some((a?, b?))
}

/// Whether two ways are one place on the instrument, with the air going one way.
fn same_place(a: &Way, b: &Way) -> bool {
    same_button(a, b)
        && (a.direction, a.string, a.fret, a.lever) == (b.direction, b.string, b.fret, b.lever)
        && (a.bend, &a.holes, a.closed) == (b.bend, &b.holes, b.closed)
}

fn same_button(a: &Way, b: &Way) -> bool {
    (a.hand, a.row, a.button) == (b.hand, b.row, b.button)
}

/// Whether one finger must let go of the first to take the second.
fn hops(it: &Instrument, from: &Way, to: &Way) -> bool {
    if let Some((a, b)) = both(from.finger, to.finger) {
        return a > 0 && a == b && (from.string, from.fret) != (to.string, to.fret);
    }
    if from.hand != to.hand || same_button(from, to) {
        return false;
    }
    let Some(((a, x), (b, y))) = both(place(it, from), place(it, to)) else { return false };
    let finger = |row: u8| it.rows.get(usize::from(row)).and_then(|row| row.finger);
    match both(finger(a), finger(b)) {
        Some((first, second)) => first == second,
        None => a != b && x.abs_diff(y) <= 1,
    }
}

/// The row of a button, and how far along it lies in half buttons.
fn place(it: &Instrument, way: &Way) -> Option<(u8, i16)> {
    let row = way.row?;
    let offset = it.rows.get(usize::from(row)).map_or(0, |row| row.offset);
    Some((row, along(way.button?) + i16::from(offset)))
}

fn along(button: u8) -> i16 {
    i16::from(button) * 2
}

/// How many buttons or frets the hand moves beyond what it spans.
fn travel(it: &Instrument, span: u8, from: &Way, to: &Way) -> u32 {
    let span = u16::from(span);
    let beyond = |distance: u16| u32::from(distance.saturating_sub(span));
    if let Some((a, b)) = both(from.fret, to.fret) {
        // An open string leaves the hand where it is.
        let (a, b) = (u16::from(a.number), u16::from(b.number));
        return if a == 0 || b == 0 { 0 } else { beyond(a.abs_diff(b)) };
    }
    if from.hand != to.hand {
        return 0;
    }
    let at = |way: &Way| place(it, way).map(|(_, x)| x).or_else(|| way.button.map(along));
    both(at(from), at(to)).map_or(0, |(x, y)| beyond(x.abs_diff(y) / 2))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::{Direction, Fret, Hand, Row, RowName};

    const SPAN: u8 = 3;

    fn two_rows() -> Instrument {
        let mut it = Instrument::default();
        let row = |name: &str, offset| Row {
            name: RowName::Place(name.to_owned()),
            offset,
            finger: None,
        };
        it.rows = vec![row("outer", 0), row("inner", 1)];
        it
    }

    fn button(row: u8, button: u8, direction: Direction) -> Way {
        let (row, button, direction) = (Some(row), Some(button), Some(direction));
        Way { hand: Some(Hand::Right), row, button, direction, ..Way::default() }
    }

    fn told(it: &Instrument, from: &Way, to: &Way, same: bool, free: bool) -> Vec<Difficulty> {
        let met = between(it, SPAN, (from, to), same, free);
        Difficulty::ALL.into_iter().filter(|&kind| met.times(kind) > 0).collect()
    }

    #[test]
    fn every_difficulty_is_met_where_it_should_be() {
        use Difficulty::{Finger, Repeat, Row, String, Travel, Turn};
        use Direction::{Draw, Push};
        let it = two_rows();
        let push = button(0, 4, Push);
        for (to, same, free, met) in [
            (button(0, 4, Push), true, false, vec![]),
            (button(0, 4, Draw), false, false, vec![Turn]),
            (button(0, 4, Draw), false, true, vec![]),
            (button(0, 5, Push), false, false, vec![]),
            // Inner 3 and 4 lie half a button to the sides of outer 4.
            (button(1, 3, Push), false, false, vec![Row, Finger]),
            (button(1, 4, Push), false, false, vec![Row, Finger]),
            (button(1, 5, Push), false, false, vec![Row]),
            (button(1, 2, Draw), false, false, vec![Turn, Row]),
            (button(1, 6, Draw), true, false, vec![Turn, Row, Repeat]),
            (button(0, 7, Push), false, false, vec![]),
            (button(0, 8, Push), false, false, vec![Travel]),
        ] {
            assert_eq!(told(&it, &push, &to, same, free), met, "{to:?}");
        }
        let left = Way { hand: Some(Hand::Left), ..button(1, 4, Push) };
        assert_eq!(told(&it, &push, &left, false, false), [Row]);
        let stop = |string, fret, finger| Way {
            string: Some(string),
            fret: Some(Fret::new(fret)),
            finger: Some(finger),
            ..Way::default()
        };
        for (from, to, met) in [
            (stop(0, 2, 1), stop(1, 2, 1), vec![String, Finger]),
            (stop(0, 1, 1), stop(0, 2, 1), vec![Finger]),
            (stop(0, 0, 0), stop(1, 0, 0), vec![String]),
            (stop(0, 2, 1), stop(0, 7, 4), vec![Travel]),
            (stop(0, 0, 0), stop(0, 7, 4), vec![]),
        ] {
            assert_eq!(told(&it, &from, &to, false, false), met, "{from:?} {to:?}");
        }
        assert_eq!(
            between(&it, SPAN, (&stop(0, 2, 1), &stop(3, 0, 0)), false, false).times(String),
            3
        );
    }

    #[test]
    fn rows_of_one_finger_are_in_each_others_way() {
        let mut it = two_rows();
        it.rows[0].finger = Some(1);
        it.rows[1].finger = Some(2);
        let met = |a, b| between(&it, SPAN, (&a, &b), false, false).times(Difficulty::Finger);
        let push = Direction::Push;
        assert_eq!(met(button(0, 4, push), button(1, 4, push)), 0);
        assert_eq!(met(button(0, 4, push), button(0, 5, push)), 1);
        assert_eq!(met(button(0, 4, push), button(0, 4, push)), 0);
    }
}

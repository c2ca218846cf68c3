//! A turn by pointer, from taking hold to letting go.

use super::layout::{self, Layout, RIM};
use super::turn;
use modewright_core::Key;

/// What the pointer has taken hold of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// The home marker: the same notes, another home.
    Home,
    /// The ring: the same home, other notes.
    Ring,
}

/// A hold on the wheel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Grip {
    /// What is held.
    pub(super) part: Part,
    /// The pointer that holds it.
    pub(super) pointer: i32,
    /// The key when it was taken.
    pub(super) key: Key,
    layout: Layout,
    start: (f64, f64),
    last: f64,
    turned: f64,
    moved: bool,
}

/// What a movement of the pointer does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Turned {
    /// The key that the wheel now shows.
    pub(super) key: Key,
    /// Degrees that the part held stands beyond its place, following the hand.
    pub(super) beyond: f64,
}

/// A pointer that moves less than this has only touched, in units of the drawing.
const SLACK: f64 = 7.0;

impl Grip {
    /// Takes hold at a point of the drawing.
    #[must_use]
    pub(super) fn take(part: Part, pointer: i32, key: Key, layout: Layout, at: (f64, f64)) -> Self {
        let last = layout::degrees_at(at.0, at.1);
        Self { part, pointer, key, layout, start: at, last, turned: 0.0, moved: false }
    }

    /// Follows the pointer; `None` while it has not moved far enough to mean a turn.
    pub(super) fn follow(&mut self, at: (f64, f64)) -> Option<Turned> {
        let (dx, dy) = (at.0 - self.start.0, at.1 - self.start.1);
        self.moved |= dx * dx + dy * dy > SLACK * SLACK;
        if !self.moved {
            return None;
        }
        let now = layout::degrees_at(at.0, at.1);
        self.turned += layout::difference(now, self.last);
        self.last = now;
        match self.part {
            Part::Home => {
                let key = turn::home_near(self.key, self.layout, now);
                let beyond = layout::difference(now, self.layout.degrees(key.home.pitch_class()));
                Some(Turned { key, beyond })
            }
            Part::Ring => {
                let (steps, rest) = layout::steps_turned(self.turned);
                let key = turn::ring_by(self.key, steps);
                // At its end the ring gives a little and no more.
                let stopped = key == turn::ring_by(self.key, steps + 1) && rest > 0.0
                    || key == turn::ring_by(self.key, steps - 1) && rest < 0.0;
                Some(Turned { key, beyond: if stopped { rest / 4.0 } else { rest } })
            }
        }
    }

    /// Lets go; a touch without a turn makes the note there home, if it is one of the seven.
    #[must_use]
    pub(super) fn let_go(&self) -> Option<Key> {
        let (x, y) = self.start;
        let distance = libm::sqrt(x * x + y * y);
        if self.moved || self.part == Part::Home || !(RIM.0..=RIM.1).contains(&distance) {
            return None;
        }
        let here = layout::degrees_at(x, y);
        let classes = modewright_core::PitchClass::all();
        let class = classes.min_by(|&a, &b| {
            let away = |class| layout::difference(here, self.layout.degrees(class)).abs();
            away(a).total_cmp(&away(b))
        })?;
        turn::home_at(self.key, class)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use layout::point;

    fn key(text: &str) -> Key {
        text.parse().unwrap()
    }

    #[test]
    fn a_ring_turned_one_place_clockwise_is_one_step_brighter() {
        for layout in Layout::ALL {
            let mut grip = Grip::take(Part::Ring, 1, key("E dorian"), layout, point(350.0, 140.0));
            assert_eq!(grip.follow(point(351.0, 140.0)), None, "a touch is no turn");
            let turned = grip.follow(point(15.0, 140.0)).unwrap();
            assert_eq!(turned.key, key("E mixolydian"));
            assert!((turned.beyond - -5.0).abs() < 1e-6);
            assert_eq!(grip.follow(point(325.0, 140.0)).unwrap().key, key("E aeolian"));
            assert_eq!(grip.let_go(), None);
        }
    }

    #[test]
    fn a_ring_stops_at_lydian_and_locrian() {
        let mut grip =
            Grip::take(Part::Ring, 1, key("E ionian"), Layout::Fifths, point(0.0, 140.0));
        grip.follow(point(40.0, 140.0));
        let turned = grip.follow(point(100.0, 140.0)).unwrap();
        assert_eq!(turned.key, key("E lydian"));
        assert!(turned.beyond.abs() < 4.0);
    }

    #[test]
    fn a_home_marker_goes_to_the_nearest_of_the_seven() {
        let mut grip =
            Grip::take(Part::Home, 1, key("E dorian"), Layout::Pitch, point(120.0, 187.0));
        let turned = grip.follow(point(148.0, 187.0)).unwrap();
        assert_eq!(turned.key, key("E dorian"));
        assert!((turned.beyond - 28.0).abs() < 1e-6, "F natural is not in the mode");
        assert_eq!(grip.follow(point(155.0, 187.0)).unwrap().key, key("F# phrygian"));
    }

    #[test]
    fn a_touch_makes_a_note_home() {
        let at = |degrees, radius| {
            Grip::take(Part::Ring, 1, key("E dorian"), Layout::Pitch, point(degrees, radius))
                .let_go()
        };
        assert_eq!(at(65.0, 140.0), Some(key("D ionian")));
        assert_eq!(at(0.0, 140.0), None, "C is outside");
        assert_eq!(at(65.0, 90.0), None, "the spokes are not the rim");
    }
}

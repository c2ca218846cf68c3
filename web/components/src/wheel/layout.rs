//! Where things stand on the wheel. Angles are degrees clockwise from the top; lengths are
//! units of the drawing, whose centre is at 0, 0.

use crate::number::hundredths;
use modewright_core::PitchClass;

/// The two orders of the twelve notes round the wheel.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Layout {
    /// Each place a semitone above the one before.
    Pitch,
    /// Each place a fifth above the one before: a mode is then an arc of seven.
    #[default]
    Fifths,
}

impl Layout {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Pitch, Self::Fifths];

    /// The place of a note, 0 to 11 clockwise; C is at the top.
    #[must_use]
    pub fn place(self, class: PitchClass) -> u8 {
        let semitones = class.semitones();
        match self {
            Self::Pitch => semitones,
            Self::Fifths => semitones * 7 % 12,
        }
    }

    /// The angle of a note.
    #[must_use]
    pub fn degrees(self, class: PitchClass) -> f64 {
        f64::from(self.place(class)) * STEP
    }
}

/// The angle from one place to the next.
pub(super) const STEP: f64 = 30.0;

/// Half the width of the square drawing.
pub(super) const HALF: f64 = 232.0;
/// The hub.
pub(super) const HUB: f64 = 62.0;
/// The rim: its inner and its outer edge.
pub(super) const RIM: (f64, f64) = (116.0, 166.0);
/// Where the names stand on the rim.
pub(super) const NAMES: f64 = 141.0;
/// Where degree numbers and notes from outside the mode stand.
pub(super) const OUTSIDE: f64 = 187.0;
/// The longest mark of a note's share, along its spoke.
pub(super) const SHARE: f64 = RIM.0 - HUB - 10.0;

/// The angle of a point, 0 to 360.
pub(super) fn degrees_at(x: f64, y: f64) -> f64 {
    libm::atan2(x, -y).to_degrees().rem_euclid(360.0)
}

/// The turn from one angle to another by the shorter way, −180 to 180.
pub(super) fn difference(to: f64, from: f64) -> f64 {
    (to - from + 180.0).rem_euclid(360.0) - 180.0
}

/// An angle that shows the same direction as `to` and is the nearest such one to `from`: turned
/// there, a hand never takes the long way round.
pub(super) fn nearest_turn(from: f64, to: f64) -> f64 {
    from + difference(to, from)
}

/// Sine and cosine of half a place, 15 degrees: all the trigonometry that the drawing needs.
const HALF_PLACE: (f64, f64) = (0.258_819_045_102_520_8, 0.965_925_826_289_068_3);

/// The outline of a piece of the rim, one place wide, centred at the top.
pub(super) fn rim_piece((inner, outer): (f64, f64)) -> String {
    let across = |radius: f64| hundredths(radius * HALF_PLACE.0);
    let up = |radius: f64| hundredths(-radius * HALF_PLACE.1);
    let (r, s) = (hundredths(outer), hundredths(inner));
    let (x, y) = (across(outer), up(outer));
    let (v, w) = (across(inner), up(inner));
    format!("M-{x} {y}A{r} {r} 0 0 1 {x} {y}L{v} {w}A{s} {s} 0 0 0 -{v} {w}Z")
}

/// How far a ring turned by hand from where it was taken has come: whole steps, and the rest in
/// degrees that the drawing follows the hand by.
pub(super) fn steps_turned(degrees: f64) -> (i32, f64) {
    let steps = libm::round(degrees / STEP).clamp(-24.0, 24.0);
    #[expect(clippy::cast_possible_truncation, reason = "clamped above")]
    let whole = steps as i32;
    (whole, (degrees - steps * STEP).clamp(-STEP / 2.0, STEP / 2.0))
}

/// The point at an angle and a distance from the centre.
#[cfg(test)]
pub(super) fn point(degrees: f64, radius: f64) -> (f64, f64) {
    let angle = degrees.to_radians();
    (radius * libm::sin(angle), -radius * libm::cos(angle))
}

#[cfg(test)]
mod tests {
    use super::*;
    use modewright_core::{Key, Mode, Signature, Spelling};

    #[test]
    fn every_mode_is_an_arc_of_seven_and_homes_place_in_it_is_the_mode() {
        for signature in Signature::all() {
            for mode in Mode::ALL {
                let home = Spelling::from_fifths(i32::from(signature.fifths()) - mode.fifths());
                let key = Key::new(home.unwrap(), mode);
                let home = Layout::Fifths.place(key.home.pitch_class());
                // The arc begins as many places before home as the mode is dark.
                let start = home + 12 - mode.darkness();
                let arc: Vec<u8> = (0..7).map(|i| (start + i) % 12).collect();
                let mut found: Vec<u8> = PitchClass::all()
                    .filter(|class| key.pitch_set().contains(*class))
                    .map(|class| Layout::Fifths.place(class))
                    .collect();
                found.sort_by_key(|place| (place + 24 - start) % 12);
                assert_eq!(found, arc, "{key}");
            }
        }
    }

    #[test]
    fn places_are_a_permutation_and_c_is_on_top() {
        for layout in Layout::ALL {
            let mut places: Vec<u8> = PitchClass::all().map(|c| layout.place(c)).collect();
            assert_eq!(places[0], 0);
            places.sort_unstable();
            assert_eq!(places, (0..12).collect::<Vec<u8>>());
        }
    }

    #[test]
    fn a_piece_of_the_rim_is_one_place_wide() {
        let (x, y) = point(STEP / 2.0, 166.0);
        let start = format!("M-{} {}A166 166", hundredths(x), hundredths(y));
        assert!(rim_piece(RIM).starts_with(&start), "{}", rim_piece(RIM));
    }

    #[test]
    fn points_and_angles_round_trip() {
        for degrees in 0..360 {
            let (x, y) = point(f64::from(degrees), 100.0);
            assert!(difference(degrees_at(x, y), f64::from(degrees)).abs() < 1e-9);
        }
        assert_eq!(point(0.0, 10.0), (0.0, -10.0));
    }

    #[test]
    fn a_hand_takes_the_short_way() {
        for (from, to, there) in
            [(350.0, 10.0, 370.0), (10.0, 350.0, -10.0), (730.0, 0.0, 720.0), (0.0, 90.0, 90.0)]
        {
            assert!((nearest_turn(from, to) - there).abs() < 1e-9, "{from} {to}");
        }
    }

    #[test]
    fn a_ring_snaps_to_the_nearest_step() {
        assert_eq!(steps_turned(0.0), (0, 0.0));
        assert_eq!(steps_turned(14.0), (0, 14.0));
        assert_eq!(steps_turned(-44.0), (-1, -14.0));
        assert_eq!(steps_turned(95.0), (3, 5.0));
        assert_eq!(steps_turned(f64::INFINITY).0, 24);
    }
}

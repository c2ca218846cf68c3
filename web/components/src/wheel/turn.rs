//! What a turn of the wheel does to the key: the same notes with another home, the same home
//! with other notes, or everything moved to another signature.

use super::layout::Layout;
use modewright_core::{Key, Mode, PitchClass, Signature, Spelling};

/// The same key with a signature that can be written.
#[must_use]
pub fn writable(key: Key) -> Key {
    key.respelled().unwrap_or(key)
}

/// The same notes with another home: so many places on, clockwise, among the seven.
///
/// # Examples
///
/// ```
/// use modewright_components::wheel::{Layout, home_by};
///
/// let key = "D ionian".parse()?;
/// assert_eq!(home_by(key, Layout::Pitch, 1).to_string(), "E dorian");
/// // By fifths the next of the seven is a fifth away.
/// assert_eq!(home_by(key, Layout::Fifths, 1).to_string(), "A mixolydian");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn home_by(key: Key, layout: Layout, places: i32) -> Key {
    let key = writable(key);
    let places_on = places.rem_euclid(7);
    let Ok(all) = key.relatives() else { return key };
    let from = layout.place(key.home.pitch_class());
    // The seven in the order of the wheel, from home clockwise.
    let mut places = (0..12).filter_map(|i| {
        all.iter().find(|other| layout.place(other.home.pitch_class()) == (from + i) % 12)
    });
    places.nth(usize::try_from(places_on).unwrap_or(0)).copied().unwrap_or(key)
}

/// The same notes with this one as home; `None` where it is not one of the seven.
#[must_use]
pub fn home_at(key: Key, home: PitchClass) -> Option<Key> {
    let all = writable(key).relatives().ok()?;
    all.into_iter().find(|other| other.home.pitch_class() == home)
}

/// The same home with other notes: so many steps brighter (darker, if negative), as far as
/// Lydian and Locrian.
///
/// # Examples
///
/// ```
/// use modewright_components::wheel::ring_by;
///
/// let key = "E dorian".parse()?;
/// assert_eq!(ring_by(key, -1).to_string(), "E aeolian");
/// assert_eq!(ring_by(key, -9).to_string(), "E locrian");
/// // C sharp Lydian would need eight sharps, so it is written as D flat.
/// assert_eq!(ring_by("C# ionian".parse()?, 1).to_string(), "Db lydian");
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn ring_by(key: Key, steps: i32) -> Key {
    let place = (i32::from(key.mode.darkness()) - steps).clamp(0, 6);
    let mode = Mode::BY_BRIGHTNESS.get(usize::try_from(place).unwrap_or(0));
    mode.map_or(key, |&mode| writable(Key::new(key.home, mode)))
}

/// The same mode under another signature.
#[must_use]
pub fn with_signature(key: Key, signature: Signature) -> Key {
    let home = Spelling::from_fifths(i32::from(signature.fifths()) - key.mode.fifths());
    home.map_or(key, |home| Key::new(home, key.mode))
}

/// The relative whose home lies nearest to an angle, in degrees clockwise from the top.
#[must_use]
pub fn home_near(key: Key, layout: Layout, degrees: f64) -> Key {
    let key = writable(key);
    let away = |other: &Key| {
        super::layout::difference(degrees, layout.degrees(other.home.pitch_class())).abs()
    };
    let all = key.relatives().unwrap_or([key; 7]);
    all.into_iter().min_by(|a, b| away(a).total_cmp(&away(b))).unwrap_or(key)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all_keys() -> impl Iterator<Item = Key> {
        Signature::all().flat_map(|signature| {
            Mode::ALL.map(|mode| {
                with_signature(Key::new(Spelling::from_fifths(0).unwrap(), mode), signature)
            })
        })
    }

    #[test]
    fn every_signature_and_mode_is_reached_and_written() {
        let mut seen: Vec<Key> = all_keys().collect();
        for key in &seen {
            assert!(key.signature().is_ok(), "{key}");
        }
        seen.sort();
        seen.dedup();
        assert_eq!(seen.len(), 105);
    }

    #[test]
    fn another_home_keeps_the_notes_and_comes_round() {
        for key in all_keys() {
            for layout in Layout::ALL {
                let mut at = key;
                for _ in 0..7 {
                    at = home_by(at, layout, 1);
                    assert_eq!(at.signature(), key.signature());
                    assert_eq!(home_at(key, at.home.pitch_class()), Some(at));
                    let angle = layout.degrees(at.home.pitch_class());
                    assert_eq!(home_near(key, layout, angle + 10.0), at);
                    assert_eq!(home_near(key, layout, angle - 372.0), at);
                }
                assert_eq!(at, key);
                assert_eq!(home_by(home_by(key, layout, 1), layout, -1), key);
            }
            assert_eq!(
                home_at(key, PitchClass::new(i32::from(key.home.pitch_class().semitones()) + 6))
                    .is_some(),
                key.pitch_set().contains(key.home.pitch_class().up(6))
            );
        }
    }

    #[test]
    fn each_step_darker_changes_one_note_and_stops_at_the_ends() {
        for key in all_keys() {
            let mut at = ring_by(key, 9);
            assert_eq!(at.mode, Mode::Lydian);
            for mode in &Mode::BY_BRIGHTNESS[1..] {
                let next = ring_by(at, -1);
                assert_eq!((next.mode, next.home.pitch_class()), (*mode, key.home.pitch_class()));
                let kept = at.pitch_set();
                let new = next
                    .scale()
                    .unwrap()
                    .iter()
                    .filter(|n| !kept.contains(n.pitch_class()))
                    .count();
                assert_eq!(new, 1);
                assert!(next.signature().is_ok());
                at = next;
            }
            assert_eq!(ring_by(at, -1), at);
        }
    }
}

//! Scales and modes side by side, by ear.

use crate::performance::{Note, Performance};
use modewright_core::{Key, PitchClass};

/// A beat of a scale, in nanoseconds.
const BEAT: u64 = 360_000_000;
/// Beats of silence between two scales.
const GAP: u64 = 2;
/// The drone against the melody, in hundredths.
const DRONE: u8 = 40;
/// The lowest home: from the G below middle C to the F sharp above it is comfortable for any
/// voice.
const LOWEST: i32 = 55;
/// More keys than this are no comparison.
const MOST: usize = 12;

/// Scales one after the other, each up to the octave and down again over a drone of its home.
///
/// Two keys with the same notes are the same scale from another home; two modes on one home are
/// the same home with other notes. Keys after the twelfth are left out.
///
/// # Examples
///
/// ```
/// use modewright_sound::compare;
///
/// let heard = compare(&["D ionian".parse()?, "E dorian".parse()?]);
/// let melody: Vec<i32> = heard.notes.iter().filter(|n| n.gain > 50).map(|n| n.midi).collect();
/// assert_eq!(melody[..8], [62, 64, 66, 67, 69, 71, 73, 74]);
/// // The same notes, and E at the bottom and at the top.
/// assert_eq!(melody[15..23], [64, 66, 67, 69, 71, 73, 74, 76]);
/// // Without a key nothing sounds.
/// assert_eq!(compare(&[]).length, 0);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn compare(keys: &[Key]) -> Performance {
    let mut performance = Performance::default();
    let mut now = 0;
    for (i, key) in keys.iter().take(MOST).enumerate() {
        if i > 0 {
            now += GAP * BEAT;
        }
        let home = LOWEST + i32::from(key.home.pitch_class().above(PitchClass::new(LOWEST)));
        let up = key.mode.semitones().map(i32::from);
        let all: Vec<i32> =
            up.into_iter().chain([12]).chain(up.into_iter().rev()).map(|s| home + s).collect();
        // The last note is held twice as long.
        let beats = u64::try_from(all.len()).unwrap_or(0) + 1;
        let start = now;
        let length = beats * BEAT;
        performance.notes.push(Note { event: None, start, length, midi: home - 12, gain: DRONE });
        for (j, midi) in all.iter().enumerate() {
            let is_last = j + 1 == all.len();
            let length = if is_last { 2 * BEAT } else { BEAT };
            let gain = if i == 0 && j == 0 { 60 } else { 100 };
            performance.notes.push(Note { event: None, start: now, length, midi: *midi, gain });
            now += length;
        }
    }
    performance.length = now;
    performance
}

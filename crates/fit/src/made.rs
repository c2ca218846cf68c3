//! Made examples: scales as a learner types them, and tunes with nothing but their letters.
//!
//! The books hold no bare scales, so a fit on them alone takes the notes of E Dorian, typed from
//! E to E, for D major. The rare modes have too few tunes to learn from; of each mode there are
//! as many made scales as of any other.

use crate::train::{Row, candidate};
use modewright_core::find::inside::{Features, View};
use modewright_core::tune::{Sound, Span, TuneBuilder};
use modewright_core::{Key, Length, Mode, Pitch, Spelling, Step, Tune};

/// Degrees of the made scales, counted from home at 0.
const SCALES: [&[i32]; 8] = [
    &[0, 1, 2, 3, 4, 5, 6, 7],
    &[0, 1, 2, 3, 4, 5, 6],
    &[7, 6, 5, 4, 3, 2, 1, 0],
    &[0, 1, 2, 3, 4, 5, 6, 7, 6, 5, 4, 3, 2, 1, 0],
    &[0, 1, 2, 3, 4, 5, 6, 7, 4, 2, 0],
    &[0, 2, 4, 7, 6, 5, 4, 3, 2, 1, 0],
    &[0, 1, 2, 3, 4, 3, 2, 1, 0, -1, 0],
    &[0, 4, 3, 2, 1, 0, 1, 2, 3, 4, 5, 6, 4, 0],
];

/// Weight of each made scale.
const WEIGHT: f64 = 6.0;

/// The made scales of all modes, as rows.
pub(crate) fn scales() -> Vec<Row> {
    let home = Spelling::natural(Step::D);
    let mut rows = Vec::new();
    for mode in Mode::ALL {
        let key = Key::new(home, mode);
        let (Ok(notes), Ok(signature)) = (key.scale(), key.signature()) else { continue };
        for degrees in SCALES {
            let pitches = degrees.iter().filter_map(|&degree| {
                let note = notes[usize::try_from(degree.rem_euclid(7)).unwrap_or(0)];
                // The octave changes at C, not at home.
                let from_c = i32::from(home.step.index()) + degree;
                Pitch::new(note, 4 + from_c.div_euclid(7)).ok()
            });
            let features = Features::of(&View::of(&letters(pitches)), None);
            let answer = candidate(home.pitch_class(), mode);
            rows.push(Row::new(&features, signature.fifths(), answer, WEIGHT));
        }
    }
    rows
}

/// Pitches as letters in one line: all of one length, without bars.
pub(crate) fn letters(pitches: impl Iterator<Item = Pitch>) -> Tune {
    let mut builder = TuneBuilder::new();
    for pitch in pitches {
        // A line too long to count ends there.
        if builder.event(Sound::Note(pitch), Length::CROTCHET, Span::default()).is_err() {
            break;
        }
    }
    builder.finish()
}

/// A tune with nothing but its letters.
pub(crate) fn bare(tune: &Tune) -> Features {
    Features::of(&View::of(&letters(tune.soundings().map(|s| s.pitch))), None)
}

//! From notes to samples.

use crate::performance::{Note, Performance};
use crate::voice::{KNOCK, knock};
use crate::{RATE, Voice, hertz};

/// How loud a click is: below the peak of the soft first note, in hundredths of full height.
const CLICK: f64 = 0.2;
/// The pitch of a click, and of the first of a bar.
const CLICKS: (f64, f64) = (1100.0, 1650.0);

/// The samples of a performance, [`RATE`] a second, between -1 and 1.
///
/// Every note of a tune is [`Voice::PEAK`] high at most, and no more than two overlap; so the
/// sum never reaches 1 and nothing is cut. Notes outside the range of the MIDI scale are silent.
#[must_use]
pub fn render(performance: &Performance, voice: Voice) -> Vec<f32> {
    let mut samples = vec![0.0; place(performance.length)];
    for click in &performance.clicks {
        let pitch = if click.first { CLICKS.1 } else { CLICKS.0 };
        if let Some(out) = samples.get_mut(place(click.at)..) {
            knock(out, pitch, CLICK);
        }
    }
    for note in performance.notes.iter().filter(|note| (0..=127).contains(&note.midi)) {
        let start = place(note.start);
        let held = place(note.start.saturating_add(note.length)).saturating_sub(start);
        if let Some(out) = samples.get_mut(start..) {
            voice.add(out, hertz(note.midi), held, f64::from(note.gain) / 100.0);
        }
    }
    samples
}

/// The samples of one note alone, from its beginning until it has died away: for players that
/// schedule notes one by one. The same as [`render`] adds for it.
#[must_use]
pub fn render_note(note: &Note, voice: Voice) -> Vec<f32> {
    let held = place(note.length);
    let mut samples = vec![0.0; held.saturating_add(voice.rings())];
    if (0..=127).contains(&note.midi) {
        voice.add(&mut samples, hertz(note.midi), held, f64::from(note.gain) / 100.0);
    }
    samples
}

/// The samples of one click alone.
#[must_use]
pub fn render_click(first: bool) -> Vec<f32> {
    let mut samples = vec![0.0; KNOCK];
    knock(&mut samples, if first { CLICKS.1 } else { CLICKS.0 }, CLICK);
    samples
}

/// The sample at a time in nanoseconds, rounded down.
fn place(at: u64) -> usize {
    let at = at.min(Performance::LONGEST);
    usize::try_from(at * u64::from(RATE) / 1_000_000_000).unwrap_or(usize::MAX)
}

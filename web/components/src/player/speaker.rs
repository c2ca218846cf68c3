//! Notes through the browser's speaker, scheduled ahead on the audio clock.

use super::queue::{Item, Queue};
use modewright_sound::{Note, Performance, RATE, Voice, render_click, render_note};
use std::collections::HashMap;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use web_sys::{AudioBuffer, AudioContext, GainNode};

/// How far ahead notes are scheduled, in seconds: a tab in the background is woken once a second.
const AHEAD: f64 = 1.6;
/// How long after the reader's gesture the first sound begins, in seconds.
const SOON: f64 = 0.06;

/// Loudness where the control stands at first, in hundredths.
pub const QUIET: u8 = 20;

/// A performance that is heard; dropping it ends it.
#[derive(Debug)]
pub struct Speaker {
    context: AudioContext,
    gain: GainNode,
    queue: Queue,
    /// The performance that is heard.
    pub performance: Rc<Performance>,
    voice: Voice,
    /// The audio clock at the moment at which the playing begins, in seconds.
    start: f64,
    /// What has been rendered, by what it is.
    sounds: HashMap<(i32, u64, u8), AudioBuffer>,
}

impl Speaker {
    /// Starts; `None` where the browser gives no sound.
    pub(crate) fn start(
        performance: Rc<Performance>,
        voice: Voice,
        from: u64,
        again: bool,
        level: u8,
    ) -> Option<Self> {
        let queue = Queue::new(performance.clone(), from, again);
        Self::start_in(AudioContext::new().ok()?, performance, queue, voice, level)
    }

    /// Starts in a place for sound that is there already; `None` where the browser gives none.
    #[must_use]
    pub fn start_in(
        context: AudioContext,
        performance: Rc<Performance>,
        queue: Queue,
        voice: Voice,
        level: u8,
    ) -> Option<Self> {
        let gain = context.create_gain().ok()?;
        gain.gain().set_value(strength(level));
        gain.connect_with_audio_node(&context.destination()).ok()?;
        // A gesture started this; if the browser still waits, it is told to go on.
        let _ = context.resume();
        let start = context.current_time() + SOON;
        let mut speaker =
            Self { context, gain, queue, performance, voice, start, sounds: HashMap::new() };
        speaker.tick().ok()?;
        Some(speaker)
    }

    /// The moment that is heard now, in nanoseconds from the beginning of the playing.
    fn moment(&self) -> u64 {
        nanoseconds(self.context.current_time() - self.start)
    }

    /// Schedules what comes next.
    ///
    /// # Errors
    ///
    /// What the browser says where it can make no more sound.
    pub fn tick(&mut self) -> Result<(), JsValue> {
        let ahead = nanoseconds(self.context.current_time() + AHEAD - self.start);
        for (moment, item) in self.queue.until(ahead) {
            let sound = self.sound(item)?;
            let source = self.context.create_buffer_source()?;
            source.set_buffer(Some(&sound));
            source.connect_with_audio_node(&self.gain)?;
            source.start_with_when(self.start + seconds(moment))?;
        }
        Ok(())
    }

    /// The samples of a note or click, rendered once.
    fn sound(&mut self, item: Item) -> Result<AudioBuffer, JsValue> {
        let key = match item {
            Item::Note(Note { midi, length, gain, .. }) => (midi, length, gain),
            Item::Click(click) => (i32::MIN, 0, u8::from(click.first)),
        };
        if let Some(sound) = self.sounds.get(&key) {
            return Ok(sound.clone());
        }
        let samples = match item {
            Item::Note(note) => render_note(&note, self.voice),
            Item::Click(click) => render_click(click.first),
        };
        let count = u32::try_from(samples.len()).unwrap_or(u32::MAX);
        #[expect(clippy::cast_precision_loss, reason = "the rate is a small whole number")]
        let sound = self.context.create_buffer(1, count, RATE as f32)?;
        sound.copy_to_channel(&samples, 0)?;
        self.sounds.insert(key, sound.clone());
        Ok(sound)
    }

    /// The place of the performance that is heard; `None` when it is over.
    #[must_use]
    pub fn place(&self) -> Option<u64> {
        self.queue.place(self.moment())
    }

    /// The written note that is heard.
    #[must_use]
    pub fn lit(&self) -> Option<usize> {
        let begun = self.context.current_time() >= self.start;
        self.queue.lit(self.moment()).filter(|_| begun)
    }

    /// Sets how loud it is, in hundredths.
    pub fn loudness(&self, level: u8) {
        self.gain.gain().set_value(strength(level));
    }
}

impl Drop for Speaker {
    fn drop(&mut self) {
        // Closing an already closed context is refused, and right so.
        let _ = self.context.close();
    }
}

/// The gain for a level of the control: square, as ears hear it, and well below full.
fn strength(level: u8) -> f32 {
    let part = f32::from(level.min(100)) / 100.0;
    0.5 * part * part
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "saturates at both ends"
)]
fn nanoseconds(seconds: f64) -> u64 {
    (seconds * 1e9) as u64
}

#[expect(clippy::cast_precision_loss, reason = "a quarter of an hour is far below 2^53")]
fn seconds(nanoseconds: u64) -> f64 {
    nanoseconds as f64 / 1e9
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_starts_quiet() {
        assert!(strength(QUIET) <= 0.02 + f32::EPSILON && strength(QUIET) > 0.0);
        assert!(strength(0).abs() < f32::EPSILON);
        assert!(strength(255) <= 0.5);
    }

    #[test]
    fn times_before_the_beginning_are_the_beginning() {
        assert_eq!(
            [nanoseconds(-1.0), nanoseconds(f64::NAN), nanoseconds(1.5)],
            [0, 0, 1_500_000_000]
        );
        assert!((seconds(1_500_000_000) - 1.5).abs() < f64::EPSILON);
    }
}

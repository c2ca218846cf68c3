//! Which note sounds when.

use modewright_core::Tune;
use modewright_core::count::{Pace, System, tune_count_in};
use modewright_core::tune::{MarkKind, Tempo};

/// A note of a performance. Times are in nanoseconds from the beginning.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Note {
    /// The written note, as an index into the tune's events, and of tied ones the first; `None`
    /// for a note that stands in no tune.
    pub event: Option<usize>,
    /// When it begins.
    pub start: u64,
    /// How long it is held.
    pub length: u64,
    /// Its sounding place on the MIDI scale.
    pub midi: i32,
    /// How loud, in hundredths of a full note.
    pub gain: u8,
}

/// A click of the count-in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Click {
    /// When it falls, in nanoseconds.
    pub at: u64,
    /// Whether it is the first of a bar.
    pub first: bool,
}

/// What is heard, and when.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Performance {
    /// The notes in the order in which they begin.
    pub notes: Vec<Note>,
    /// The clicks of the count-in.
    pub clicks: Vec<Click>,
    /// How long it all lasts, in nanoseconds.
    pub length: u64,
}

/// How a tune is played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerformOptions {
    /// Beats a minute of the tune's own beat ([`Pace::of`]); `None` plays at the written speed
    /// and follows its changes.
    pub per_minute: Option<u32>,
    /// Bars of count-in: none, one or two.
    pub count_in: u32,
    /// Whether repeats are played.
    pub repeats: bool,
}

impl Default for PerformOptions {
    fn default() -> Self {
        Self { per_minute: None, count_in: 1, repeats: true }
    }
}

/// Why there is no sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoundError {
    /// It would last longer than [`Performance::LONGEST`].
    TooLong,
    /// No beat passes in a minute.
    NoTempo,
}

/// Nanoseconds of a second.
const SECOND: u64 = 1_000_000_000;

/// How loud the first note is, in hundredths: nobody shall be startled.
const SOFT: u8 = 60;

impl Performance {
    /// The longest performance, in nanoseconds: a quarter of an hour.
    pub const LONGEST: u64 = 900 * SECOND;

    /// A tune as it is played: repeats and named parts unfolded, tied notes as one. Grace notes
    /// and the lower notes of chords are left out. In free metre there is no count-in.
    ///
    /// # Errors
    ///
    /// [`SoundError`] where it would last too long, or never begin.
    pub fn of(tune: &Tune, options: &PerformOptions) -> Result<Self, SoundError> {
        let (mut pace, _) = Pace::of(tune);
        if let Some(per_minute) = options.per_minute {
            pace.per_minute = per_minute;
        }
        if pace.per_minute == 0 || pace.beat.is_zero() {
            return Err(SoundError::NoTempo);
        }
        let mut performance = Self::default();
        let mut now = 0;
        let before = match options.count_in {
            0 => None,
            bars => tune_count_in(tune, bars, System::default()),
        };
        if let Some(before) = before {
            let bar = tune.metre.bar_length();
            for at in &before.clicks {
                let first = at.is_zero() || bar.is_some_and(|bar| bar.divides(*at).is_some());
                performance.clicks.push(Click { at: pace.nanoseconds(*at), first });
            }
            now = pace.nanoseconds(before.length);
        }
        let bars: Vec<usize> =
            if options.repeats { tune.play_order() } else { (0..tune.bars.len()).collect() };
        let mut mark = 0;
        let mut held: Option<modewright_core::Pitch> = None;
        for bar in bars {
            let Some(place) = tune.bars.get(bar) else { continue };
            for (index, event) in (place.first..).zip(tune.events_of(bar)) {
                if options.per_minute.is_none()
                    && let Some(tempo) = tempo_at(tune, index, &mut mark)
                    && let Some(new) = pace.changed(tempo)
                {
                    pace = new;
                }
                let length = pace.nanoseconds(event.length);
                let pitch = event.sound.pitch();
                if let Some(pitch) = pitch {
                    match performance.notes.last_mut().filter(|_| held == Some(pitch)) {
                        Some(last) => last.length += length,
                        None => performance.notes.push(Note {
                            event: Some(index),
                            start: now,
                            length,
                            midi: i32::from(pitch.midi()) + i32::from(tune.sounding_shift),
                            gain: 100,
                        }),
                    }
                }
                held = pitch.filter(|_| event.tied);
                now = now.saturating_add(length);
                if now > Self::LONGEST {
                    return Err(SoundError::TooLong);
                }
            }
        }
        performance.length = now;
        if let Some(first) = performance.notes.first_mut() {
            first.gain = SOFT;
        }
        Ok(performance)
    }

    /// The note that sounds at a time, to be lit: the one that began last and is still held.
    /// Notes that stand in no tune are passed over.
    #[must_use]
    pub fn lit(&self, at: u64) -> Option<usize> {
        let begun = self.notes.partition_point(|note| note.start <= at);
        let last = self.notes[..begun].iter().rev().find(|note| note.event.is_some())?;
        last.event.filter(|_| at < last.start.saturating_add(last.length))
    }
}

/// The change of speed that stands at an event. `mark` is where the search goes on; it starts
/// again where the playing goes back.
fn tempo_at<'a>(tune: &'a Tune, event: usize, mark: &mut usize) -> Option<&'a Tempo> {
    if tune.marks.get(mark.saturating_sub(1)).is_some_and(|last| last.event >= event) {
        *mark = tune.marks.partition_point(|mark| mark.event < event);
    }
    let mut found = None;
    while let Some(next) = tune.marks.get(*mark).filter(|next| next.event <= event) {
        if let MarkKind::Tempo(tempo) = &next.kind
            && next.event == event
        {
            found = Some(tempo);
        }
        *mark += 1;
    }
    found
}

//! Which note sounds when.

use modewright_core::count::{
    BarPlace, Pace, System, bar_beats, bar_places, count_in, tune_count_in,
};
use modewright_core::tune::{Event, MarkKind, Tempo};
use modewright_core::{Length, Pitch, PitchClass, Tune};

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
    /// The speed in hundredths of that, without a change of pitch.
    pub percent: u32,
    /// Bars of count-in: none, one or two.
    pub count_in: u32,
    /// Whether repeats are played.
    pub repeats: bool,
    /// The first and the last bar to play, by their numbers; they are played as they stand on the
    /// page, without repeats. `None` plays the whole tune.
    pub bars: Option<(u32, u32)>,
    /// Whether the clicks go on under the tune, a click a beat.
    pub click: bool,
    /// A note that sounds on below the tune, as it is written: the home note, as a rule. It is
    /// struck anew with every bar.
    pub drone: Option<PitchClass>,
}

impl Default for PerformOptions {
    fn default() -> Self {
        Self {
            per_minute: None,
            percent: 100,
            count_in: 1,
            repeats: true,
            bars: None,
            click: false,
            drone: None,
        }
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
/// The drone against the tune, in hundredths: with two of it and two notes at their loudest the
/// sum is [`crate::Voice::PEAK`] times two and a half, which is full height.
const DRONE: u8 = 25;

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
        let bars: Vec<usize> = match options.bars {
            Some((first, last)) => {
                let wanted = |at: &usize| {
                    tune.bars.get(*at).is_some_and(|bar| (first..=last).contains(&bar.number))
                };
                (0..tune.bars.len()).filter(wanted).collect()
            }
            None if options.repeats => tune.play_order(),
            None => (0..tune.bars.len()).collect(),
        };
        let mut playing = Playing::new(tune, options)?;
        playing.count_in(&bars);
        for bar in bars {
            playing.bar(bar)?;
        }
        let mut performance = playing.performance;
        performance.length = playing.now;
        if let Some(first) = performance.notes.iter_mut().find(|note| note.event.is_some()) {
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

/// A tune while it is laid out in time.
struct Playing<'a> {
    tune: &'a Tune,
    options: &'a PerformOptions,
    pace: Pace,
    places: Vec<BarPlace>,
    performance: Performance,
    now: u64,
    /// The note that a tie holds, by its place in the performance.
    held: Option<(usize, Pitch)>,
    /// Where the search for changes of speed goes on.
    mark: usize,
}

impl<'a> Playing<'a> {
    fn new(tune: &'a Tune, options: &'a PerformOptions) -> Result<Self, SoundError> {
        let (mut pace, _) = Pace::of(tune);
        if let Some(per_minute) = options.per_minute {
            pace.per_minute = per_minute;
        }
        if pace.per_minute == 0 || pace.beat.is_zero() || options.percent == 0 {
            return Err(SoundError::NoTempo);
        }
        let places = if options.click { bar_places(tune) } else { Vec::new() };
        let performance = Performance::default();
        Ok(Self { tune, options, pace, places, performance, now: 0, held: None, mark: 0 })
    }

    /// How long a length lasts.
    fn time(&self, length: Length) -> u64 {
        let written = u128::from(self.pace.nanoseconds(length));
        let played = written * 100 / u128::from(self.options.percent.max(1));
        u64::try_from(played).unwrap_or(u64::MAX)
    }

    /// The clicks before the first note: up to the pickup where the tune begins with it, whole
    /// bars before any other bar.
    fn count_in(&mut self, bars: &[usize]) {
        let Some(first) = bars.first() else { return };
        let system = System::default();
        let before = match (self.options.count_in, *first) {
            (0, _) => None,
            (count, 0) => tune_count_in(self.tune, count, system),
            (count, bar) => self
                .tune
                .bars
                .get(bar)
                .and_then(|bar| count_in(bar.metre, Length::ZERO, count, system)),
        };
        let metre = self.tune.bars.get(*first).map_or(self.tune.metre, |bar| bar.metre);
        let Some(before) = before else { return };
        let bar = metre.bar_length();
        for at in &before.clicks {
            let first = at.is_zero() || bar.is_some_and(|bar| bar.divides(*at).is_some());
            let at = self.time(*at);
            self.performance.clicks.push(Click { at, first });
        }
        self.now = self.time(before.length);
    }

    fn bar(&mut self, index: usize) -> Result<(), SoundError> {
        let Some(bar) = self.tune.bars.get(index) else { return Ok(()) };
        self.beats(index);
        let (start, drone) = (self.now, self.performance.notes.len());
        for (index, event) in (bar.first..).zip(self.tune.events_of(index)) {
            if self.options.per_minute.is_none()
                && let Some(tempo) = tempo_at(self.tune, index, &mut self.mark)
                && let Some(new) = self.pace.changed(tempo)
            {
                self.pace = new;
            }
            self.event(index, event);
            if self.now > Performance::LONGEST {
                return Err(SoundError::TooLong);
            }
        }
        let length = self.now - start;
        if let Some(class) = self.options.drone
            && length > 0
        {
            let midi = low(class, self.tune.sounding_shift);
            let note = Note { event: None, start, length, midi, gain: DRONE };
            self.performance.notes.insert(drone, note);
            if let Some((held, _)) = &mut self.held
                && *held >= drone
            {
                *held += 1;
            }
        }
        Ok(())
    }

    /// The clicks under a bar, at the speed with which it begins.
    fn beats(&mut self, index: usize) {
        let (Some(bar), Some(place)) = (self.tune.bars.get(index), self.places.get(index)) else {
            return;
        };
        for at in bar_beats(bar, *place) {
            let first = place.offset.is_zero() && at.is_zero();
            let at = self.now.saturating_add(self.time(at));
            self.performance.clicks.push(Click { at, first });
        }
    }

    fn event(&mut self, index: usize, event: &Event) {
        let length = self.time(event.length);
        let pitch = event.sound.pitch();
        let mut note = None;
        if let Some(pitch) = pitch {
            let tied = self.held.filter(|(_, held)| *held == pitch).map(|(place, _)| place);
            match tied.and_then(|place| self.performance.notes.get_mut(place)) {
                Some(last) => {
                    last.length += length;
                    note = tied;
                }
                None => {
                    note = Some(self.performance.notes.len());
                    self.performance.notes.push(Note {
                        event: Some(index),
                        start: self.now,
                        length,
                        midi: i32::from(pitch.midi()) + i32::from(self.tune.sounding_shift),
                        gain: 100,
                    });
                }
            }
        }
        self.held = note.zip(pitch).filter(|_| event.tied);
        self.now = self.now.saturating_add(length);
    }
}

/// Where a written note sounds low: from the G an octave and a half below middle C up.
fn low(class: PitchClass, shift: i16) -> i32 {
    const LOWEST: i32 = 43;
    LOWEST + (i32::from(class.above(PitchClass::new(LOWEST))) + i32::from(shift)).rem_euclid(12)
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

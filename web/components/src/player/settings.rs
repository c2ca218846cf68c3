//! How a reader likes a tune to be played.

use modewright_core::PitchClass;
use modewright_sound::{PerformOptions, Voice};

/// What can be set, with the lowest and highest speed in hundredths.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Settings {
    /// The speed in hundredths of the written one.
    pub percent: u32,
    /// The bars to play, by their numbers; `None` plays all.
    pub bars: Option<(u32, u32)>,
    /// Whether it begins again when it ends.
    pub again: bool,
    /// Bars of clicks before it.
    pub count_in: u32,
    /// Whether the clicks go on.
    pub click: bool,
    /// Whether home sounds below the tune.
    pub drone: bool,
    /// What it is played with.
    pub voice: Voice,
    /// How loud, in hundredths.
    pub loudness: u8,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            percent: 100,
            bars: None,
            again: false,
            count_in: 1,
            click: false,
            drone: false,
            voice: Voice::Plucked,
            loudness: super::QUIET,
        }
    }
}

impl Settings {
    /// The slowest and the fastest speed, in hundredths.
    pub const SPEEDS: (u32, u32) = (40, 200);

    /// For the sound crate; `home` is the tune's home note.
    #[must_use]
    pub fn options(&self, home: Option<PitchClass>) -> PerformOptions {
        PerformOptions {
            percent: self.percent.clamp(Self::SPEEDS.0, Self::SPEEDS.1),
            count_in: self.count_in.min(2),
            bars: self.bars,
            click: self.click,
            drone: home.filter(|_| self.drone),
            ..PerformOptions::default()
        }
    }

    /// As a line of numbers, to be kept. The bars belong to the tune and are not kept.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_components::player::Settings;
    ///
    /// let slow = Settings { percent: 60, click: true, ..Settings::default() };
    /// assert_eq!(slow.line(), "60 0 1 1 0 0 20");
    /// assert_eq!(Settings::from_line(&slow.line()), Some(slow));
    /// // What others wrote is not read; what is too much is cut down.
    /// assert_eq!(Settings::from_line("fast"), None);
    /// assert_eq!(Settings::from_line("9999 0 9 0 0 0 250").unwrap().line(), "200 0 2 0 0 0 100");
    /// ```
    #[must_use]
    pub fn line(&self) -> String {
        let Self { percent, again, count_in, click, drone, voice, loudness, .. } = self;
        let (again, click, drone) = (u8::from(*again), u8::from(*click), u8::from(*drone));
        let voice = u8::from(*voice == Voice::Reed);
        format!("{percent} {again} {count_in} {click} {drone} {voice} {loudness}")
    }

    /// From a line that [`Settings::line`] wrote.
    #[must_use]
    pub fn from_line(line: &str) -> Option<Self> {
        let numbers: Option<Vec<u32>> = line.split(' ').map(|number| number.parse().ok()).collect();
        let numbers = numbers?;
        let [percent, again, count_in, click, drone, voice, loudness] = numbers.as_slice() else {
            return None;
        };
        Some(Self {
            percent: (*percent).clamp(Self::SPEEDS.0, Self::SPEEDS.1),
            bars: None,
            again: *again > 0,
            count_in: (*count_in).min(2),
            click: *click > 0,
            drone: *drone > 0,
            voice: if *voice > 0 { Voice::Reed } else { Voice::Plucked },
            loudness: u8::try_from((*loudness).min(100)).unwrap_or(100),
        })
    }
}

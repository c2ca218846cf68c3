//! How fast: from a tempo to seconds.

use crate::tune::{MarkKind, Tempo, Tune};
use crate::{Length, Metre, MetreKind};

/// Where a pace was taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PaceSource {
    /// A number on the page.
    Number,
    /// A word on the page.
    Word,
    /// Nothing on the page: a learner's pace for the metre.
    Metre,
}

/// A speed: so many beats of one length a minute.
///
/// # Examples
///
/// ```
/// use modewright_core::count::Pace;
/// use modewright_core::Length;
///
/// let jig = Pace { beat: Length::new(3, 8)?, per_minute: 120 };
/// assert_eq!(jig.seconds(Length::new(3, 4)?), 1.0);
/// // A quaver of it is a sixth of a second, rounded to the nearest number there is.
/// assert_eq!(jig.microseconds(Length::QUAVER), 166_667);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pace {
    /// The length that is counted.
    pub beat: Length,
    /// How many of it a minute has.
    pub per_minute: u32,
}

/// Tempo words of the trade in crotchet beats a minute, from slow to quick (common practice,
/// from memory; makers of metronomes differ by a fifth and more).
const WORDS: [(&str, u32); 17] = [
    ("grave", 40),
    ("largo", 48),
    ("lento", 52),
    ("adagio", 66),
    ("larghetto", 63),
    ("slowly", 66),
    ("slow", 66),
    ("andante", 80),
    ("andantino", 88),
    ("moderato", 108),
    ("moderately", 108),
    ("allegretto", 116),
    ("lively", 126),
    ("allegro", 132),
    ("vivace", 152),
    ("fast", 152),
    ("presto", 176),
];

impl Pace {
    /// The pace at the start of a tune, and where it was taken from: its number, else its word,
    /// else a learner's pace.
    ///
    /// A number without a length counts beats of the metre.
    #[must_use]
    pub fn of(tune: &Tune) -> (Self, PaceSource) {
        let beat = Self::usual_beat(tune.metre);
        let first = tune.events.iter().position(|e| e.sound.pitch().is_some()).unwrap_or(0);
        let marked = tune.marks.iter().take_while(|mark| mark.event <= first);
        let mut tempo = tune.tempo.as_ref();
        for mark in marked {
            if let MarkKind::Tempo(later) = &mark.kind {
                tempo = Some(later);
            }
        }
        if let Some(pace) = tempo.and_then(|tempo| Self::from_number(tempo, beat)) {
            return (pace, PaceSource::Number);
        }
        let word = tempo.and_then(|t| t.words.as_deref()).and_then(Self::from_word);
        match word {
            Some(per_minute) => (Self { beat, per_minute }, PaceSource::Word),
            None => (Self { beat, per_minute: 80 }, PaceSource::Metre),
        }
    }

    fn from_number(tempo: &Tempo, beat: Length) -> Option<Self> {
        let per_minute = tempo.per_minute.filter(|count| *count > 0)?;
        let sum = tempo.beat.iter().try_fold(Length::ZERO, |sum, part| sum.plus(*part)).ok()?;
        Some(Self { beat: if sum.is_zero() { beat } else { sum }, per_minute })
    }

    /// Beats a minute of the first tempo word in a text; `None` where none is known.
    #[must_use]
    pub fn from_word(text: &str) -> Option<u32> {
        let mut words = text.split(|c: char| !c.is_alphabetic());
        words.find_map(|said| {
            let known = WORDS.iter().find(|(word, _)| word.eq_ignore_ascii_case(said));
            known.map(|(_, count)| *count)
        })
    }

    /// The beat of a metre that a tempo counts: dotted for compound metres, the lower number's
    /// value for simple and unequal ones, a crotchet in free metre.
    #[must_use]
    pub fn usual_beat(metre: Metre) -> Length {
        let unit = metre.unit().unwrap_or(Length::CROTCHET);
        match metre.kind() {
            MetreKind::Free => Length::CROTCHET,
            MetreKind::Compound => unit.times(3, 1).unwrap_or(unit),
            MetreKind::Simple | MetreKind::Irregular => unit,
        }
    }

    /// How long a length lasts, in seconds; the same number on every machine.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "the nearest number is what is meant")]
    pub fn seconds(self, length: Length) -> f64 {
        let (over, under) = self.fraction(length);
        if under == 0 { 0.0 } else { over as f64 / under as f64 }
    }

    /// How long a length lasts, in millionths of a second, to the nearest.
    #[must_use]
    pub fn microseconds(self, length: Length) -> u64 {
        self.parts(length, 1_000_000)
    }

    /// How long a length lasts, in thousand millionths of a second, to the nearest.
    #[must_use]
    pub fn nanoseconds(self, length: Length) -> u64 {
        self.parts(length, 1_000_000_000)
    }

    /// How long a length lasts, in so many parts of a second, to the nearest.
    fn parts(self, length: Length, of_second: u32) -> u64 {
        let (over, under) = self.fraction(length);
        let rounded = (over * 2 * u128::from(of_second) + under).checked_div(under * 2);
        u64::try_from(rounded.unwrap_or(0)).unwrap_or(u64::MAX)
    }

    /// This pace after a tempo on the page: its number or its word; `None` where it says
    /// neither.
    #[must_use]
    pub fn changed(self, tempo: &Tempo) -> Option<Self> {
        Self::from_number(tempo, self.beat).or_else(|| {
            let per_minute = Self::from_word(tempo.words.as_deref()?)?;
            Some(Self { per_minute, ..self })
        })
    }

    /// Seconds as a fraction.
    fn fraction(self, length: Length) -> (u128, u128) {
        let over = 60 * u128::from(length.numerator()) * u128::from(self.beat.denominator());
        let under = u128::from(length.denominator())
            * u128::from(self.beat.numerator())
            * u128::from(self.per_minute);
        (over, under)
    }
}

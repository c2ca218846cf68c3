//! Every pitch of a tune: where it stands first, how long and how often it sounds.
//!
//! A tune has a dozen or two of them. What is asked of all its notes is gathered by pitch in one
//! walk, and then asked of the pitches.

use crate::{Length, Pitch, Range};

/// A pitch of a tune.
#[derive(Clone, Copy, Debug)]
pub(crate) struct HeardPitch {
    pub pitch: Pitch,
    /// The same as one number.
    code: u32,
    /// Its height in semitones.
    pub midi: i16,
    /// Its pitch class, 0 to 11.
    pub class: u8,
    /// Its first note, as an index into the tune's events.
    pub first: u32,
    /// How long it is heard, in ticks, each sounding at least one.
    pub ticks: u64,
    /// How often it is struck.
    pub count: u32,
    /// Whether its first note begins on a beat or lasts longer than one.
    pub firm: bool,
}

/// The pitches of a tune, in the order in which they come first.
#[derive(Clone, Debug)]
pub(crate) struct Heard {
    pub pitches: Vec<HeardPitch>,
    /// Where the first pitch of each row stands among them: places on the stave have three rows
    /// each, for a flat, a natural and a sharp.
    places: [u8; 256],
}

/// No pitch is lower than this, and none as much as 256 semitones higher.
const LOWEST: i16 = -48;

/// A pitch as one number, which is compared faster.
#[inline]
fn code(pitch: Pitch) -> u32 {
    let note = pitch.spelling();
    u32::from_le_bytes([
        note.step.index(),
        note.alter.semitones().cast_unsigned(),
        pitch.octave().cast_unsigned(),
        0,
    ])
}

impl Heard {
    pub(crate) fn new() -> Self {
        Self { pitches: Vec::with_capacity(16), places: [u8::MAX; 256] }
    }

    /// What is known of a pitch, whose note is one of the tune's events.
    #[inline]
    pub(crate) fn known(&mut self, pitch: Pitch, event: u32) -> &mut HeardPitch {
        let row = 3 * pitch.stave_place() + i16::from(pitch.spelling().alter.semitones());
        let row = usize::from(row.cast_unsigned()) % self.places.len();
        let place = usize::from(self.places[row]);
        let place = match self.pitches.get(place) {
            Some(known) if known.code == code(pitch) => place,
            _ => self.slowly(pitch, row, event),
        };
        &mut self.pitches[place]
    }

    /// The first note of a row, or one that shares its row with others: such are looked up one
    /// after the other.
    #[cold]
    fn slowly(&mut self, pitch: Pitch, row: usize, event: u32) -> usize {
        let place = self.pitches.len();
        if place >= usize::from(u8::MAX) || self.places[row] != u8::MAX {
            let known = self.pitches.iter().position(|known| known.pitch == pitch);
            if let Some(place) = known {
                return place;
            }
        }
        if self.places[row] == u8::MAX {
            self.places[row] = u8::try_from(place).unwrap_or(u8::MAX);
        }
        self.pitches.push(HeardPitch {
            pitch,
            code: code(pitch),
            midi: pitch.midi(),
            class: pitch.pitch_class().semitones(),
            first: event,
            ticks: 0,
            count: 0,
            firm: false,
        });
        place
    }

    /// Lowest and highest pitch, and those below and above which a quarter of the time lies; `None`
    /// where there is no pitch. Height is by sound: of pitches that sound alike, the one that
    /// stands first speaks for all.
    pub(crate) fn range(&self) -> Option<Range> {
        let (mut times, mut firsts) = ([0_u64; 256], [0_u16; 256]);
        let (mut low, mut high, mut total) = (u8::MAX, 0, 0);
        // From the last that comes to the first, which stays.
        for (i, known) in self.pitches.iter().enumerate().rev() {
            let height = u8::try_from(known.midi - LOWEST).unwrap_or(u8::MAX);
            (low, high) = (low.min(height), high.max(height));
            times[usize::from(height)] += known.ticks;
            // There are some thousand at most.
            firsts[usize::from(height)] = u16::try_from(i).unwrap_or(u16::MAX);
            total += known.ticks;
        }
        let first = |height: u8| self.pitches.get(usize::from(firsts[usize::from(height)]));
        let (lowest, highest) = (first(low)?, first(high)?);
        let at = |quarters: u64| {
            let mut sum = 0;
            let reached = (low..high).find(|&height| {
                sum += times[usize::from(height)];
                sum * 4 >= total * quarters
            });
            first(reached.unwrap_or(high)).map(|known| known.pitch)
        };
        Some(Range {
            lowest: lowest.pitch,
            lowest_at: lowest.first as usize,
            highest: highest.pitch,
            highest_at: highest.first as usize,
            tessitura: (at(1)?, at(3)?),
        })
    }
}

/// A written length as it is counted.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Counted {
    pub length: Length,
    /// In ticks, at least one.
    pub ticks: u64,
    /// The same, cut to what fits.
    pub short: u32,
}

impl Counted {
    /// Parts of a semibreve that are counted in.
    pub(crate) const TICKS: u32 = 1920;

    pub(crate) fn of(length: Length) -> Self {
        let ticks = length.ticks(Self::TICKS).max(1);
        Self { length, ticks, short: Self::cut(ticks) }
    }

    /// So many ticks, cut to what fits.
    #[inline]
    pub(crate) fn cut(ticks: u64) -> u32 {
        const MOST: u32 = u32::MAX / 4;
        u32::try_from(ticks.min(u64::from(MOST))).unwrap_or(MOST)
    }
}

//! The beats of a bar, in parts: a part is the note value of the metre's lower number.

use super::syllable::{Compound, Split, Syllable, System, Uneven};
use crate::{Length, Metre, MetreKind};

/// A counted beat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Beat {
    /// Where it begins, in parts from the bar line.
    pub start: u32,
    /// How many parts it lasts.
    pub parts: u32,
    pub split: Split,
    pub number: u32,
}

/// The beats of a metre under a system; none in free metre.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Beats {
    pub beats: Vec<Beat>,
    /// Parts of a full bar.
    pub parts: u32,
    /// The note value of a part.
    pub part: Length,
    system: System,
}

impl Beats {
    pub(super) fn new(metre: Metre, system: System) -> Option<Self> {
        let part = metre.unit()?;
        let groups = metre.beats();
        let each = |count| vec![1; count as usize];
        let (lengths, restart) = match (metre.kind(), system) {
            (MetreKind::Free, _) => return None,
            (MetreKind::Compound, System { compound, .. }) if compound != Compound::Parts => {
                (groups, false)
            }
            (MetreKind::Irregular, System { uneven: Uneven::Parts, .. }) => (groups, true),
            (MetreKind::Irregular, _) if metre.lower() > 4 && groups.iter().all(|g| *g <= 4) => {
                (groups, false)
            }
            _ => (each(metre.upper()), false),
        };
        let mut beats = Vec::new();
        let mut start = 0;
        for parts in lengths {
            if restart {
                let inner = (0..parts).map(|i| (start + i, 1, i + 1));
                beats.extend(inner.map(|(start, parts, number)| Beat {
                    start,
                    parts,
                    split: Split::Two,
                    number,
                }));
            } else {
                let number = u32::try_from(beats.len()).unwrap_or(u32::MAX).saturating_add(1);
                let split = if parts == 3 { Split::Three } else { Split::Two };
                beats.push(Beat { start, parts, split, number });
            }
            start += parts;
        }
        Some(Self { beats, parts: start, part, system })
    }

    /// A place in the bar in parts; `None` where the sum no longer fits.
    pub(super) fn place(&self, at: Length) -> Option<Length> {
        at.times(self.part.denominator(), self.part.numerator()).ok()
    }

    /// A place in parts as a length from the bar line; nothing where it no longer fits.
    pub(super) fn length(&self, place: Length) -> Length {
        place.times(self.part.numerator(), self.part.denominator()).unwrap_or(Length::ZERO)
    }

    /// The beat that a place lies in, by its index; beats past the bar count on.
    pub(super) fn beat_at(&self, place: Length) -> usize {
        let whole = place.numerator() / place.denominator();
        let (bars, rest) = (whole / self.parts, whole % self.parts);
        let within = self.beats.partition_point(|beat| beat.start <= rest).saturating_sub(1);
        self.beats.len().saturating_mul(bars as usize).saturating_add(within)
    }

    /// The beat of an index.
    pub(super) fn beat(&self, index: usize) -> Beat {
        let bars = u32::try_from(index / self.beats.len()).unwrap_or(u32::MAX);
        let beat = self.beats[index % self.beats.len()];
        let restarts = self.beats.iter().filter(|b| b.number == 1).count() > 1;
        let count = u32::try_from(self.beats.len()).unwrap_or(u32::MAX);
        Beat {
            start: beat.start.saturating_add(bars.saturating_mul(self.parts)),
            number: if restarts {
                beat.number
            } else {
                beat.number.saturating_add(bars.saturating_mul(count))
            },
            ..beat
        }
    }

    /// How far into its beat a place lies, as a fraction of the beat.
    pub(super) fn inside(&self, beat: Beat, place: Length) -> Option<Length> {
        place.minus(whole(beat.start))?.times(1, beat.parts).ok()
    }

    /// What is said at a fraction of a beat.
    pub(super) fn syllable(&self, beat: Beat, inside: Length, even: bool) -> Syllable {
        if inside.is_zero() {
            return Syllable::Number(beat.number);
        }
        let fraction = (inside.numerator(), inside.denominator());
        self.system.inside(beat.split, fraction, even)
    }
}

/// So many whole parts.
pub(super) fn whole(parts: u32) -> Length {
    Length::SEMIBREVE.times(parts, 1).unwrap_or(Length::ZERO)
}

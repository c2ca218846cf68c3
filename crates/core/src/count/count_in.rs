//! The count before the first note.

use super::beats::{Beats, whole};
use super::fit::{BarFit, BarPlace, bar_places};
use super::syllable::{Syllable, System};
use crate::tune::Bar;
use crate::{Length, Metre, Tune};

/// What is said before the first note.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CountIn {
    /// The words with their places from the first of them; the place of the first note, on the
    /// same line of time, is [`CountIn::length`].
    pub counts: Vec<(Length, Syllable)>,
    /// The beats among them: where a click falls. Compound and unequal beats are one click each.
    pub clicks: Vec<Length>,
    /// From the first word to the first note.
    pub length: Length,
    /// The word that the first note itself falls on.
    pub first_note: Syllable,
}

impl CountIn {
    /// The words alone: `1 la li 2 la`.
    #[must_use]
    pub fn text(&self) -> String {
        let words: Vec<String> = self.counts.iter().map(|(_, said)| said.to_string()).collect();
        words.join(" ")
    }
}

/// The count-in for a tune: so many full bars (one or two), cut where the pickup begins so that
/// the pickup falls on its own count. `None` in free metre, or for a pickup that is no part of a
/// bar.
///
/// Beats of three are counted through. So are beats of two in a bar of two beats where the
/// pickup begins between beats: such bars are quick, and the words between the beats tell when
/// to come in (common practice, no source).
///
/// # Examples
///
/// ```
/// use modewright_core::count::{Compound, System, count_in};
/// use modewright_core::{Length, Metre};
///
/// let jig = Metre::new(&[6], 8)?;
/// let by_parts = count_in(jig, Length::QUAVER, 1, System::default()).unwrap();
/// assert_eq!(by_parts.text(), "1 2 3 4 5");
/// let system = System { compound: Compound::LaLi, ..System::default() };
/// let by_beats = count_in(jig, Length::QUAVER, 1, system).unwrap();
/// assert_eq!((by_beats.text().as_str(), by_beats.first_note.to_string().as_str()),
///     ("1 la li 2 la", "li"));
/// // Free metre has nothing to count.
/// assert_eq!(count_in(Metre::FREE, Length::ZERO, 1, system), None);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn count_in(metre: Metre, pickup: Length, bars: u32, system: System) -> Option<CountIn> {
    let beats = Beats::new(metre, system)?;
    let full = metre.bar_length()?;
    let offset = full.minus(pickup).filter(|offset| !offset.is_zero())?;
    let first = if pickup.is_zero() { Length::ZERO } else { offset };
    let whole_bars = bars.clamp(1, 2) - u32::from(!pickup.is_zero());
    let stop = beats.place(first)?;
    let between = stop.denominator() != 1 && beats.beats.len() <= 2;
    let mut counts = Vec::new();
    for bar in 0..=whole_bars {
        for beat in &beats.beats {
            // A beat of two is said by its number alone, or with its half.
            let steps = match beat.parts {
                1 if between => 2,
                parts => parts,
            };
            for step in 0..steps {
                let inside = Length::new(step, steps).ok()?;
                let place = inside.times(beat.parts, 1).ok()?.plus(whole(beat.start)).ok()?;
                if bar == whole_bars && place >= stop {
                    break;
                }
                let from = full.times(bar, 1).ok()?;
                let at = beats.length(place).plus(from).ok()?;
                counts.push((at, beats.syllable(*beat, inside, false)));
            }
        }
    }
    let length = full.times(whole_bars, 1).ok()?.plus(first).ok()?;
    let first_beat = beats.beat(beats.beat_at(stop));
    let inside = beats.inside(first_beat, stop)?;
    Some(CountIn {
        counts,
        clicks: clicks(metre, length),
        length,
        first_note: beats.syllable(first_beat, inside, false),
    })
}

/// The count-in for a tune as it begins: see [`count_in`].
#[must_use]
pub fn tune_count_in(tune: &Tune, bars: u32, system: System) -> Option<CountIn> {
    let is_pickup = bar_places(tune).first()?.fit == BarFit::Pickup;
    let pickup = if is_pickup { tune.bars.first()?.length } else { Length::ZERO };
    count_in(tune.bars.first()?.metre, pickup, bars, system)
}

/// The beats that fall within a bar, measured from its first note; none in free metre.
///
/// # Examples
///
/// ```
/// use modewright_core::count::{bar_beats, bar_places};
/// use modewright_core::tune::{Sound, Span, TuneBuilder};
/// use modewright_core::{Length, Metre};
///
/// let mut builder = TuneBuilder::new();
/// builder.metre(Metre::new(&[6], 8)?);
/// builder.event(Sound::Note("A4".parse()?), Length::new(6, 8)?, Span::default()).unwrap();
/// let tune = builder.finish();
/// let beats = bar_beats(&tune.bars[0], bar_places(&tune)[0]);
/// assert_eq!(beats, [Length::ZERO, Length::new(3, 8)?]);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn bar_beats(bar: &Bar, place: BarPlace) -> Vec<Length> {
    let Ok(end) = place.offset.plus(bar.length) else { return Vec::new() };
    let all = clicks(bar.metre, end);
    all.into_iter().filter_map(|at| at.minus(place.offset)).collect()
}

/// The beats of the metre, whatever words are said, from nothing up to a length.
fn clicks(metre: Metre, length: Length) -> Vec<Length> {
    let Some(unit) = metre.unit() else { return Vec::new() };
    let groups = metre.beats();
    let mut clicks = Vec::new();
    let mut at = Length::ZERO;
    for group in groups.iter().cycle() {
        if at >= length {
            break;
        }
        clicks.push(at);
        let Ok(next) = unit.times(*group, 1).and_then(|beat| at.plus(beat)) else { break };
        at = next;
    }
    clicks
}

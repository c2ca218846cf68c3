//! Whether bars fill their metre, and where in the bar a short one begins.

use crate::tune::{Bar, BarStyle, Tune};
use crate::{Length, Metre};

/// How a bar's length fits its metre.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BarFit {
    /// No metre is stated.
    Free,
    /// As long as the metre says.
    Full,
    /// Short, at the beginning of a strain: its notes lead to the first strong beat.
    Pickup,
    /// Short, at the end of a strain: with the pickup it makes a whole.
    Completes,
    /// One side of a bar that a repeat sign, an ending or a change of metre cuts.
    Part,
    /// Short, and nothing explains it.
    Short {
        /// What is missing.
        by: Length,
    },
    /// Longer than the metre says.
    Long {
        /// What is too much.
        by: Length,
    },
}

/// Where the notes of a bar stand in a full bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BarPlace {
    /// How far after the beginning of a full bar its first note stands: nothing, except in a
    /// pickup and in the second side of a bar that is cut.
    pub offset: Length,
    /// How its length fits.
    pub fit: BarFit,
}

/// Where each bar of a tune stands, and how it fits, in the order of the page.
///
/// A pickup is shorter than its metre and stands at the beginning of a strain. The last bar of
/// the strain is shortened by as much (Schmidt-Jones, *Understanding Basic Music Theory*, on
/// pickup notes). A short bar with no such reason is [`BarFit::Short`].
///
/// # Examples
///
/// ```
/// use modewright_core::count::{BarFit, bar_places};
/// use modewright_core::tune::{BarLine, BarStyle, Sound, Span, TuneBuilder};
/// use modewright_core::{Length, Metre};
///
/// let mut builder = TuneBuilder::new();
/// builder.metre(Metre::new(&[3], 4)?);
/// for (count, style) in [(1, BarStyle::Single), (3, BarStyle::Single), (2, BarStyle::Final)] {
///     let length = Length::new(count, 4)?;
///     builder.event(Sound::Note("A4".parse()?), length, Span::default()).unwrap();
///     builder.bar_line(BarLine { style, ..BarLine::default() }, Span::default());
/// }
/// let places = bar_places(&builder.finish());
/// let fits: Vec<BarFit> = places.iter().map(|place| place.fit).collect();
/// assert_eq!(fits, [BarFit::Pickup, BarFit::Full, BarFit::Completes]);
/// // The pickup falls on the third beat.
/// assert_eq!(places[0].offset, Length::new(2, 4)?);
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn bar_places(tune: &Tune) -> Vec<BarPlace> {
    let mut places: Vec<BarPlace> = Vec::with_capacity(tune.bars.len());
    // The first bar of the strain, and where its first ending begins inside a bar.
    let mut strain = 0;
    let mut stem = Length::ZERO;
    let mut metre = Metre::FREE;
    let mut bar_length = metre.bar_length();
    for (i, bar) in tune.bars.iter().enumerate() {
        let before = i.checked_sub(1).and_then(|i| tune.bars.get(i));
        let after = tune.bars.get(i + 1);
        let begins = before.is_none_or(|b| ends_strain(b, bar));
        if begins && bar.ending.is_none() {
            strain = i;
            stem = Length::ZERO;
        }
        if bar.metre != metre {
            metre = bar.metre;
            bar_length = metre.bar_length();
        }
        let Some(full) = bar_length else {
            places.push(BarPlace { offset: Length::ZERO, fit: BarFit::Free });
            continue;
        };
        if bar.length == full && bar.ending.is_none() {
            places.push(BarPlace { offset: Length::ZERO, fit: BarFit::Full });
            continue;
        }
        // Where the bar before stopped, if no bar line of its own closed it.
        let stopped = before.zip(places.last()).and_then(|(b, place)| {
            let end = place.offset.plus(b.length).ok()?;
            (is_weak(b) && end < full && b.length < full).then_some(end)
        });
        if bar.ending.is_some()
            && before.is_some_and(|b| b.close.style == BarStyle::None)
            && let Some(end) = stopped
        {
            stem = end;
        }
        let starts = [tune.bars.get(strain), tune.bars.first(), after];
        let fit = if bar.length == full {
            BarFit::Full
        } else if let Some(by) = bar.length.minus(full) {
            BarFit::Long { by }
        } else if begins && bar.ending.is_none() && after.is_some() {
            BarFit::Pickup
        } else if begins
            || bar.ending.is_some()
            || before.is_some_and(|b| continues(b, bar, full))
            || after.is_some_and(|b| continues(bar, b, full))
            || after.is_some_and(|b| b.metre != bar.metre)
            || after.is_some_and(|b| b.ending.is_some() && bar.close.style == BarStyle::None)
        {
            BarFit::Part
        } else if after.is_none_or(|b| b.ending.is_some() || ends_strain(bar, b))
            && starts.into_iter().flatten().any(|start| completes(bar, start, full))
        {
            BarFit::Completes
        } else {
            BarFit::Short { by: full.minus(bar.length).unwrap_or(Length::ZERO) }
        };
        let fits_after = |end: Length| end.plus(bar.length).is_ok_and(|sum| sum <= full);
        let offset = match (fit, stopped) {
            (BarFit::Pickup, _) => full.minus(bar.length).unwrap_or(Length::ZERO),
            (BarFit::Part, Some(end)) if fits_after(end) => end,
            (BarFit::Part, None) if bar.ending.is_some() && fits_after(stem) => stem,
            _ => Length::ZERO,
        };
        places.push(BarPlace { offset, fit });
    }
    places
}

/// Whether a strain ends between two bars.
fn ends_strain(bar: &Bar, next: &Bar) -> bool {
    bar.close.ends_strain() || next.open.ends_strain()
}

/// Whether the line after a bar is no bar line of its own.
const fn is_weak(bar: &Bar) -> bool {
    matches!(bar.close.style, BarStyle::None | BarStyle::Dotted | BarStyle::Hidden)
}

/// Whether two bars are one, cut by a line that is no bar line of its own.
fn continues(bar: &Bar, next: &Bar, full: Length) -> bool {
    is_weak(bar) && bar.length.plus(next.length) == Ok(full)
}

/// Whether a short last bar and a pickup make a whole.
fn completes(last: &Bar, pickup: &Bar, full: Length) -> bool {
    last.length.plus(pickup.length) == Ok(full)
}

//! Bars, bar lines and strains.

use crate::{Length, Metre, order};

use super::{MarkKind, Span, Strain, Tune};

/// How a bar line is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum BarStyle {
    /// No line at all: the edge of the tune.
    #[default]
    None,
    /// A thin line.
    Single,
    /// Two thin lines.
    Double,
    /// Thin and thick: an end.
    Final,
    /// Thick and thin: a beginning.
    Initial,
    /// A dotted line.
    Dotted,
    /// A line that is not drawn.
    Hidden,
}

/// A bar line with its repeat dots.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct BarLine {
    /// How it is drawn.
    pub style: BarStyle,
    /// Dots before the line: the section that ends here is played so many times more.
    pub repeat_back: u8,
    /// Dots after the line: the section that begins here is played so many times more.
    pub repeat_on: u8,
}

impl BarLine {
    /// Whether a strain ends here.
    #[must_use]
    pub const fn ends_strain(self) -> bool {
        self.repeat_back > 0
            || self.repeat_on > 0
            || matches!(self.style, BarStyle::Double | BarStyle::Final | BarStyle::Initial)
    }
}

/// The passes that an ending is played in: bit 0 is the first time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Passes(pub u64);

impl Passes {
    /// The highest pass that can be named.
    pub const MAX: u32 = 64;

    /// The set with one more pass, counted from 1; passes over [`Passes::MAX`] are left out.
    #[must_use]
    pub const fn with(self, pass: u32) -> Self {
        if pass == 0 || pass > Self::MAX { self } else { Self(self.0 | 1 << (pass - 1)) }
    }

    /// Whether it is played in a pass, counted from 1.
    #[must_use]
    pub const fn contains(self, pass: u32) -> bool {
        pass > 0 && pass <= Self::MAX && self.0 >> (pass - 1) & 1 == 1
    }

    /// The highest pass; 0 where there is none.
    #[must_use]
    pub const fn last(self) -> u32 {
        64 - self.0.leading_zeros()
    }
}

/// A bar of the page, or one side of a bar that a repeat sign splits.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Bar {
    /// Its number: 1 is the first complete bar, 0 the pickup. The two sides of a split bar
    /// share one number; endings have numbers of their own.
    pub number: u32,
    /// First event.
    pub first: usize,
    /// One past the last event.
    pub end: usize,
    /// The line at its beginning.
    pub open: BarLine,
    /// The line at its end.
    pub close: BarLine,
    /// Passes of the ending that begins here.
    pub ending: Option<Passes>,
    /// The metre in force.
    pub metre: Metre,
    /// The key in force at its beginning, as an index into the tune's keys.
    pub key: usize,
    /// The sum of its events.
    pub length: Length,
    /// Where it stands in the source.
    pub span: Span,
}

impl Default for Length {
    fn default() -> Self {
        Self::ZERO
    }
}

/// The strains of a tune, with their names.
pub(super) fn strains(tune: &Tune) -> Vec<Strain> {
    let part_starts = part_starts(tune);
    let ranges = strain_bars(tune, &part_starts).into_iter().enumerate();
    let strain = |(i, (first, end)): (usize, (usize, usize))| {
        let from = tune.bars[first].first;
        let at = part_starts.partition_point(|&(event, _)| event < from);
        let named = part_starts.get(at).filter(|&&(event, _)| event == from);
        let label = named.map_or_else(|| letter(i), |&(_, name)| name.to_owned());
        Strain { label, first, end }
    };
    ranges.map(strain).collect()
}

/// The names of parts and the events where they begin, in order.
pub(super) fn part_starts(tune: &Tune) -> Vec<(usize, &str)> {
    let mut part_starts: Vec<(usize, &str)> = tune
        .marks
        .iter()
        .filter_map(|mark| match &mark.kind {
            MarkKind::Part(name) => Some((mark.event, name.as_str())),
            _ => None,
        })
        .collect();
    order::by_number(&mut part_starts, |&(event, _)| u32::try_from(event).unwrap_or(u32::MAX));
    part_starts
}

/// Splits a tune at repeat signs, double bars and part names, into ranges of bars.
///
/// Only bars with events count; a lone pickup before a repeat sign goes with what follows it.
pub(super) fn strain_bars(tune: &Tune, part_starts: &[(usize, &str)]) -> Vec<(usize, usize)> {
    let mut strains: Vec<(usize, usize)> = Vec::new();
    let mut first = 0;
    let mut in_endings = false;
    for (i, bar) in tune.bars.iter().enumerate() {
        in_endings |= bar.ending.is_some();
        let next = tune.bars.get(i + 1);
        // A first ending closes with a repeat sign, but its strain goes on with the second.
        let ending_follows = next.is_some_and(|n| n.ending.is_some()) && in_endings;
        let part_begins =
            next.is_some_and(|n| part_starts.binary_search_by_key(&n.first, |&(e, _)| e).is_ok());
        let line_ends = bar.close.ends_strain() || next.is_some_and(|n| n.open.ends_strain());
        let cut = next.is_none() || part_begins || line_ends && !ending_follows;
        if !cut {
            continue;
        }
        let notes = tune.events.get(tune.bars[first].first..bar.end).unwrap_or(&[]);
        let whole = notes.iter().any(|e| e.sound.pitch().is_some())
            && tune.bars[first..=i].iter().any(|b| b.number > 0);
        if !whole && next.is_some() && !part_begins {
            // A lone pickup or nothing at all: it belongs to what follows.
            if notes.is_empty() || tune.bars[first..=i].iter().all(|b| b.number == 0) {
                continue;
            }
        }
        strains.push((first, i + 1));
        first = i + 1;
        in_endings = false;
    }
    strains.retain(|&(first, end)| {
        (first..end).any(|b| tune.events_of(b).iter().any(|e| e.sound.pitch().is_some()))
    });
    strains
}

/// A, B, ... Z, then AA, AB and so on.
fn letter(index: usize) -> String {
    let last = char::from(b'A' + u8::try_from(index % 26).unwrap_or(0));
    match index / 26 {
        0 => last.to_string(),
        more => format!("{}{last}", letter(more - 1)),
    }
}

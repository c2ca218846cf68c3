//! Where the systems break, and where everything stands in each.

use crate::barline;
use crate::beam::Group;
use crate::column::{Column, head_width};
use crate::fill::Filled;
use crate::header::Header;
use crate::plan::{Item, Plan};
use crate::size::LABEL_GAP;
use modewright_core::tune::{BarLine, MarkKind};
use modewright_core::{Metre, Tune};

/// What is fixed before systems are broken.
pub(crate) struct Layout<'a> {
    pub(crate) tune: &'a Tune,
    pub(crate) plan: &'a Plan,
    pub(crate) columns: &'a [Column],
    pub(crate) groups: &'a [Group],
    pub(crate) filled: &'a Filled,
    pub(crate) width: i32,
}

/// A system: its columns, with the anchor of each.
#[derive(Clone, Debug)]
pub(crate) struct Placed {
    pub(crate) first: usize,
    pub(crate) end: usize,
    /// The anchors of the columns, from the left edge of the sheet.
    pub(crate) x: Vec<i32>,
    /// The key and the metre that its beginning shows.
    pub(crate) key: usize,
    pub(crate) metre: Option<Metre>,
    /// Whether a repeat begins with it.
    pub(crate) repeat_on: u8,
    /// Where its stave ends.
    pub(crate) width: i32,
}

/// How a system begins, for every place where one may.
#[derive(Clone, Copy, Debug)]
struct Start {
    /// The first column that is not part of the beginning.
    first: usize,
    key: usize,
    metre: Option<Metre>,
    repeat_on: u8,
    /// The anchor of the first column.
    x: i32,
}

/// Breaks the tune into systems and places every column.
pub(crate) fn systems(layout: &Layout<'_>) -> Vec<Placed> {
    if layout.columns.is_empty() {
        return Vec::new();
    }
    let sums = Sums::new(layout.columns);
    let atoms = atoms(layout, &sums);
    let starts = starts(layout, &atoms);
    let line_ends = line_ends(layout, &atoms);
    // The cheapest way to end a system with each atom.
    let mut best: Vec<(i64, usize)> = vec![(0, 0); atoms.len() + 1];
    for end in 1..=atoms.len() {
        best[end] = (i64::MAX, end - 1);
        for from in (0..end).rev() {
            let least = layout.least_width(&sums, &starts[from], atoms[end - 1].1);
            if least > i64::from(layout.width) && from + 1 < end {
                break;
            }
            let is_last = end == atoms.len();
            let cost = layout.cost(&sums, &starts[from], atoms[end - 1].1, is_last);
            let broken = if is_last || line_ends[end - 1] { 0 } else { OFF_LINE };
            let total = best[from].0.saturating_add(cost + broken);
            if total < best[end].0 {
                best[end] = (total, from);
            }
        }
    }
    let mut ends = vec![atoms.len()];
    while let Some(&end) = ends.last().filter(|&&end| best[end].1 > 0) {
        ends.push(best[end].1);
    }
    let mut from = 0;
    let mut systems = Vec::with_capacity(ends.len());
    for &end in ends.iter().rev() {
        systems.push(layout.place(&starts[from], atoms[end - 1].1, end == atoms.len()));
        from = end;
    }
    systems
}

/// What a break elsewhere than at the source's own line end costs: as much as stretching by two
/// fifths.
const OFF_LINE: i64 = 160_000;
/// Every system costs a little, so that few are made.
const SYSTEM: i64 = 2_000;

/// Sums of distances before each column.
struct Sums {
    least: Vec<i64>,
    natural: Vec<i64>,
}

impl Sums {
    fn new(columns: &[Column]) -> Self {
        let sums = |gap: fn(&Column) -> i32| {
            let mut sum = 0_i64;
            let mut sums = Vec::with_capacity(columns.len() + 1);
            sums.push(0);
            for column in columns {
                sum += i64::from(gap(column));
                sums.push(sum);
            }
            sums
        };
        Self { least: sums(|c| c.least), natural: sums(|c| c.natural) }
    }
}

/// The stretches of columns that are not broken: bars, and pieces of bars that are wider than a
/// system.
fn atoms(layout: &Layout<'_>, sums: &Sums) -> Vec<(usize, usize)> {
    let mut atoms = Vec::new();
    let mut from = 0;
    // A piece must fit after any beginning: this is the widest usual one.
    let room = i64::from(layout.width) - 22_000.min(i64::from(layout.width) / 2);
    let mut group = layout.groups.iter().peekable();
    for (at, column) in layout.columns.iter().enumerate() {
        if !matches!(column.item, Item::BarEnd(_)) {
            continue;
        }
        if sums.least[at + 1] - sums.least[from] > room {
            let mut legal = None;
            for next in from + 1..=at {
                if sums.least[next + 1] - sums.least[from] > room {
                    let cut = legal.take().filter(|&cut| cut > from).unwrap_or(next);
                    if cut > from && cut < at {
                        atoms.push((from, cut));
                        from = cut;
                    }
                }
                if let Item::Note(n) = layout.columns[next].item {
                    while group.peek().is_some_and(|g| g.last < n) {
                        group.next();
                    }
                    let beamed = group.peek().is_some_and(|g| g.first < n && n <= g.last);
                    let notes = &layout.plan.notes;
                    let bound = notes[n].tuplet.is_some()
                        && n.checked_sub(1).is_some_and(|m| notes[m].tuplet == notes[n].tuplet);
                    if !beamed && !bound {
                        legal = Some(next);
                    }
                }
            }
        }
        atoms.push((from, at + 1));
        from = at + 1;
    }
    if from < layout.columns.len() {
        atoms.push((from, layout.columns.len()));
    }
    atoms
}

/// Whether the source ends a line with each atom.
fn line_ends(layout: &Layout<'_>, atoms: &[(usize, usize)]) -> Vec<bool> {
    let marks = layout.tune.marks.iter();
    let ends: std::collections::HashSet<usize> =
        marks.filter(|m| m.kind == MarkKind::LineEnd).map(|m| m.event).collect();
    let ends_with = |&(_, end): &(usize, usize)| match layout.columns[end - 1].item {
        Item::BarEnd(bar) => ends.contains(&layout.tune.bars[bar].end),
        _ => false,
    };
    atoms.iter().map(ends_with).collect()
}

fn starts(layout: &Layout<'_>, atoms: &[(usize, usize)]) -> Vec<Start> {
    let mut key = 0;
    let mut starts = Vec::with_capacity(atoms.len());
    for &(from, end) in atoms {
        let mut metre = (from == 0).then_some(layout.tune.metre);
        let mut first = from;
        while let Some(column) = layout.columns.get(first).filter(|_| first < end) {
            match column.item {
                Item::Key(k) => key = k,
                Item::Metre(m) => metre = Some(m),
                _ => break,
            }
            first += 1;
        }
        let repeat_on = match from.checked_sub(1).map(|before| layout.columns[before].item) {
            Some(Item::BarEnd(bar)) => barline::between(layout.tune, bar).repeat_on,
            Some(_) => 0,
            None => layout.tune.bars.first().map_or(0, |bar| bar.open.repeat_on),
        };
        let mut start = Start { first, key, metre, repeat_on, x: 0 };
        start.x = layout.first_anchor(&start, end);
        starts.push(start);
        for column in &layout.columns[first..end] {
            if let Item::Key(k) = column.item {
                key = k;
            }
        }
    }
    starts
}

impl Layout<'_> {
    /// Where the first column stands: after the beginning, and so that no text of a row touches
    /// the row's name.
    fn first_anchor(&self, start: &Start, end: usize) -> i32 {
        let key = self.tune.keys.get(start.key);
        let mut x = Header::width_of(self.tune.clef, key, start.metre);
        if start.repeat_on > 0 {
            x += repeat_width() + 700;
        }
        let Some(column) = self.columns.get(start.first) else { return x };
        x += column.left;
        let mut lacks = 0;
        for (row, label) in self.filled.labels.iter().enumerate() {
            let mut along = 0;
            for column in &self.columns[start.first..end] {
                if along > label.width {
                    break;
                }
                if let Item::Note(n) = column.item
                    && let Some((reach, _)) = self.filled.reach(row, &self.plan.notes[n])
                {
                    let left = x + along + head_width(&self.plan.notes[n]) / 2 - reach - 1;
                    lacks = lacks.max(label.width + LABEL_GAP - left);
                    break;
                }
                along += column.least;
            }
        }
        // Nor may a text over the first note begin before the stave does.
        if let Item::Note(n) = column.item
            && let Some((reach, _)) =
                self.filled.reach(self.filled.labels.len(), &self.plan.notes[n])
        {
            lacks = lacks.max(reach - x);
        }
        x + lacks.max(0)
    }

    /// How far the last column of a system reaches beyond its anchor.
    fn last_width(&self, end: usize) -> i32 {
        let column = &self.columns[end - 1];
        match column.item {
            Item::BarEnd(bar) => barline::strokes(self.closing(bar)).1,
            _ => self.overhang(end).max(column.right + 300),
        }
    }

    /// How far the texts under the last notes before a column reach beyond the last anchor.
    fn overhang(&self, end: usize) -> i32 {
        let mut most = 0;
        let mut back = 0_i32;
        for at in (0..end).rev() {
            if at + 1 < end {
                back = back.saturating_add(self.columns[at].least);
            }
            if back > crate::row::WIDEST {
                break;
            }
            let Item::Note(n) = self.columns[at].item else { continue };
            let note = &self.plan.notes[n];
            for row in 0..self.filled.rows() {
                let reach = self.filled.reach(row, note).map_or(0, |(_, right)| right + 1);
                most = most.max(head_width(note) / 2 + reach - back);
            }
        }
        most
    }

    /// The line that ends a system with a bar.
    pub(crate) fn closing(&self, bar: usize) -> BarLine {
        barline::ending(barline::between(self.tune, bar))
    }

    fn least_width(&self, sums: &Sums, start: &Start, end: usize) -> i64 {
        if start.first >= end {
            return 0;
        }
        let gaps = sums.least[end - 1] - sums.least[start.first];
        i64::from(start.x) + gaps + i64::from(self.last_width(end))
    }

    /// How badly a system is stretched or squeezed.
    fn cost(&self, sums: &Sums, start: &Start, end: usize, is_last: bool) -> i64 {
        if start.first >= end {
            return SYSTEM;
        }
        let gaps = (sums.natural[end - 1] - sums.natural[start.first]).max(1);
        let room = i64::from(self.width - start.x - self.last_width(end));
        let off = (room - gaps).saturating_mul(1000) / gaps;
        let squeeze = if off < 0 { 4 } else { 1 };
        let cost = off.clamp(-100_000, 100_000).pow(2) * squeeze;
        SYSTEM + if is_last && off > 0 { 0 } else { cost }
    }

    /// Places the columns of a system: every gap as wide as looks well, all stretched or squeezed
    /// alike until the system is full; none narrower than it must be.
    fn place(&self, start: &Start, end: usize, is_last: bool) -> Placed {
        let columns = self.columns.get(start.first..end).unwrap_or(&[]);
        let mut placed = Placed {
            first: start.first.min(end),
            end,
            x: Vec::with_capacity(columns.len()),
            key: start.key,
            metre: start.metre,
            repeat_on: start.repeat_on,
            width: self.width,
        };
        let Some((last, inner)) = columns.split_last() else { return placed };
        let last_width = self.last_width(end);
        let room = i64::from(self.width - start.x - last_width);
        let gap = |column: &Column, factor: i64| {
            let natural = i64::from(column.natural) * factor / 1000;
            natural.max(i64::from(column.least))
        };
        let total = |factor: i64| inner.iter().map(|c| gap(c, factor)).sum::<i64>();
        let natural = total(1000);
        // A last system that is not nearly full keeps its natural width.
        let ragged = is_last && natural * 100 < room * 75;
        let factor = if ragged { 1000 } else { fitting(total, room) };
        let mut x = i64::from(start.x);
        for column in inner {
            placed.x.push(i32::try_from(x).unwrap_or(i32::MAX / 2));
            x += gap(column, factor);
        }
        let is_line = matches!(last.item, Item::BarEnd(_));
        if !ragged && is_line {
            x = x.max(i64::from(self.width - last_width));
        }
        let x = i32::try_from(x).unwrap_or(i32::MAX / 2);
        placed.x.push(x);
        placed.width =
            if ragged || x + last_width > self.width { x + last_width } else { self.width };
        placed
    }
}

/// The largest factor by which the gaps still fit.
fn fitting(total: impl Fn(i64) -> i64, room: i64) -> i64 {
    let (mut low, mut high) = (0, 20_000);
    while high - low > 1 {
        let middle = (low + high) / 2;
        if total(middle) <= room { low = middle } else { high = middle }
    }
    low
}

/// The width of the sign that begins a repeat.
pub(crate) fn repeat_width() -> i32 {
    barline::strokes(BarLine { repeat_on: 1, ..BarLine::default() }).1
}

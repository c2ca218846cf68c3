//! How high and how low the ink of a system reaches at each place along it.

/// The edge of what is drawn, over or under the stave, in columns of a quarter space. `up` keeps
/// the smallest y, otherwise the largest is kept.
#[derive(Clone, Debug)]
pub(crate) struct Skyline {
    edges: Vec<i32>,
    up: bool,
}

const COLUMN: i32 = 250;
/// Room for what sticks out of the system's ends.
const BEFORE: i32 = 8;

impl Skyline {
    /// A level edge.
    pub(crate) fn new(width: i32, level: i32, up: bool) -> Self {
        let columns = width.max(0) / COLUMN + 1 + 2 * BEFORE;
        Self { edges: vec![level; usize::try_from(columns).unwrap_or(1)], up }
    }

    fn columns(&self, from: i32, to: i32) -> std::ops::Range<usize> {
        let last = self.edges.len() - 1;
        let column = |x: i32| {
            let column = x.div_euclid(COLUMN).saturating_add(BEFORE);
            usize::try_from(column).unwrap_or(0).min(last)
        };
        column(from.min(to))..column(to.max(from)) + 1
    }

    /// The outermost edge from one place to another.
    pub(crate) fn edge(&self, from: i32, to: i32) -> i32 {
        let edges = self.edges[self.columns(from, to)].iter().copied();
        if self.up { edges.min() } else { edges.max() }.unwrap_or(0)
    }

    /// Adds something that reaches to `y` from one place to another.
    pub(crate) fn add(&mut self, from: i32, to: i32, y: i32) {
        let columns = self.columns(from, to);
        for edge in &mut self.edges[columns] {
            *edge = if self.up { (*edge).min(y) } else { (*edge).max(y) };
        }
    }

    /// The outermost edge of all.
    pub(crate) fn extreme(&self) -> i32 {
        let edges = self.edges.iter().copied();
        if self.up { edges.min() } else { edges.max() }.unwrap_or(0)
    }

    /// The edge in each column from one place to another, with the middle of the column.
    pub(crate) fn along(&self, from: i32, to: i32) -> impl Iterator<Item = (i32, i32)> + '_ {
        let columns = self.columns(from, to);
        columns.map(|at| ((crate::size::int(at) - BEFORE) * COLUMN + COLUMN / 2, self.edges[at]))
    }
}

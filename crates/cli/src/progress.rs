//! A progress bar on the terminal, once the work takes longer than a second.

use std::{
    cell::Cell,
    io::{IsTerminal, Write},
    time::{Duration, Instant},
};

/// How far the work is.
#[derive(Debug)]
pub(crate) struct Progress {
    total: u64,
    bytes: Cell<u64>,
    tunes: Cell<u64>,
    start: Instant,
    drawn: Cell<Option<Instant>>,
    shown: bool,
}

const WIDTH: u64 = 24;

impl Progress {
    /// Over so many bytes; 0 where that is not known. `wanted` is false where output goes to the
    /// same terminal and shows the progress itself.
    pub(crate) fn new(total: u64, wanted: bool) -> Self {
        let shown = wanted && std::io::stderr().is_terminal();
        let start = Instant::now();
        Self {
            total,
            bytes: Cell::new(0),
            tunes: Cell::new(0),
            start,
            drawn: Cell::new(None),
            shown,
        }
    }

    /// So many bytes more were read.
    pub(crate) fn add_bytes(&self, count: usize) {
        self.bytes.set(self.bytes.get() + count as u64);
    }

    /// So many tunes more were answered.
    pub(crate) fn add_tunes(&self, count: usize) {
        self.tunes.set(self.tunes.get() + count as u64);
        let now = Instant::now();
        let due = match self.drawn.get() {
            Some(last) => now - last > Duration::from_millis(200),
            None => now - self.start > Duration::from_secs(1),
        };
        if self.shown && due {
            self.drawn.set(Some(now));
            self.draw();
        }
    }

    fn draw(&self) {
        let tunes = self.tunes.get();
        let mut err = std::io::stderr().lock();
        // A progress bar that cannot be drawn is no failure.
        let _ = match (self.bytes.get() * WIDTH).checked_div(self.total) {
            Some(done) => {
                let done = done.min(WIDTH);
                let bar: String = (0..WIDTH).map(|i| if i < done { '#' } else { '.' }).collect();
                write!(err, "\r[{bar}] {tunes} tunes ")
            }
            None => write!(err, "\r{tunes} tunes "),
        };
        let _ = err.flush();
    }

    /// Wipes the bar away.
    pub(crate) fn clear(&self) {
        if self.drawn.take().is_some() {
            let blank = " ".repeat(60);
            let _ = write!(std::io::stderr(), "\r{blank}\r");
        }
    }
}

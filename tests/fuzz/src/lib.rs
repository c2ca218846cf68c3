//! Random and damaged input for everything that reads, and what must hold of every answer.
//!
//! A [`Target`] is one reader: where its inputs begin (real tunes and files of ours), how they are
//! damaged (by bytes, and by the words of the format), and what is checked of each. `cargo xtask
//! fuzz` runs them for as long as it is told; the tests of this package make a short run that is
//! the same each time. Input that once broke something is kept in `tests/fuzz/kept` by the name of
//! its target, and is tried in every test.
//!
//! A new reader is one file in `targets` and one line in [`TARGETS`].

mod chance;
mod clock;
mod laws;
mod mutate;
mod runner;
mod seeds;
mod shape;
mod targets;
mod whole;

pub use chance::Chance;
pub use mutate::{Grain, mutate};
pub use runner::{Break, Broken, Limits, Run, breaks, kept, run, try_one};
pub use shape::valid;
pub use targets::{TARGETS, named};

/// What a check saw of an input.
#[derive(Clone, Debug, Default)]
pub struct Seen {
    /// How much there was to do: bytes, notes and bars that the input stands for.
    pub work: usize,
    /// Words for what was met, like codes of problems; input that shows a new set of them is
    /// damaged further.
    pub signs: Vec<&'static str>,
    /// Laws that did not hold, in words.
    pub laws: Vec<String>,
}

impl Seen {
    /// Keeps what a law says, and goes on.
    fn law(&mut self, held: Result<(), String>) {
        self.laws.extend(held.err());
    }
}

/// One reader under attack.
#[derive(Clone, Copy, Debug)]
pub struct Target {
    /// Its name in commands and folders.
    pub name: &'static str,
    /// What the damage begins with, given the tunes of some books as ABC.
    pub seeds: fn(&[String]) -> Vec<Vec<u8>>,
    /// How its input falls into words.
    pub grain: Grain,
    /// Words that mean something to it.
    pub words: &'static [&'static str],
    /// Reads an input and checks everything that must hold of the answer. `thorough` asks for the
    /// slower checks as well. An error is a limit that is passed, or an answer of a wrong shape;
    /// laws that do not hold are in what was seen.
    pub check: fn(input: &[u8], thorough: bool) -> Result<Seen, String>,
}

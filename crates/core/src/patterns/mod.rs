//! What comes back in a tune, and what is hard in it.
//!
//! [`Patterns::of`] compares bars, strains and rhythms of the page, and looks for what a learner
//! stumbles over. It says what is there; words and choice are the lesson's.

mod figures;
mod form;
mod hard;
mod likeness;
mod moves;

pub use figures::{Figure, Value};
pub use form::{Form, StrainForm};
pub use hard::{Hard, Why};
pub use likeness::Likeness;
pub use moves::{Leap, Moves};

use crate::Tune;

/// The patterns of a tune, in the order of the page.
///
/// # Examples
///
/// ```
/// use modewright_core::patterns::{Likeness, Patterns};
/// use modewright_core::tune::{BarLine, BarStyle, Sound, Span, TuneBuilder};
/// use modewright_core::{Length, Metre};
///
/// let mut builder = TuneBuilder::new();
/// builder.metre(Metre::new(&[3], 4)?);
/// for bar in ["D4 E4 F4", "E4 F4 G4", "D4 E4 F4", "A4 A4 A4"] {
///     for name in bar.split(' ') {
///         builder.event(Sound::Note(name.parse()?), Length::CROTCHET, Span::default()).unwrap();
///     }
///     let style = BarStyle::Single;
///     builder.bar_line(BarLine { style, ..BarLine::default() }, Span::default());
/// }
/// let patterns = Patterns::of(&builder.finish(), &[]);
/// assert_eq!(
///     patterns.bars,
///     [
///         Likeness::New,
///         Likeness::Moved { bar: 0, steps: 1 },
///         Likeness::Same { bar: 0 },
///         // Another melody in a rhythm that was there.
///         Likeness::Rhythm { bar: 0 },
///     ]
/// );
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Patterns {
    /// How each bar is like an earlier one.
    pub bars: Vec<Likeness>,
    /// The strains and the order in which they are played.
    pub form: Form,
    /// The rhythms that the bars are made of, in the order in which they first occur.
    pub figures: Vec<Figure>,
    /// Bars with something to stumble over, in the order of the page.
    pub hard: Vec<Hard>,
    /// How the melody moves from note to note.
    pub moves: Moves,
}

impl Patterns {
    /// The patterns of a tune. `awkward` names the notes that are awkward to finger on the
    /// learner's instrument, as indices into the tune's events in ascending order.
    #[must_use]
    pub fn of(tune: &Tune, awkward: &[usize]) -> Self {
        let strains = tune.strains();
        let bars = likeness::of(tune);
        Self {
            form: form::of(tune, &strains, &bars),
            figures: figures::of(tune),
            hard: hard::of(tune, &strains, awkward),
            moves: moves::of(tune, &strains),
            bars,
        }
    }
}

#[cfg(test)]
mod tests;

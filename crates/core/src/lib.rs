//! Mode and scale theory, and the analysis of melodies.
//!
//! This crate knows notes, modes, keys and tunes, and finds the home note, the mode and the
//! range of a melody. It reads no files, prints no words for people and asks no clock: the
//! formats crate makes a Tune, the lesson crate puts a finding into words.
//!
//! Units that recur: *semitones*, *steps* (lines and spaces of the stave), *fifths* (places on
//! the line of fifths, C at 0, sharps positive) and [`Length`]s, which are exact fractions of a
//! semibreve.
//!
//! # Examples
//!
//! ```
//! use modewright_core::{Key, Mode};
//!
//! let key: Key = "E dorian".parse()?;
//! let names: Vec<String> = key.scale()?.iter().map(|n| n.to_string()).collect();
//! assert_eq!(names.join(" "), "E F# G A B C# D");
//! assert_eq!(key.relatives()?[0], "D ionian".parse()?);
//! # Ok::<(), modewright_core::TheoryError>(())
//! ```

mod alter;
mod church;
pub mod count;
mod degree;
mod error;
pub mod find;
pub mod fingering;
pub mod fit;
mod heard;
pub mod instrument;
mod interval;
mod key;
mod length;
pub mod mark;
mod metre;
mod mode;
pub mod order;
mod pattern;
pub mod patterns;
mod pitch;
mod pitch_class;
mod pitch_set;
mod range;
mod scale;
mod signature;
mod spelling;
mod step;
pub mod transpose;
pub mod tune;

pub use alter::Alter;
pub use church::{ChurchKind, ChurchMode};
pub use degree::Degree;
pub use error::TheoryError;
pub use interval::{Interval, Quality};
pub use key::{Key, Parallel};
pub use length::Length;
pub use metre::{Metre, MetreKind, MetreSign};
pub use mode::Mode;
pub use pattern::{Hexatonic, Pattern, Pentatonic};
pub use pitch::Pitch;
pub use pitch_class::PitchClass;
pub use pitch_set::PitchSet;
pub use range::{Position, Range};
pub use scale::Scale;
pub use signature::Signature;
pub use spelling::Spelling;
pub use step::Step;
pub use tune::Tune;

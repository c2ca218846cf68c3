//! What a person asks for: from the words of options to what the engine takes. Command and
//! package read their options here, so that the same words mean the same in both.

mod choice;
mod fingered;
mod instruments;
mod tune;

pub use choice::{Choice, choose};
pub use fingered::{FingeringAsk, fingered};
pub use instruments::{instrument, instruments};
pub use tune::{TextAsk, aim, given, key, scale, style};

use crate::words::Advice;

/// An option that says what cannot be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// The name of the option, without the signs that a command puts before it.
    pub option: &'static str,
    /// A stable kebab-case code for programs.
    pub code: &'static str,
    /// What is wrong, and a way out.
    pub advice: Advice,
}

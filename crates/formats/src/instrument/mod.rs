//! Instruments: the built-in ones, and a user's own from JSON.

pub mod builtin;
mod file;
mod files;
mod packed;

pub use file::{InstrumentError, InstrumentErrorKind, MAX_BYTES, MAX_SIZES, read};

#[cfg(test)]
mod tests;

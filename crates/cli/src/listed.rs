//! Words of a list: with commas between them, and blanks where somebody typed some.

use clap::builder::{EnumValueParser, PossibleValue, TypedValueParser};
use clap::{Arg, Command, ValueEnum};
use std::ffi::OsStr;

/// Reads one word of a list, without the blanks about it.
#[derive(Clone)]
pub(crate) struct Listed<T: ValueEnum + Clone + Send + Sync + 'static>(EnumValueParser<T>);

impl<T: ValueEnum + Clone + Send + Sync + 'static> Listed<T> {
    pub(crate) fn new() -> Self {
        Self(EnumValueParser::new())
    }
}

impl<T: ValueEnum + Clone + Send + Sync + 'static> TypedValueParser for Listed<T> {
    type Value = T;

    fn parse_ref(
        &self,
        command: &Command,
        arg: Option<&Arg>,
        value: &OsStr,
    ) -> Result<T, clap::Error> {
        let word = value.to_str().map(str::trim).map_or(value, OsStr::new);
        self.0.parse_ref(command, arg, word)
    }

    fn possible_values(&self) -> Option<Box<dyn Iterator<Item = PossibleValue> + '_>> {
        self.0.possible_values()
    }
}

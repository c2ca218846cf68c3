//! Instruments by their names: the built-in ones and those of a user's file.

use crate::{failure::Failure, input};
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::{builtin, read};
use modewright_lesson::words::{self, Advice};
use std::path::Path;

/// The instruments of a user's file.
pub(crate) fn own(path: &Path) -> Result<Vec<Instrument>, Failure> {
    let text = input::text(path)?;
    read(&text).map_err(|error| Failure::Content {
        path: path.to_path_buf(),
        advice: Advice {
            message: error.to_string(),
            hint: "the shape of instrument files is told in tests/schema/instrument.json"
                .to_owned(),
        },
    })
}

/// The instrument that a name means: one of the user's own by its id or name, else a built-in one.
pub(crate) fn named(
    option: &'static str,
    name: &str,
    own: &[Instrument],
) -> Result<Instrument, Failure> {
    let name = name.trim();
    let is_it = |it: &&Instrument| it.id == name || it.name.eq_ignore_ascii_case(name);
    if let Some(mine) = own.iter().find(is_it) {
        return Ok(mine.clone());
    }
    builtin::find(name).cloned().map_err(|near| {
        let mine = own.iter().map(|it| it.id.as_str());
        let near: Vec<&str> = mine.chain(near).take(5).collect();
        Failure::Argument { name: option, advice: words::no_instrument(name, &near) }
    })
}

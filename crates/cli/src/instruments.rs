//! `modewright instruments`, and where instruments come from.

use crate::{args::InstrumentsArgs, failure::Failure, paint};
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::{self, builtin};
use modewright_lesson::{answer::InstrumentsAnswer, report, words, words::Advice};
use std::{
    io::{Read, Write},
    path::Path,
    process::ExitCode,
};

/// What lists all instruments.
const LISTS: &str = "modewright instruments";

pub(crate) fn run(args: &InstrumentsArgs) -> Result<ExitCode, Failure> {
    let named = args.name.as_deref().map(|name| all_of("", name)).transpose()?;
    let list: Vec<&Instrument> = match &named {
        Some(named) => named.iter().collect(),
        None => builtin::all().iter().collect(),
    };
    let mut out = anstream::AutoStream::auto(std::io::stdout()).lock();
    if args.json {
        let answer = InstrumentsAnswer::new(list);
        let line = serde_json::to_string(&answer).map_err(std::io::Error::from)?;
        writeln!(out, "{line}")?;
        return Ok(ExitCode::SUCCESS);
    }
    let page = match list.as_slice() {
        [one] => report::instrument(one),
        list => report::instruments(list),
    };
    out.write_all(paint::report(&page, paint::width()).unwrap_or_default().as_bytes())?;
    Ok(ExitCode::SUCCESS)
}

/// The one instrument that an option names: built in, a file, or one of a file (`FILE.json:ID`).
pub(crate) fn one(option: &'static str, name: &str) -> Result<Instrument, Failure> {
    let mut found = all_of(option, name)?;
    if found.len() > 1 {
        let ids: Vec<&str> = found.iter().map(|it| it.id.as_str()).collect();
        return Err(argument(option, words::several_instruments(name, &ids)));
    }
    found.pop().ok_or_else(|| argument(option, words::unknown_instrument(name, &[], LISTS)))
}

/// The instruments that a name stands for: one that is built in, or those of a file. `option` is
/// empty where the name is no option's.
pub(crate) fn all_of(option: &'static str, name: &str) -> Result<Vec<Instrument>, Failure> {
    if let Some((file, id)) = name.rsplit_once(':')
        && is_file(file)
    {
        let mut found = from_file(option, file)?;
        let ids: Vec<String> = found.iter().map(|it| it.id.clone()).collect();
        found.retain(|it| it.id == id);
        if found.is_empty() {
            let near: Vec<&str> = ids.iter().map(String::as_str).collect();
            return Err(argument(option, words::unknown_instrument(id, &near, LISTS)));
        }
        return Ok(found);
    }
    if is_file(name) {
        return from_file(option, name);
    }
    match builtin::find(name) {
        Ok(found) => Ok(vec![found.clone()]),
        Err(near) => Err(argument(option, words::unknown_instrument(name, &near, LISTS))),
    }
}

/// Whether a name is meant as a file.
fn is_file(name: &str) -> bool {
    let path = Path::new(name);
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("json"))
}

fn from_file(option: &'static str, name: &str) -> Result<Vec<Instrument>, Failure> {
    let fail = |error| Failure::Instruments { path: name.into(), error };
    let file = std::fs::File::open(name).map_err(fail)?;
    let mut bytes = Vec::new();
    // One byte more than is read, so that the reader sees that there is more.
    file.take(instrument::MAX_BYTES as u64 + 1).read_to_end(&mut bytes).map_err(fail)?;
    let text = String::from_utf8_lossy(&bytes);
    instrument::read(&text).map_err(|error| {
        let advice = words::instrument_error(&error);
        argument(option, Advice { message: format!("{name}: {}", advice.message), ..advice })
    })
}

fn argument(name: &'static str, advice: Advice) -> Failure {
    Failure::Argument { name, advice }
}

//! `modewright scale`.

use crate::{args::ScaleArgs, failure::Failure, paint};
use modewright_core::TheoryError;
use modewright_lesson::{answer::ScaleAnswer, report, words};
use std::{io::Write, process::ExitCode};

pub(crate) fn run(args: &ScaleArgs) -> Result<ExitCode, Failure> {
    let fail =
        |error: TheoryError| Failure::Argument { name: "", advice: words::theory_error(&error) };
    let key = modewright_formats::names::key(&args.key.join(" ")).map_err(fail)?;
    let mut out = anstream::AutoStream::auto(std::io::stdout()).lock();
    if args.json {
        let answer = ScaleAnswer::new(key).map_err(fail)?;
        let line = serde_json::to_string(&answer).map_err(std::io::Error::from)?;
        writeln!(out, "{line}")?;
    } else {
        let page = report::scale(key).map_err(fail)?;
        out.write_all(paint::report(&page, paint::width()).unwrap_or_default().as_bytes())?;
    }
    Ok(ExitCode::SUCCESS)
}

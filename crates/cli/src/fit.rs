//! `modewright fit`.

use crate::{args::FitArgs, failure::Failure, input, instrument, paint};
use modewright_core::find::find;
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::builtin;
use modewright_formats::source::split;
use modewright_formats::{ReadOptions, read};
use modewright_lesson::answer::FitAnswer;
use modewright_lesson::report;
use std::io::Write;
use std::process::ExitCode;

pub(crate) fn run(args: &FitArgs) -> Result<ExitCode, Failure> {
    let own = args.own.as_deref().map(instrument::own).transpose()?.unwrap_or_default();
    let named = |name: &String| instrument::named("--on", name, &own);
    let instruments: Vec<Instrument> = match args.on.as_slice() {
        [] => own.clone(),
        names => names.iter().map(named).collect::<Result<_, _>>()?,
    };
    let text = input::text(&args.file)?;
    let source = args.file.to_string_lossy();
    let mut out = anstream::AutoStream::auto(std::io::stdout()).lock();
    let mut all_well = true;
    let mut tunes: Vec<_> = split(&text).collect();
    if tunes.is_empty() {
        tunes.push(modewright_formats::source::TuneText::letters(""));
    }
    for tune in &tunes {
        let tune = read(tune, &ReadOptions::default()).tune;
        let finding = find(&tune);
        let others = builtin::all();
        let answers: Vec<FitAnswer> = instruments
            .iter()
            .map(|it| FitAnswer::new(&source, &tune, &finding, it, others))
            .collect();
        all_well &= answers.iter().any(|a| matches!(a.verdict, "as_written" | "moved"));
        if args.json {
            for answer in &answers {
                let line = serde_json::to_string(answer).map_err(std::io::Error::from)?;
                writeln!(out, "{line}")?;
            }
            continue;
        }
        let mut pages = Vec::new();
        if answers.len() > 1 {
            pages.push(report::where_it_stands(&tune, &answers));
        }
        pages.extend(answers.iter().map(|answer| report::fit(&tune, answer)));
        for page in pages {
            let page = paint::report(&page, paint::width()).unwrap_or_default();
            out.write_all(page.as_bytes())?;
        }
    }
    out.flush()?;
    Ok(if all_well { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

//! `modewright fit`.

use crate::{
    args::FitArgs,
    failure::Failure,
    input::{self, Source},
    instruments, paint,
    progress::Progress,
    tunes,
};
use modewright_core::find::find;
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::builtin;
use modewright_formats::{Severity, read};
use modewright_lesson::{answer::FitAnswer, report, words};
use std::io::Write;
use std::process::ExitCode;

pub(crate) fn run(args: &FitArgs) -> Result<ExitCode, Failure> {
    let asked = asked(args)?;
    let options = tunes::options(args.voice.as_ref(), &args.text)?;
    let (sources, bytes) = input::sources(&args.files)?;
    let is_demo = matches!(sources.as_slice(), [Source::Demo]);
    let progress = Progress::new(bytes, true);
    let mut all_is_well = true;
    let mut out = anstream::AutoStream::auto(std::io::stdout()).lock();
    let mut gap = "";
    for piece in input::pieces(&sources, &progress) {
        let text = match piece.text {
            Ok(text) => text,
            Err(error) => {
                all_is_well = false;
                input::tell(&piece.source, &words::source_error(&error));
                continue;
            }
        };
        let read = read(&text, &options);
        tunes::tell_choice(&piece.source, &read.problems);
        let finding = find(&read.tune);
        let of = |it| FitAnswer::new(&piece.source, &read.tune, &finding, it, builtin::all());
        let answers: Vec<FitAnswer> = asked.iter().map(of).collect();
        all_is_well &= answers.iter().any(FitAnswer::is_playable);
        all_is_well &= read.problems.iter().all(|p| p.kind.severity() != Severity::Error);
        if args.json {
            for answer in &answers {
                let line = serde_json::to_string(answer).map_err(std::io::Error::from)?;
                writeln!(out, "{line}")?;
            }
            continue;
        }
        let several = answers.len() > 1;
        let all = several.then(|| report::where_it_stands(&read.tune, &answers));
        for page in all.into_iter().chain(answers.iter().map(|a| report::fit(&read.tune, a))) {
            let page = paint::report(&page, paint::width()).unwrap_or_default();
            write!(out, "{gap}{page}")?;
            gap = "\n";
        }
    }
    if is_demo && !args.json {
        out.write_all(input::DEMO.as_bytes())?;
    }
    out.flush()?;
    Ok(if all_is_well { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

/// The instruments that are asked: those of `--on`, which may be the user's own, or else all of
/// the user's own.
fn asked(args: &FitArgs) -> Result<Vec<Instrument>, Failure> {
    let own = match &args.own {
        Some(path) => instruments::all_of("--own", &path.to_string_lossy())?,
        None => Vec::new(),
    };
    if args.on.is_empty() {
        return Ok(own);
    }
    let named = |name: &String| match own.iter().find(|it| it.id == name.trim()) {
        Some(mine) => Ok(mine.clone()),
        None => instruments::one("--on", name.trim()),
    };
    args.on.iter().map(named).collect()
}

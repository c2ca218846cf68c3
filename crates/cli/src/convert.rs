//! `modewright convert`.

use crate::{
    args::ConvertArgs,
    failure::{Failure, NotWritten},
    input, output,
    progress::Progress,
    rows, tunes,
};
use modewright_core::Tune;
use modewright_formats::notation::Row;
use modewright_formats::{Problem, ReadOptions, Severity};
use modewright_lesson::convert::{Format, bytes, read_for};
use modewright_lesson::words;
use std::process::ExitCode;

pub(crate) fn run(args: &ConvertArgs) -> Result<ExitCode, Failure> {
    let fail = |why| Failure::NotWritten { path: args.output.clone(), why };
    let ending = args.output.extension().and_then(|ending| ending.to_str());
    let format = ending.and_then(Format::of_ending).ok_or_else(|| fail(NotWritten::NoFormat))?;
    if format == Format::Midi && !args.rows.is_empty() {
        return Err(fail(NotWritten::NoRows));
    }
    let instrument = rows::instrument(args)?;
    let options = tunes::options(args.voice.as_ref(), &args.text)?;
    let (mut tunes, mut unread) = read_all(args, &options)?;
    if let Some(place) = args.tune {
        let count = tunes.len();
        let name = args.input.display().to_string();
        let chosen = place.checked_sub(1).filter(|&i| i < count);
        let chosen = chosen.ok_or(Failure::NoSuchTune { name, place, count })?;
        tunes = vec![tunes.swap_remove(chosen)];
    }
    if tunes.is_empty() && unread {
        return Ok(ExitCode::from(1));
    }
    if format != Format::Abc && tunes.len() != 1 {
        return Err(fail(NotWritten::ManyTunes(tunes.len())));
    }
    for (_, problems) in &tunes {
        unread |= problems.iter().any(|p| p.kind.severity() == Severity::Error);
        tell(args, problems);
    }
    let tunes: Vec<(Tune, Vec<Row>)> = tunes
        .into_iter()
        .map(|(tune, _)| {
            let rows = rows::of(args, &tune, instrument.as_ref());
            (tune, rows)
        })
        .collect();
    output::write(Some(&args.output), &bytes(&tunes, format))?;
    let count = if tunes.len() == 1 { String::new() } else { format!(" ({} tunes)", tunes.len()) };
    output::tell_written(Some(&args.output), &count);
    Ok(if unread { ExitCode::from(1) } else { ExitCode::SUCCESS })
}

/// A tune and what was odd about it.
type Read = (Tune, Vec<Problem>);

/// All tunes of the input, and whether it gave out before its end.
fn read_all(args: &ConvertArgs, options: &ReadOptions) -> Result<(Vec<Read>, bool), Failure> {
    let (sources, bytes) = input::sources(std::slice::from_ref(&args.input))?;
    let progress = Progress::new(bytes, false);
    let mut tunes = Vec::new();
    let mut unread = false;
    for piece in input::pieces(&sources, &progress) {
        match piece.text {
            Ok(text) => {
                let reading = read_for(&text, options);
                tunes.push((reading.tune, reading.problems));
            }
            Err(error) => {
                unread = true;
                input::tell(&piece.source, &words::source_error(&error));
            }
        }
    }
    Ok((tunes, unread))
}

/// The most problems that are told of one tune.
const TOLD: usize = 10;

fn tell(args: &ConvertArgs, problems: &[Problem]) {
    for problem in problems.iter().take(TOLD) {
        let word = match problem.kind.severity() {
            Severity::Note => "note",
            Severity::Warning => "warning",
            Severity::Error => "error",
        };
        let advice = words::problem(&problem.kind);
        let (line, column) = (problem.line, problem.column);
        let file = args.input.display();
        anstream::eprintln!("{word}: {file}:{line}:{column}: {}", advice.message);
        if !advice.hint.is_empty() {
            anstream::eprintln!("hint: {}", advice.hint);
        }
    }
    if problems.len() > TOLD {
        anstream::eprintln!("and {} more", problems.len() - TOLD);
    }
}

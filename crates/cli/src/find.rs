//! `modewright find`.

use crate::{
    args::FindArgs,
    failure::Failure,
    input::{self, Piece, Source},
    lines, paint,
    progress::Progress,
    tunes,
};
use modewright_core::Tune;
use modewright_core::find::{self as finder, Finding, Given};
use modewright_formats::{Problem, ReadOptions, Severity, read};
use modewright_lesson::{answer::FindAnswer, ask::given, report, words};
use rayon::prelude::*;
use std::{
    io::{IsTerminal, Write},
    process::ExitCode,
    sync::Arc,
};

/// How many tunes are held at a time.
const BATCH: usize = 256;

/// A tune with its answer.
struct Answered {
    source: Arc<str>,
    tune: Tune,
    finding: Finding,
    problems: Vec<Problem>,
}

impl Answered {
    fn shape(&self) -> FindAnswer {
        FindAnswer::new(&self.source, &self.tune, &self.finding, &self.problems)
    }
}

/// How answers are printed.
enum Format {
    Json,
    Csv,
    Table,
}

pub(crate) fn run(args: &FindArgs) -> Result<ExitCode, Failure> {
    let options = tunes::options(args.voice.as_ref(), &args.text)?;
    let given = given(args.home.as_deref(), args.mode.as_deref())?;
    let (sources, bytes) = input::sources(&args.files)?;
    let is_demo = matches!(sources.as_slice(), [Source::Demo]);
    let to_terminal = std::io::stdout().is_terminal();
    let progress = Progress::new(bytes, !to_terminal || args.json || args.csv);
    let mut pieces = input::pieces(&sources, &progress).peekable();
    let mut unread = false;

    let mut batch = next_batch(&mut pieces);
    let is_single = batch.len() == 1 && pieces.peek().is_none();
    let mut out = anstream::AutoStream::auto(std::io::stdout()).lock();
    if is_single && !args.json && !args.csv {
        let answers = answer(batch, &options, given, &mut unread);
        if let [one] = answers.as_slice() {
            let text = report::find(&one.tune, &one.finding, &one.problems);
            let mut page = paint::report(&text, paint::width()).unwrap_or_default();
            if is_demo {
                page.push_str(DEMO);
            }
            out.write_all(page.as_bytes())?;
        }
        return Ok(status(unread));
    }
    let format = if args.json {
        Format::Json
    } else if args.csv {
        Format::Csv
    } else {
        Format::Table
    };
    let head = match format {
        Format::Json => String::new(),
        Format::Csv => row(&lines::CSV_HEAD)?,
        Format::Table => lines::table_head(),
    };
    out.write_all(head.as_bytes())?;
    while !batch.is_empty() {
        let count = batch.len();
        let answers = answer(batch, &options, given, &mut unread);
        let printed: Vec<String> =
            answers.par_iter().map(|a| print(a, &format)).collect::<Result<_, Failure>>()?;
        progress.add_tunes(count);
        progress.clear();
        for line in printed {
            out.write_all(line.as_bytes())?;
        }
        batch = next_batch(&mut pieces);
    }
    out.flush()?;
    Ok(status(unread))
}

const DEMO: &str = "
  This tune is invented. Name a file to ask about yours, or - to paste one:
  modewright find tune.abc
";

fn status(unread: bool) -> ExitCode {
    if unread { ExitCode::from(1) } else { ExitCode::SUCCESS }
}

fn next_batch(pieces: &mut dyn Iterator<Item = Piece>) -> Vec<Piece> {
    pieces.take(BATCH).collect()
}

/// Answers a batch on all cores, in order; a source that gives no more is told at once.
fn answer(
    batch: Vec<Piece>,
    options: &ReadOptions,
    given: Given,
    unread: &mut bool,
) -> Vec<Answered> {
    let mut texts = Vec::with_capacity(batch.len());
    for piece in batch {
        match piece.text {
            Ok(text) => texts.push((piece.source, text)),
            Err(error) => {
                *unread = true;
                input::tell(&piece.source, &words::source_error(&error));
            }
        }
    }
    let answers: Vec<Answered> = texts
        .into_par_iter()
        .map(|(source, text)| {
            let reading = read(&text, options);
            let finding = finder::find_given(&reading.tune, given);
            Answered { source, tune: reading.tune, finding, problems: reading.problems }
        })
        .collect();
    *unread |=
        answers.iter().flat_map(|a| &a.problems).any(|p| p.kind.severity() == Severity::Error);
    answers
}

fn print(answered: &Answered, format: &Format) -> Result<String, Failure> {
    let shape = answered.shape();
    Ok(match format {
        Format::Json => {
            let mut line = serde_json::to_string(&shape).map_err(std::io::Error::from)?;
            line.push('\n');
            line
        }
        Format::Csv => row(&lines::csv(&shape))?,
        Format::Table => {
            lines::table(&shape, answered.finding.best().map(|b| words::key_name(b.key)))
        }
    })
}

fn row<T: AsRef<[u8]>>(fields: &[T]) -> Result<String, Failure> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(fields).map_err(std::io::Error::from)?;
    let bytes = writer.into_inner().map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

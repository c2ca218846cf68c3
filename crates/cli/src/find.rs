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
use modewright_formats::{Problem, ReadOptions, read};
use modewright_lesson::answer::{FindAnswer, FindLine};
use modewright_lesson::{ask::given, report, words, words::Advice};
use rayon::prelude::*;
use std::{
    io::{IsTerminal, Write},
    process::ExitCode,
    sync::Arc,
};

/// How many tunes are held at a time: more of them where each prints a line than where it prints a
/// whole answer, of some 8 KiB.
const LINES: usize = 4096;
const ANSWERS: usize = 1024;

/// A tune with its answer.
struct Answered {
    source: Arc<str>,
    tune: Tune,
    finding: Finding,
    problems: Vec<Problem>,
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

    let size = if args.json { ANSWERS } else { LINES };
    let mut batch = next_batch(&mut pieces, size);
    let is_single = batch.len() == 1 && pieces.peek().is_none();
    let mut out = anstream::AutoStream::auto(std::io::stdout()).lock();
    if is_single && !args.json && !args.csv {
        for piece in batch {
            let one = match answer(piece, &options, given) {
                Ok(one) => one,
                Err(refused) => {
                    refused.tell();
                    unread = true;
                    continue;
                }
            };
            unread |= tunes::is_unread(&one.problems);
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
    let mut told = Vec::new();
    while !batch.is_empty() || !told.is_empty() {
        let pieces_now = std::mem::take(&mut batch);
        let count = pieces_now.len();
        let mut printed = Ok(Vec::new());
        // While some tunes are answered, those before them are written and the next are split off.
        let written = rayon::in_place_scope(|scope| {
            scope.spawn(|_| printed = print_all(pieces_now, &options, given, &format));
            let written = write(told, &mut out);
            batch = next_batch(&mut pieces, size);
            written
        });
        unread |= written?;
        told = printed?;
        progress.add_tunes(count);
        progress.clear();
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

fn next_batch(pieces: &mut dyn Iterator<Item = Piece>, size: usize) -> Vec<Piece> {
    pieces.take(size).collect()
}

/// Why a source gives no more.
struct Refused {
    source: Arc<str>,
    why: Advice,
}

impl Refused {
    fn tell(&self) {
        input::tell(&self.source, &self.why);
    }
}

/// What is printed of a tune, and whether some of it could not be read.
type Printed = Result<(String, bool), Refused>;

/// So many tunes one core takes at a time: with more, one waits for the other at the end of a batch.
const SHARE: usize = 32;

/// Answers tunes on all cores, in order.
fn print_all(
    pieces: Vec<Piece>,
    options: &ReadOptions,
    given: Given,
    format: &Format,
) -> Result<Vec<Printed>, Failure> {
    let one = |piece| match answer(piece, options, given) {
        Ok(answered) => Ok(Ok((print(&answered, format)?, tunes::is_unread(&answered.problems)))),
        Err(refused) => Ok(Err(refused)),
    };
    pieces.into_par_iter().with_max_len(SHARE).map(one).collect()
}

/// Writes what is printed, in one piece between refusals: standard output goes on at the end of
/// each. `true` where something could not be read.
fn write(printed: Vec<Printed>, out: &mut dyn Write) -> std::io::Result<bool> {
    let mut unread = false;
    let mut page = String::new();
    for one in printed {
        match one {
            Ok((line, is_unread)) => {
                page.push_str(&line);
                unread |= is_unread;
            }
            Err(refused) => {
                out.write_all(page.as_bytes())?;
                page.clear();
                refused.tell();
                unread = true;
            }
        }
    }
    out.write_all(page.as_bytes())?;
    Ok(unread)
}

fn answer(piece: Piece, options: &ReadOptions, given: Given) -> Result<Answered, Refused> {
    let source = piece.source;
    let text = match piece.text {
        Ok(text) => text,
        Err(error) => return Err(Refused { source, why: words::source_error(&error) }),
    };
    let reading = read(&text, options);
    let finding = finder::find_given(&reading.tune, given);
    Ok(Answered { source, tune: reading.tune, finding, problems: reading.problems })
}

fn print(answered: &Answered, format: &Format) -> Result<String, Failure> {
    let Answered { source, tune, finding, problems } = answered;
    let brief = || FindLine::new(source, tune, finding);
    Ok(match format {
        Format::Json => {
            let answer = FindAnswer::new(source, tune, finding, problems);
            let mut line = serde_json::to_string(&answer).map_err(std::io::Error::from)?;
            line.push('\n');
            line
        }
        Format::Csv => row(&lines::csv(&brief(), problems))?,
        Format::Table => {
            let name = finding.best().map(|best| words::key_name(best.key));
            lines::table(&brief(), problems, name)
        }
    })
}

fn row<T: AsRef<[u8]>>(fields: &[T]) -> Result<String, Failure> {
    let mut writer = csv::WriterBuilder::new().buffer_capacity(512).from_writer(Vec::new());
    writer.write_record(fields).map_err(std::io::Error::from)?;
    let bytes = writer.into_inner().map_err(csv::IntoInnerError::into_error)?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

//! `modewright count`.

use crate::failure::Failure;
use crate::told_args::CountArgs;
use crate::{paint, tunes};
use modewright_core::count::Detail;
use modewright_lesson::{answer::CountAnswer, report};
use std::io::Write;
use std::process::ExitCode;

pub(crate) fn run(args: &CountArgs) -> Result<ExitCode, Failure> {
    let options = tunes::options(args.voice.as_ref(), &args.text)?;
    let count = args.words.options(if args.full { Detail::Full } else { Detail::Beats });
    let mut out = anstream::AutoStream::auto(std::io::stdout()).lock();
    let mut first = true;
    let unread = tunes::each(&args.files, &options, |read| {
        let (tune, problems) = (&read.reading.tune, &read.reading.problems);
        if args.json {
            let answer = CountAnswer::new(&read.source, tune, count, problems);
            let line = serde_json::to_string(&answer).map_err(std::io::Error::from)?;
            writeln!(out, "{line}")?;
        } else {
            let page = report::count(tune, count, args.values.into(), problems);
            let gap = if first { "" } else { "\n" };
            let text = paint::report(&page, paint::width()).unwrap_or_default();
            write!(out, "{gap}{text}")?;
        }
        first = false;
        Ok(())
    })?;
    out.flush()?;
    Ok(if unread { ExitCode::from(1) } else { ExitCode::SUCCESS })
}

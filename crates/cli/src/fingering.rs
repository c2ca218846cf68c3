//! `modewright fingering`.

use crate::{
    args::FingeringArgs,
    failure::Failure,
    input::{self, Source},
    instruments, output, paint,
    progress::Progress,
    tunes,
};
use modewright_core::find::find;
use modewright_core::fingering::Options;
use modewright_formats::{Severity, read};
use modewright_lesson::answer::{FingeredTune, FingeringAnswer};
use modewright_lesson::ask::{FingeringAsk, aim, fingered, style};
use modewright_lesson::{report, words};
use modewright_sheet::picture::{self, Drawing, picture};
use std::{io::Write, process::ExitCode};

pub(crate) fn run(args: &FingeringArgs) -> Result<ExitCode, Failure> {
    let instrument = instruments::one("--on", &args.on)?;
    let style = style(&instrument, args.style.as_deref())?;
    let reading = tunes::options(args.voice.as_ref(), &args.text)?;
    let drawn = args.picture.as_deref();
    if let Some(path) = drawn.filter(|path| !output::ends_in(path, "svg")) {
        let advice = words::picture_name(&path.display().to_string());
        return Err(Failure::Argument { name: "--picture", advice });
    }
    let mut drawing = None;
    let ask = FingeringAsk {
        instrument: &instrument,
        options: Options { style, unconfirmed: args.unconfirmed },
        aim: aim(args.to.as_deref(), args.by.as_deref())?,
        harmony: args.harmony,
    };
    let (sources, bytes) = input::sources(&args.files)?;
    let is_demo = matches!(sources.as_slice(), [Source::Demo]);
    let progress = Progress::new(bytes, true);
    let mut all_is_well = true;
    let mut out = anstream::AutoStream::auto(std::io::stdout()).lock();
    for (i, piece) in input::pieces(&sources, &progress).enumerate() {
        let text = match piece.text {
            Ok(text) => text,
            Err(error) => {
                all_is_well = false;
                input::tell(&piece.source, &words::source_error(&error));
                continue;
            }
        };
        let read = read(&text, &reading);
        all_is_well &= read.problems.iter().all(|p| p.kind.severity() != Severity::Error);
        let told = fingered(read.tune, &ask, |tune| {
            all_is_well &= tune.plan.missing.is_empty();
            if drawn.is_some() && drawing.replace(drawing_of(tune)).is_some() {
                return Err(Failure::Argument { name: "--picture", advice: words::one_picture() });
            }
            if args.json {
                let answer = FingeringAnswer::new(&piece.source, tune, &read.problems);
                let mut line = serde_json::to_string(&answer).map_err(std::io::Error::from)?;
                line.push('\n');
                return Ok(line);
            }
            let page = report::fingering(tune, &read.problems);
            let page = paint::report(&page, paint::width()).unwrap_or_default();
            let gap = if i > 0 { "\n" } else { "" };
            Ok::<String, Failure>(format!("{gap}{page}"))
        });
        match told {
            Ok(told) => out.write_all(told?.as_bytes())?,
            Err(why) => {
                all_is_well = false;
                input::tell(&piece.source, &words::unmoved(&why));
            }
        }
    }
    if is_demo && !args.json {
        out.write_all(input::DEMO.as_bytes())?;
    }
    out.flush()?;
    if let Some(drawing) = drawing {
        output::write(drawn, picture::file(&drawing).as_bytes())?;
    }
    Ok(if all_is_well { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

/// The instrument with the notes of a tune.
fn drawing_of(of: &FingeredTune<'_>) -> Drawing {
    let home = find(of.tune).best().map(|best| best.key.home);
    picture(of.instrument, of.plan, home)
}

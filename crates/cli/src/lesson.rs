//! `modewright lesson`.

use crate::failure::Failure;
use crate::told_args::{LessonArgs, Printed};
use crate::{input, instruments, output, sheet, tunes};
use modewright_core::count::Detail;
use modewright_core::find::find;
use modewright_core::fingering::{Options as Fingering, plan};
use modewright_lesson::walk::{Walk, WalkOptions, Wording, walk};
use modewright_lesson::words::{self, Advice};
use std::path::Path;
use std::process::ExitCode;

pub(crate) fn run(args: &LessonArgs) -> Result<ExitCode, Failure> {
    let output = args.output.as_deref();
    let kind = kind(output, args.print)?;
    let options = tunes::options(args.voice.as_ref(), &args.text)?;
    let (read, unread) = tunes::nth(args.file.as_ref(), args.tune, &options)?;
    tunes::tell_choice(&read.source, &read.reading.problems);
    let tune = &read.reading.tune;
    let finding = find(tune);
    if kind == Printed::Svg || kind == Printed::Pdf {
        output::write(output, &sheet::bytes(args, &read, &finding, kind)?)?;
        output::tell_written(output, "");
        return Ok(if unread { ExitCode::from(1) } else { ExitCode::SUCCESS });
    }
    let walk = match &args.words {
        Some(path) => {
            let edited = Walk::from_markdown(&String::from_utf8_lossy(&input::whole(path)?));
            for bar in edited.bars_not_in(tune) {
                let Advice { message, hint } = words::bar_not_there(bar);
                anstream::eprintln!("warning: {}: {message}\nhint: {hint}", path.display());
            }
            edited
        }
        None => {
            let instrument = args.sheet.on.as_deref().map(|name| instruments::one("--on", name));
            let awkward = instrument.transpose()?.map_or_else(Vec::new, |instrument| {
                plan(tune, &instrument, Fingering::default()).awkward()
            });
            let options = WalkOptions {
                values: args.values.into(),
                names: args.names.into(),
                count: args.count.options(Detail::Beats),
                awkward,
            };
            walk(tune, &finding, &Wording::english(), &options)
        }
    };
    let text = match kind {
        Printed::Html => sheet::page(args, &read, &finding, &walk)?,
        _ => walk.to_markdown(),
    };
    output::write(output, text.as_bytes())?;
    output::tell_written(output, "");
    Ok(if unread { ExitCode::from(1) } else { ExitCode::SUCCESS })
}

/// What is asked for: the ending of the name says it.
fn kind(output: Option<&Path>, printed: Printed) -> Result<Printed, Failure> {
    let Some(path) = output.filter(|_| !output::is_standard(output)) else { return Ok(printed) };
    let ending = path.extension().and_then(|found| found.to_str()).unwrap_or_default();
    let kinds = [
        (".md", Printed::Md),
        (".svg", Printed::Svg),
        (".pdf", Printed::Pdf),
        (".html", Printed::Html),
    ];
    let found = kinds.into_iter().find(|(name, _)| ending.eq_ignore_ascii_case(&name[1..]));
    found.map(|(_, kind)| kind).ok_or_else(|| {
        let endings = kinds.map(|(name, _)| name);
        let advice = words::unknown_output(&path.display().to_string(), &endings);
        Failure::Argument { name: "--output", advice }
    })
}

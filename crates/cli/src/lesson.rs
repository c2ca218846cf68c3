//! `modewright lesson`.

use crate::failure::Failure;
use crate::told_args::LessonArgs;
use crate::{output, tunes};
use modewright_core::count::Detail;
use modewright_core::find::find;
use modewright_lesson::walk::{Walk, WalkOptions, Wording, walk};
use modewright_lesson::words::{self, Advice};
use std::path::Path;
use std::process::ExitCode;

pub(crate) fn run(args: &LessonArgs) -> Result<ExitCode, Failure> {
    let output = args.output.as_deref();
    if !output::is_standard(output) && !output.is_some_and(|path| output::ends_in(path, "md")) {
        let advice = words::unknown_output(&name(output), &[".md"]);
        return Err(Failure::Argument { name: "--output", advice });
    }
    let options = tunes::options(args.voice.as_ref(), &args.text)?;
    let (read, unread) = tunes::nth(args.file.as_ref(), args.tune, &options)?;
    let tune = &read.reading.tune;
    let walk = match &args.words {
        Some(path) => {
            let text = std::fs::read_to_string(path)
                .map_err(|error| Failure::File { path: path.clone(), error })?;
            let edited = Walk::from_markdown(&text);
            for bar in edited.bars_not_in(tune) {
                let Advice { message, hint } = words::bar_not_there(bar);
                anstream::eprintln!("warning: {}: {message}\nhint: {hint}", path.display());
            }
            edited
        }
        None => {
            let options = WalkOptions {
                values: args.values.into(),
                names: args.names.into(),
                count: args.count.options(Detail::Beats),
                awkward: Vec::new(),
            };
            walk(tune, &find(tune), &Wording::english(), &options)
        }
    };
    output::write(output, walk.to_markdown().as_bytes())?;
    Ok(if unread { ExitCode::from(1) } else { ExitCode::SUCCESS })
}

fn name(path: Option<&Path>) -> String {
    path.map(|path| path.display().to_string()).unwrap_or_default()
}

//! `modewright sound`.

use crate::failure::Failure;
use crate::told_args::SoundArgs;
use crate::{output, tunes};
use modewright_core::Key;
use modewright_core::find::find;
use modewright_lesson::words;
use modewright_sound::{PerformOptions, Performance, compare, render, wav};
use std::process::ExitCode;

pub(crate) fn run(args: &SoundArgs) -> Result<ExitCode, Failure> {
    let path = args.output.as_path();
    if !output::is_standard(Some(path)) && !output::ends_in(path, "wav") {
        let advice = words::unknown_output(&path.display().to_string(), &[".wav"]);
        return Err(Failure::Argument { name: "--output", advice });
    }
    let (performance, unread) = if args.scale.is_empty() { tune(args)? } else { scales(args)? };
    let samples = render(&performance, args.voice.into());
    output::write(Some(path), &wav(&samples))?;
    output::tell_written(Some(path), "");
    Ok(if unread { ExitCode::from(1) } else { ExitCode::SUCCESS })
}

/// A tune, and whether something of it could not be read.
fn tune(args: &SoundArgs) -> Result<(Performance, bool), Failure> {
    let options = tunes::options(args.line.as_ref(), &args.text)?;
    let (read, unread) = tunes::nth(args.file.as_ref(), args.tune, &options)?;
    tunes::tell_choice(&read.source, &read.reading.problems);
    let tune = &read.reading.tune;
    let home = || find(tune).best().map(|best| best.key.home.pitch_class());
    let options = PerformOptions {
        per_minute: args.tempo,
        percent: args.percent,
        count_in: args.count_in,
        repeats: !args.once,
        bars: args.bars,
        click: args.click,
        drone: if args.drone { home() } else { None },
    };
    let performance = Performance::of(tune, &options).map_err(|error| {
        let advice = match error {
            modewright_sound::SoundError::TooLong => words::too_long(LONGEST_MINUTES),
            modewright_sound::SoundError::NoTempo => words::no_tempo(),
        };
        Failure::Content { path: read.source.as_ref().into(), advice }
    })?;
    if let Some((first, last)) = args.bars
        && performance.notes.is_empty()
    {
        let highest = tune.bars.iter().map(|bar| bar.number).max().unwrap_or(0);
        let advice = words::no_such_bars(first, last, highest);
        return Err(Failure::Argument { name: "--bars", advice });
    }
    Ok((performance, unread))
}

const LONGEST_MINUTES: u64 = Performance::LONGEST / 60_000_000_000;

fn scales(args: &SoundArgs) -> Result<(Performance, bool), Failure> {
    let keys: Result<Vec<Key>, Failure> = args
        .scale
        .iter()
        .map(|text| {
            modewright_formats::names::key(text).map_err(|error| Failure::Argument {
                name: "--scale",
                advice: words::theory_error(&error),
            })
        })
        .collect();
    Ok((compare(&keys?), false))
}

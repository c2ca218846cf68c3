//! The `modewright` command: dispatch, call, print. It decides nothing about music.

mod args;
mod convert;
mod count;
mod failure;
mod find;
mod fingering;
mod fit;
mod input;
mod instruments;
mod lesson;
mod lines;
mod listed;
mod output;
mod paint;
mod progress;
mod rows;
mod scale;
mod sheet;
mod sheet_args;
mod sound;
mod told_args;
mod transpose;
mod tunes;

use args::{Args, Command};
use clap::Parser;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use failure::Failure;
use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let args = Args::try_parse().unwrap_or_else(|error| {
        if let Some(name) = file_for_command(&error) {
            anstream::eprintln!("error: `{name}` is a file, and a command stands before it");
            anstream::eprintln!(
                "hint: modewright find {name} tells its mode; modewright --help lists the commands"
            );
            std::process::exit(2);
        }
        error.exit()
    });
    let outcome = match &args.command {
        Command::Find(find) => find::run(find),
        Command::Convert(convert) => convert::run(convert),
        Command::Transpose(transpose) => transpose::run(transpose),
        Command::Fit(fit) => fit::run(fit),
        Command::Scale(scale) => scale::run(scale),
        Command::Count(count) => count::run(count),
        Command::Lesson(lesson) => lesson::run(lesson),
        Command::Sound(sound) => sound::run(sound),
        Command::Instruments(instruments) => instruments::run(instruments),
        Command::Fingering(fingering) => fingering::run(fingering),
    };
    match outcome {
        Ok(code) => code,
        // Whoever reads our output has had enough.
        Err(Failure::Output(e)) if e.kind() == std::io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(failure) => {
            anstream::eprintln!("{failure}");
            ExitCode::from(2)
        }
    }
}

/// The name of a file, where it stands in the place of a command.
fn file_for_command(error: &clap::Error) -> Option<&str> {
    if error.kind() != ErrorKind::InvalidSubcommand {
        return None;
    }
    match error.get(ContextKind::InvalidSubcommand) {
        Some(ContextValue::String(name)) if Path::new(name).exists() => Some(name),
        _ => None,
    }
}

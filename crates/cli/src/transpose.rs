//! `modewright transpose`.

use crate::{args::TransposeArgs, failure::Failure, input, instruments, tunes};
use modewright_lesson::answer::{MovedAnswer, ProblemAnswer, TransposeAnswer};
use modewright_lesson::ask::aim;
use modewright_lesson::moving::{Aim, Wish};
use std::io::{IsTerminal, Write};
use std::process::ExitCode;

pub(crate) fn run(args: &TransposeArgs) -> Result<ExitCode, Failure> {
    let named = |name: &String| instruments::one("--for", name);
    let instrument = args.instrument.as_ref().map(named).transpose()?;
    let aim = aim(args.to.as_deref(), args.by.as_deref())?.unwrap_or(Aim::Best);
    let wish = Wish { aim, instrument: instrument.as_ref(), fold: args.fold };
    let options = tunes::options(args.voice.as_ref(), &args.text)?;
    let (text, options) = input::text(&args.file, options)?;
    let TransposeAnswer { text: new, tunes, .. } = TransposeAnswer::new(&text, &options, &wish);
    let file = args.file.to_string_lossy();
    tunes.iter().for_each(|tune| tell(&file, tune));
    let all_well = tunes.iter().all(|tune| tune.well);
    let mut out = std::io::stdout().lock();
    if out.is_terminal() {
        // What could move the cursor stays in the file.
        let shown = |c: char| if c.is_control() && !"\n\r\t".contains(c) { ' ' } else { c };
        out.write_all(new.chars().map(shown).collect::<String>().as_bytes())?;
    } else {
        out.write_all(new.as_bytes())?;
    }
    out.flush()?;
    Ok(if all_well { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

/// Says on standard error what was done to a tune.
fn tell(file: &str, tune: &MovedAnswer) {
    for choice in &tune.choices {
        let ProblemAnswer { severity, message, hint, .. } = choice;
        anstream::eprintln!("{severity}: {file}: {message}\nhint: {hint}");
    }
    if !tune.words.is_empty() {
        let title: String = tune.title.as_ref().map_or_else(String::new, |title| {
            let shown = title.chars().map(|c| if c.is_control() { ' ' } else { c });
            shown.chain(": ".chars()).collect()
        });
        anstream::eprintln!("{title}{}", tune.words.join(" "));
    }
    let Some(problem) = &tune.problem else { return };
    let place = match problem.severity {
        "error" => format!("tune at line {}: ", tune.line),
        _ => String::new(),
    };
    anstream::eprintln!("{}: {place}{}", problem.severity, problem.message);
    if !problem.hint.is_empty() {
        anstream::eprintln!("hint: {}", problem.hint);
    }
}

//! `modewright transpose`.

use crate::{args::TransposeArgs, failure::Failure, input, instruments, tunes};
use modewright_core::Interval;
use modewright_formats::names;
use modewright_formats::source::{TuneText, replace};
use modewright_lesson::moving::{Aim, Moved, Unmoved, Wish, move_text};
use modewright_lesson::words::{self, Advice};
use std::io::{IsTerminal, Write};
use std::process::ExitCode;

pub(crate) fn run(args: &TransposeArgs) -> Result<ExitCode, Failure> {
    let named = |name: &String| instruments::one("--for", name);
    let instrument = args.instrument.as_ref().map(named).transpose()?;
    let aim = aim(args.to.as_deref(), args.by.as_deref())?.unwrap_or(Aim::Best);
    let wish = Wish { aim, instrument: instrument.as_ref(), fold: args.fold };
    let options = tunes::options(args.voice.as_ref(), &args.text)?;
    let (text, options) = input::text(&args.file, options)?;
    let mut all_well = true;
    let mut count = 0;
    let new = replace(&text, |tune| {
        count += 1;
        let moved = move_text(tune, &options, &wish);
        if let Ok(moved) = &moved {
            tunes::tell_choice(&args.file.to_string_lossy(), &moved.reading.problems);
        }
        all_well &= tell(tune, &moved, &wish);
        moved.ok().map(|moved| moved.text)
    });
    if count == 0 {
        all_well = tell(&TuneText::abc(""), &Err(Unmoved::NoNotes), &wish);
    }
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

/// Says on standard error what was done to a tune; whether all is well with it.
fn tell(tune: &TuneText, moved: &Result<Moved, Unmoved>, wish: &Wish<'_>) -> bool {
    match moved {
        Ok(moved) => {
            let title = moved.reading.tune.header.titles.first();
            let title: String = title.map_or_else(String::new, |title| {
                let shown = title.chars().map(|c| if c.is_control() { ' ' } else { c });
                shown.chain(": ".chars()).collect()
            });
            anstream::eprintln!("{title}{}", words::moved(moved).join(" "));
            let (Some(there), Some(instrument)) = (&moved.there, wish.instrument) else {
                return true;
            };
            if there.is_whole() {
                return true;
            }
            let advice = words::not_all_there(moved, there, instrument, wish.fold);
            warn("warning", None, &advice);
            false
        }
        Err(why) => {
            warn("error", Some(tune.first_line), &words::unmoved(why));
            false
        }
    }
}

fn warn(word: &str, line: Option<u32>, advice: &Advice) {
    let place = line.map(|line| format!("tune at line {line}: ")).unwrap_or_default();
    anstream::eprintln!("{word}: {place}{}", advice.message);
    if !advice.hint.is_empty() {
        anstream::eprintln!("hint: {}", advice.hint);
    }
}

/// Where to, as `--to` and `--by` say; `None` without either.
pub(crate) fn aim(to: Option<&str>, by: Option<&str>) -> Result<Option<Aim>, Failure> {
    if let Some(text) = to {
        if let Ok(home) = names::note(text) {
            return Ok(Some(Aim::Home(home, None)));
        }
        let key = names::key(text)
            .map_err(|e| Failure::Argument { name: "--to", advice: words::theory_error(&e) })?;
        return Ok(Some(Aim::Home(key.home, Some(key.mode))));
    }
    let Some(text) = by else { return Ok(None) };
    if let Ok(semitones) = text.trim().parse::<i16>() {
        return Ok(Some(Aim::Semitones(semitones)));
    }
    text.trim()
        .parse::<Interval>()
        .map(|by| Some(Aim::Interval(by)))
        .map_err(|_| Failure::Argument { name: "--by", advice: words::not_a_distance(text) })
}

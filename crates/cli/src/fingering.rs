//! `modewright fingering`.

use crate::{
    args::FingeringArgs,
    failure::Failure,
    input::{self, Source},
    instruments, paint,
    progress::Progress,
    transpose, tunes,
};
use modewright_core::Interval;
use modewright_core::find::find;
use modewright_core::fingering::{Options, harmony, plan};
use modewright_core::instrument::Instrument;
use modewright_formats::{Severity, read};
use modewright_lesson::answer::{FingeredTune, FingeringAnswer};
use modewright_lesson::moving::{Wish, move_tune};
use modewright_lesson::{report, words};
use std::{io::Write, process::ExitCode};

pub(crate) fn run(args: &FingeringArgs) -> Result<ExitCode, Failure> {
    let instrument = instruments::one("--on", &args.on)?;
    let style = args.style.as_deref().map_or(Ok(0), |name| style(&instrument, name))?;
    let options = Options { style, unconfirmed: args.unconfirmed };
    let reading = tunes::options(args.voice.as_ref(), &args.text)?;
    let aim = transpose::aim(args.to.as_deref(), args.by.as_deref())?;
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
        let mut read = read(&text, &reading);
        let mut moved = Interval::UNISON;
        if let Some(aim) = aim {
            let wish = Wish { aim, instrument: Some(&instrument), fold: false };
            match move_tune(&read.tune, &wish) {
                Ok((tune, by)) => (read.tune, moved) = (tune, by),
                Err(why) => {
                    all_is_well = false;
                    input::tell(&piece.source, &words::unmoved(&why));
                    continue;
                }
            }
        }
        let plan = plan(&read.tune, &instrument, options);
        let finding = args.harmony.then(|| find(&read.tune));
        let home = finding.and_then(|finding| finding.best().map(|best| best.key));
        let added = home.map(|home| harmony(&read.tune, &instrument, &plan, home, options));
        let fingered = FingeredTune {
            tune: &read.tune,
            instrument: &instrument,
            options,
            plan: &plan,
            harmony: added.as_deref().unwrap_or_default(),
            home,
            moved,
        };
        all_is_well &= plan.missing.is_empty();
        all_is_well &= read.problems.iter().all(|p| p.kind.severity() != Severity::Error);
        if args.json {
            let answer = FingeringAnswer::new(&piece.source, &fingered, &read.problems);
            let line = serde_json::to_string(&answer).map_err(std::io::Error::from)?;
            writeln!(out, "{line}")?;
            continue;
        }
        let page = report::fingering(&fingered, &read.problems);
        let page = paint::report(&page, paint::width()).unwrap_or_default();
        let gap = if i > 0 { "\n" } else { "" };
        write!(out, "{gap}{page}")?;
    }
    if is_demo && !args.json {
        out.write_all(input::DEMO.as_bytes())?;
    }
    out.flush()?;
    Ok(if all_is_well { ExitCode::SUCCESS } else { ExitCode::from(1) })
}

/// The place of a manner of playing among those that the instrument offers.
fn style(instrument: &Instrument, name: &str) -> Result<usize, Failure> {
    let found = instrument.styles.iter().position(|style| style.id == name);
    found.ok_or_else(|| Failure::Argument {
        name: "--style",
        advice: words::unknown_style(name, instrument),
    })
}

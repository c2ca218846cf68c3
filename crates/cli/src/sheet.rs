//! The sheet of `modewright lesson`.

use crate::failure::Failure;
use crate::sheet_args::RowName;
use crate::told_args::{LessonArgs, Printed};
use crate::{instruments, rows, tunes::Read};
use modewright_core::count::Detail;
use modewright_core::find::Finding;
use modewright_core::fingering::{self, plan};
use modewright_lesson::walk::Walk;
use modewright_lesson::words::{self, Advice};
use modewright_sheet::{Part, Played, Request, Sheet, engrave, html, missing, pdf, svg};

/// The sheet as SVG or PDF.
pub(crate) fn bytes(
    args: &LessonArgs,
    read: &Read,
    finding: &Finding,
    kind: Printed,
) -> Result<Vec<u8>, Failure> {
    let sheet = sheet(args, read, finding)?;
    if kind == Printed::Svg {
        return Ok(svg(&sheet).into_bytes());
    }
    let lacks: Vec<char> = missing(&sheet).into_iter().collect();
    if !lacks.is_empty() {
        let Advice { message, hint } = words::no_letters(&lacks);
        anstream::eprintln!("warning: {message}\nhint: {hint}");
    }
    pdf(&sheet).map_err(|error| Failure::Argument {
        name: "--output",
        advice: Advice { message: error.to_string(), hint: String::new() },
    })
}

/// Sheet and walk-through as one page.
pub(crate) fn page(
    args: &LessonArgs,
    read: &Read,
    finding: &Finding,
    walk: &Walk,
) -> Result<String, Failure> {
    let parts: Vec<Part> = walk.sections.iter().map(Part::from).collect();
    Ok(html(&sheet(args, read, finding)?, &parts))
}

fn sheet(args: &LessonArgs, read: &Read, finding: &Finding) -> Result<Sheet, Failure> {
    let tune = &read.reading.tune;
    if let Some(advice) = Sheet::too_long(tune) {
        return Err(Failure::Content { path: read.source.as_ref().into(), advice });
    }
    let asked = &args.sheet;
    let instrument = asked.on.as_deref().map(|name| instruments::one("--on", name)).transpose()?;
    let plan = instrument.as_ref().map(|it| plan(tune, it, fingering::Options::default()));
    let request = Request {
        paper: asked.paper.into(),
        rows: asked.rows.iter().copied().map(Into::into).collect(),
        marked: asked.mark.iter().copied().map(Into::into).collect(),
        names: args.names.into(),
        count: args.count.options(Detail::Beats),
        key: finding.best().map(|best| best.key),
        played: instrument.as_ref().zip(plan.as_ref()).map(|(it, plan)| Played::of(it, plan)),
    };
    let options = request.options(tune);
    let is_there = |name: RowName| options.rows.iter().any(|row| row.label == name.word());
    // The usual rows stand there unasked, and not every tune has something for each.
    for name in asked.rows.iter().filter(|name| !name.is_usual()) {
        if !is_there(*name) {
            rows::tell_empty(*name, instrument.as_ref());
        }
    }
    Ok(engrave(tune, &options))
}

//! Files that are made to take all memory or all time, read by the real command.

use crate::corpus::mib;
use crate::process::run;
use crate::stage::{Found, Stop};
use crate::{books, measure, place};
use std::fs;
use std::path::Path;
use std::process::Command;

/// Every file is answered or refused within its bounds.
pub(crate) fn run_all(python: &Path, modewright: &Path) -> Found {
    let budget = &books::json("tests/budgets.json")?["hostile"];
    let (most_mib, most_seconds) =
        (books::number(budget, "mib")?, books::number(budget, "seconds")?);
    let folder = place::target().join("hostile-files");
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    fs::create_dir_all(&folder)?;
    let script = place::root().join("tests/python/hostile_files.py");
    run(Command::new(python).arg(script).arg(&folder))?;
    let mut files: Vec<_> = fs::read_dir(&folder)?
        .map(|file| file.map(|file| file.path()))
        .collect::<Result<_, _>>()?;
    files.sort();
    let (mut peak, mut longest) = (0.0_f64, 0.0_f64);
    for file in &files {
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let mut command = Command::new(modewright);
        command.args(["find", "--json"]).arg(file);
        let feed: Option<fn(&mut dyn std::io::Write) -> std::io::Result<()>> = None;
        let run = measure::run(&mut command, feed, |_| Ok(()))
            .map_err(|why| Stop::failed(format!("{name}: {why:?}")))?;
        let held = run.peak_kib.map_or(0.0, mib);
        println!("{name}: {:.1} s, {held:.0} MiB", run.seconds);
        if held > most_mib || run.seconds > most_seconds {
            let bounds = format!("of {most_seconds} s and {most_mib} MiB");
            return Err(Stop::failed(format!(
                "{name}: {:.1} s, {held:.0} MiB {bounds}",
                run.seconds
            )));
        }
        peak = peak.max(held);
        longest = longest.max(run.seconds);
    }
    if files.is_empty() {
        return Err(Stop::failed("no file was written"));
    }
    Ok(format!("{} files, {peak:.0} MiB and {longest:.1} s at most", files.len()))
}

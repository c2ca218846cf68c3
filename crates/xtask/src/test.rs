//! `cargo xtask test`: everything that CI runs.

use crate::process::{capture, cargo, modewright, run};
use crate::stage::{Found, Stages, Stop};
use crate::{
    book, budgets, corpus, file_growth, finding, fuzz, growth, hostile, package, page, place,
    round_trips, same, setup, sheets, supply, tree,
};
use std::process::ExitCode;

pub(crate) fn all() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("tidiness", tree::check);
    stages.run("format", format);
    stages.run("supply", supply::check);
    stages.run("lints", lints);
    stages.run("docs", docs);
    stages.run("tests", tests);
    stages.run("tune books", tune_books);
    stages.run("round trips", || round_trips::run(&setup::python()?));
    stages.run("other readers", || round_trips::other_readers(&setup::python()?));
    stages.run("transposing", || corpus::transposed(&setup::python()?));
    stages.run("sheets", || sheets::collisions(&setup::python()?));
    stages.run("sheets elsewhere", || sheets::elsewhere(&setup::python()?, &modewright()?));
    stages.run("finding", finding::check);
    stages.run("memory", || budgets::memory(&setup::python()?, &modewright()?));
    stages.run("mutants", || fuzz::few_mutants(&setup::python()?, &modewright()?));
    stages.run("hostile files", || hostile::run_all(&setup::python()?, &modewright()?));
    stages.run("instructions", budgets::instructions);
    stages.run("growth", growth::check);
    stages.run("files grow", file_growth::run);
    stages.run("sound", budgets::sound_instructions);
    stages.run("fit", budgets::fit_instructions);
    stages.run("fingering", budgets::fingering_instructions);
    stages.run("sheet's cost", sheets::instructions);
    page::check(&mut stages);
    stages.run("same answers", || same::check(&setup::python()?));
    book::check(&mut stages);
    stages.run("package", package::check);
    stages.finish()
}

/// `cargo xtask supply`: what is taken in and given out alone.
pub(crate) fn supply() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("supply", supply::check);
    stages.finish()
}

/// `cargo xtask floors`: the finder's floors alone.
pub(crate) fn floors() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("finding", finding::check);
    stages.finish()
}

/// `cargo xtask corpus`: the tune books alone.
pub(crate) fn books() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("tune books", tune_books);
    stages.run("round trips", || round_trips::run(&setup::python()?));
    stages.run("transposing", || corpus::transposed(&setup::python()?));
    stages.run("sheets", || sheets::collisions(&setup::python()?));
    stages.finish()
}

fn format() -> Found {
    setup::component("rustfmt")?;
    run(&mut cargo(&["fmt", "--all", "--check"]))?;
    Ok(String::new())
}

fn lints() -> Found {
    setup::component("clippy")?;
    let words = ["clippy", "--workspace", "--all-targets", "--locked", "--", "-D", "warnings"];
    run(&mut cargo(&words))?;
    Ok(String::new())
}

fn docs() -> Found {
    let mut doc = cargo(&["doc", "--workspace", "--no-deps", "--locked"]);
    run(doc.env("RUSTDOCFLAGS", "-D warnings"))?;
    Ok(String::new())
}

fn tests() -> Found {
    run(&mut cargo(&["test", "--workspace", "--locked"]))?;
    examples()
}

/// Every example of every crate runs.
fn examples() -> Found {
    let mut count = 0;
    for folder in std::fs::read_dir(place::root().join("crates"))? {
        let folder = folder?.path();
        let Ok(files) = std::fs::read_dir(folder.join("examples")) else { continue };
        let name = folder.file_name().unwrap_or_default().to_string_lossy().into_owned();
        for file in files {
            let path = file?.path();
            let example = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
            let package = format!("modewright-{name}");
            let words =
                ["run", "--quiet", "--locked", "--package", &package, "--example", &example];
            if capture(&mut cargo(&words)).map_err(Stop::failed)?.trim().is_empty() {
                return Err(Stop::failed(format!(
                    "{package}: the example {example} prints nothing"
                )));
            }
            count += 1;
        }
    }
    Ok(format!("{count} examples run"))
}

fn tune_books() -> Found {
    corpus::run(&setup::python()?, &modewright()?)
}

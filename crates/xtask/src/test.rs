//! `cargo xtask test`: everything that CI runs.

use crate::process::{cargo, modewright, run};
use crate::stage::{Found, Stages};
use crate::{
    book, budgets, corpus, file_growth, finding, hostile, package, page, round_trips, setup,
    sheets, tree,
};
use std::process::ExitCode;

pub(crate) fn all() -> ExitCode {
    let mut stages = Stages::new();
    stages.run("tidiness", tree::check);
    stages.run("format", format);
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
    stages.run("hostile files", || hostile::run_all(&setup::python()?, &modewright()?));
    stages.run("instructions", budgets::instructions);
    stages.run("files grow", file_growth::run);
    stages.run("sound", budgets::sound_instructions);
    stages.run("fit", budgets::fit_instructions);
    stages.run("fingering", budgets::fingering_instructions);
    stages.run("sheet's cost", sheets::instructions);
    page::check(&mut stages);
    stages.run("package", package::check);
    book::check(&mut stages);
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
    Ok(String::new())
}

fn tune_books() -> Found {
    corpus::run(&setup::python()?, &modewright()?)
}

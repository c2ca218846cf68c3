//! The project's own commands, called as `cargo xtask COMMAND`.
//!
//! Light on purpose: it must build in seconds on a fresh machine. What the commands need beyond
//! cargo they set up themselves under the target folder, and say so.

mod answers;
mod bench;
mod book;
mod books;
mod budgets;
mod corpus;
mod file_growth;
mod finding;
mod fit;
mod fuzz;
mod glyphs;
mod growth;
mod hostile;
mod measure;
mod pace;
mod package;
mod page;
mod place;
mod process;
mod round_trips;
mod same;
mod scale;
mod setup;
mod sheets;
mod stage;
mod supply;
mod test;
mod trained;
mod tree;

use std::process::ExitCode;

const HELP: &str = "\
cargo xtask COMMAND

  test     everything that CI runs: format, lints, docs, tests, tune books, budgets, the page
  corpus   read every tune of the tune books with the real command and report on it; move each
           by twelve intervals and read it again
  bench    figures: tunes per second, beside music21, fit, fingering, sheets, sound, peak memory on
           100 000 tunes
  build    build the page, the elements and the book into dist/, and the npm package into dist/npm/
  serve    [PORT]: the same, and serve them at an address of this machine
  browser  build the page and check it in Debian's Chromium; needs Node
  book     build the page and the book into dist/, run the book's commands and examples, check its
           spelling, links and pictures
  fit      rebuild the table of weights from the tune books, byte for byte, and print its figures
  evaluate how good the finder is, per book and mode, and its surest mistakes; minutes long
  floors   the finder on tunes that the fit has not seen, against its floors
  cross    judge every tune by weights that were fitted without it
  fuzz     [--minutes N] [TARGET…]: random input for every reader, N minutes of the processor each; fuzz mutants: 10 000 damaged tunes
  supply   licences, dependencies, versions and packages alone
  command  build the command by what it does with tunes, into target/trained/: a tenth faster
  scale    the tune books by PySpark with local workers, beside a single run; needs Java
  reproducible  build the page twice, in two folders, and compare every byte
  growth   how work grows with the length of a tune, to a million notes; long
  glyphs   rebuild the music signs and the text font from the packages they come from; needs npm
  help     this text

Set-up is part of each command: a Python environment under target/ with pinned packages, and
on Debian as root the missing system packages. What needs the network or root and has neither
is skipped by name; with CI set in the environment that is a failure.
";

fn main() -> ExitCode {
    let mut words = std::env::args().skip(1);
    let command = words.next();
    if command.as_deref() == Some("fuzz") {
        return fuzz::run(&words.collect::<Vec<_>>());
    }
    if command.as_deref() == Some("serve") {
        return page::serve(&words.collect::<Vec<_>>());
    }
    if let Some(extra) = words.next() {
        eprintln!(
            "error: `{extra}` is one word too many\nhint: cargo xtask help lists the commands"
        );
        return ExitCode::from(2);
    }
    match command.as_deref() {
        Some("test") => test::all(),
        Some("corpus") => test::books(),
        Some("bench") => bench::run(),
        Some("build") => page::build(),
        Some("browser") => page::browser(),
        Some("book") => book::book(),
        Some("fit") => fit::weights(),
        Some("evaluate") => fit::evaluate(),
        Some("floors") => test::floors(),
        Some("cross") => fit::cross(),
        Some("supply") => test::supply(),
        Some("command") => trained::all(),
        Some("scale") => scale::all(),
        Some("reproducible") => page::reproducible(),
        Some("growth") => growth::all(),
        Some("glyphs") => glyphs::run(),
        None | Some("help" | "--help" | "-h") => {
            print!("{HELP}");
            ExitCode::SUCCESS
        }
        Some(other) => {
            eprintln!("error: there is no command `{other}`\nhint: cargo xtask help lists them");
            ExitCode::from(2)
        }
    }
}

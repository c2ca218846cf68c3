//! Stages of a command: timed, named, summed up at the end.

use std::process::ExitCode;
use std::time::Instant;

/// Why a stage did not pass.
#[derive(Debug)]
pub(crate) enum Stop {
    /// Something is wrong with the project.
    Failed(String),
    /// The machine lacks something that the stage needs and cannot fetch.
    Skipped(String),
}

impl Stop {
    /// A failure with its reason.
    pub(crate) fn failed(reason: impl Into<String>) -> Self {
        Self::Failed(reason.into())
    }
}

impl From<std::io::Error> for Stop {
    fn from(error: std::io::Error) -> Self {
        Self::Failed(error.to_string())
    }
}

/// What a stage found out, in a few words; or why it stopped.
pub(crate) type Found = Result<String, Stop>;

struct Done {
    name: &'static str,
    minutes: f64,
    result: Outcome,
}

enum Outcome {
    Passed(String),
    Failed(String),
    Skipped(String),
}

/// The stages run so far.
pub(crate) struct Stages {
    done: Vec<Done>,
    /// Nothing may be skipped.
    strict: bool,
}

impl Stages {
    /// No stages yet; with CI set in the environment, nothing may be skipped.
    pub(crate) fn new() -> Self {
        let strict = std::env::var_os("CI").is_some_and(|v| !v.is_empty() && v != "false");
        Self { done: Vec::new(), strict }
    }

    /// Runs a stage and notes its time and result. A failure does not stop the next stage.
    pub(crate) fn run(&mut self, name: &'static str, stage: impl FnOnce() -> Found) {
        println!("\n── {name} ──");
        let start = Instant::now();
        let result = match stage() {
            Ok(found) => Outcome::Passed(found),
            Err(Stop::Skipped(why)) if self.strict => {
                Outcome::Failed(format!("may not be skipped in CI: {why}"))
            }
            Err(Stop::Skipped(why)) => Outcome::Skipped(why),
            Err(Stop::Failed(why)) => Outcome::Failed(why),
        };
        let minutes = start.elapsed().as_secs_f64() / 60.0;
        let done = Done { name, minutes, result };
        println!("{}", done.line());
        self.done.push(done);
    }

    /// The table of all stages and the exit code.
    pub(crate) fn finish(self) -> ExitCode {
        println!("\n── summary ──");
        for done in &self.done {
            println!("{}", done.line());
        }
        let minutes: f64 = self.done.iter().map(|d| d.minutes).sum();
        let failed: Vec<&str> = self
            .done
            .iter()
            .filter(|d| matches!(d.result, Outcome::Failed(_)))
            .map(|d| d.name)
            .collect();
        let skipped = self.done.iter().filter(|d| matches!(d.result, Outcome::Skipped(_))).count();
        if failed.is_empty() {
            println!("nothing failed in {minutes:.1} min; {skipped} skipped");
            ExitCode::SUCCESS
        } else {
            println!("failed after {minutes:.1} min: {}", failed.join(", "));
            ExitCode::FAILURE
        }
    }
}

impl Done {
    fn line(&self) -> String {
        let (word, note) = match &self.result {
            Outcome::Passed(note) => ("passed", note),
            Outcome::Failed(note) => ("FAILED", note),
            Outcome::Skipped(note) => ("skipped", note),
        };
        let line = format!("{word:<8}{:<14}{:>5.1} min  {note}", self.name, self.minutes);
        line.trim_end().to_owned()
    }
}

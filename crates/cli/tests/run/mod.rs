//! The real command, run as a user runs it.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

/// Runs the command with words and an input.
pub(crate) fn run(args: &[&str], input: Option<&str>) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_modewright"));
    command.args(args).env("NO_COLOR", "1").current_dir(env!("CARGO_MANIFEST_DIR"));
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().expect("the command starts");
    let mut pipe = child.stdin.take().expect("a pipe");
    if let Some(input) = input {
        // A command that refuses its arguments does not read.
        let _ = pipe.write_all(input.as_bytes());
    }
    drop(pipe);
    child.wait_with_output().expect("it ends")
}

/// What it printed.
pub(crate) fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("UTF-8")
}

/// What it said on standard error.
pub(crate) fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("UTF-8")
}

/// Its exit status.
pub(crate) fn code(output: &Output) -> i32 {
    output.status.code().expect("no signal")
}

/// A folder of this test's own, emptied.
pub(crate) fn folder(name: &str) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&path);
    std::fs::create_dir_all(&path).expect("a folder for this test");
    path
}

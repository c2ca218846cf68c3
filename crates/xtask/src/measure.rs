//! Runs a program and watches its time and peak memory.

use crate::stage::Stop;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Command, ExitStatus, Stdio};
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

/// How a run went.
pub(crate) struct Run {
    /// Ended with 0, or with 1 for "some tune could not be read".
    pub(crate) status: ExitStatus,
    /// Wall time.
    pub(crate) seconds: f64,
    /// The most memory it held at once, in KiB; nothing where the system does not tell.
    pub(crate) peak_kib: Option<u64>,
}

/// How often the memory is looked at. The kernel keeps the highest mark, so that only what is
/// taken in the last moments can be missed.
const LOOK: Duration = Duration::from_millis(5);

/// After this long a run counts as hanging.
const PATIENCE: Duration = Duration::from_secs(15 * 60);

/// Runs a program; every line it prints is handed over. Its standard input is what `feed`
/// writes, or nothing. A panic, an exit code other than 0 or 1 and a refused line are failures.
pub(crate) fn run<L, F>(command: &mut Command, feed: Option<F>, mut line: L) -> Result<Run, Stop>
where
    L: FnMut(&str) -> Result<(), Stop>,
    F: FnOnce(&mut dyn Write) -> std::io::Result<()> + Send,
{
    let start = Instant::now();
    let mut child = command
        .stdin(if feed.is_some() { Stdio::piped() } else { Stdio::null() })
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()?;
    let (input, output, errors) = (child.stdin.take(), child.stdout.take(), child.stderr.take());
    let id = child.id();
    let over = AtomicBool::new(false);
    std::thread::scope(|scope| {
        if let (Some(mut input), Some(feed)) = (input, feed) {
            // A program that stops reading breaks the pipe; its exit code tells the story.
            scope.spawn(move || feed(&mut input).ok());
        }
        let errors = scope.spawn(move || {
            let mut text = Vec::new();
            if let Some(mut errors) = errors {
                errors.read_to_end(&mut text).ok();
            }
            String::from_utf8_lossy(&text).into_owned()
        });
        let over = &over;
        let watcher = scope.spawn(move || {
            let mut peak = None;
            while !over.load(Ordering::Relaxed) {
                peak = peak.max(high_water(id));
                std::thread::sleep(LOOK);
            }
            peak
        });
        let waiter = scope.spawn(move || {
            let end = loop {
                match child.try_wait() {
                    Ok(None) => std::thread::sleep(LOOK),
                    Ok(Some(status)) => break Ok(status),
                    Err(error) => break Err(error),
                }
                if start.elapsed() > PATIENCE {
                    child.kill().ok();
                }
            };
            over.store(true, Ordering::Relaxed);
            (end, start.elapsed().as_secs_f64())
        });
        let mut told = Ok(());
        if let Some(output) = output {
            let mut output = BufReader::new(output);
            let mut bytes = Vec::new();
            while told.is_ok() {
                bytes.clear();
                told = match output.read_until(b'\n', &mut bytes) {
                    Ok(0) => break,
                    Ok(_) => match std::str::from_utf8(&bytes) {
                        Ok(text) => line(text.trim_end_matches(['\n', '\r'])),
                        Err(error) => Err(Stop::failed(format!("output is not UTF-8: {error}"))),
                    },
                    Err(error) => Err(error.into()),
                };
            }
        }
        let (status, seconds) = waiter.join().map_err(|_| Stop::failed("waiting went wrong"))?;
        let peak_kib = watcher.join().map_err(|_| Stop::failed("watching went wrong"))?;
        let stderr = errors.join().map_err(|_| Stop::failed("reading errors went wrong"))?;
        // A panic explains a torn line better than the torn line does.
        if stderr.contains("panicked at") {
            let first = stderr.lines().find(|l| l.contains("panicked at")).unwrap_or_default();
            return Err(Stop::failed(format!("the command panicked: {first}")));
        }
        told?;
        let status = status?;
        if !matches!(status.code(), Some(0 | 1)) {
            let last = stderr.lines().last().unwrap_or_default();
            return Err(Stop::failed(format!("the command ended with {status}: {last}")));
        }
        Ok(Run { status, seconds, peak_kib })
    })
}

/// The highest memory mark of a running process, from the kernel's own count.
fn high_water(id: u32) -> Option<u64> {
    let status = std::fs::read_to_string(Path::new("/proc").join(id.to_string()).join("status"));
    let status = status.ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.trim().strip_suffix("kB")?.trim().parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    type Feed = fn(&mut dyn Write) -> std::io::Result<()>;

    fn shell(script: &str, feed: Option<Feed>) -> (Result<Run, Stop>, Vec<String>) {
        let mut lines = Vec::new();
        let run = run(Command::new("sh").args(["-c", script]), feed, |line| {
            lines.push(line.to_owned());
            if line == "refuse" { Err(Stop::failed("refused")) } else { Ok(()) }
        });
        (run, lines)
    }

    #[test]
    fn lines_are_handed_over_and_memory_is_seen() {
        let (run, lines) = shell("cat; echo two; sleep 0.05; exit 1", Some(|w| writeln!(w, "one")));
        let run = run.unwrap();
        assert_eq!(lines, ["one", "two"]);
        assert_eq!(run.status.code(), Some(1));
        assert!(run.seconds >= 0.05);
        if Path::new("/proc/self/status").exists() {
            assert!(run.peak_kib.is_some_and(|kib| kib > 100));
        }
    }

    #[test]
    fn what_must_not_happen_is_a_failure() {
        for (script, word) in [
            ("echo \"thread 'x' panicked at y\" >&2; exit 1", "panicked"),
            ("exit 2", "exit status: 2"),
            ("kill -ABRT $$", "signal: 6"),
            ("echo refuse; yes", "refused"),
            ("printf '\\377\\n'", "UTF-8"),
        ] {
            let Err(Stop::Failed(why)) = shell(script, None).0 else { panic!("{script} passed") };
            assert!(why.contains(word), "{script}: {why}");
        }
    }
}

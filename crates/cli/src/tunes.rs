//! Reading tunes for what is told and heard of them.

use crate::failure::Failure;
use crate::input::{self, Piece, Source};
use crate::progress::Progress;
use crate::told_args::TextArgs;
use modewright_formats::{Problem, ReadOptions, Reading, Severity, read};
use modewright_lesson::{ask::TextAsk, words};
use std::path::PathBuf;
use std::sync::Arc;

/// What the user says of a text that cannot tell it itself.
pub(crate) fn options(voice: Option<&String>, text: &TextArgs) -> Result<ReadOptions, Failure> {
    let ask = TextAsk {
        voice: voice.map(String::as_str),
        part: text.part.as_deref().or(text.track.as_deref()),
        metre: text.metre.as_deref(),
        pickup: text.pickup.as_deref(),
    };
    Ok(ask.options()?)
}

/// A tune as it was read.
pub(crate) struct Read {
    /// The name of its source.
    pub source: Arc<str>,
    /// What was read.
    pub reading: Reading,
}

/// Says which of several melodies was read, where an answer does not say it itself.
pub(crate) fn tell_choice(source: &str, problems: &[Problem]) {
    for problem in problems.iter().filter(|problem| problem.kind.is_choice()) {
        let advice = words::problem(&problem.kind);
        let word = match problem.kind.severity() {
            Severity::Note => "note",
            _ => "warning",
        };
        anstream::eprintln!("{word}: {source}: {}\nhint: {}", advice.message, advice.hint);
    }
}

/// Reads every tune of every source in order, and hands it on. Sources that give no more are told
/// on the way. `true` where something could not be read.
pub(crate) fn each(
    files: &[PathBuf],
    options: &ReadOptions,
    mut then: impl FnMut(Read) -> Result<(), Failure>,
) -> Result<bool, Failure> {
    let (sources, bytes) = input::sources(files)?;
    let progress = Progress::new(bytes, false);
    let mut unread = false;
    for piece in input::pieces(&sources, &progress) {
        let Some(found) = one(piece, options) else {
            unread = true;
            continue;
        };
        unread |= is_unread(&found.reading.problems);
        then(found)?;
    }
    Ok(unread)
}

/// Reads one tune of one source, by its place from 1.
pub(crate) fn nth(
    file: Option<&PathBuf>,
    place: usize,
    options: &ReadOptions,
) -> Result<(Read, bool), Failure> {
    let files: Vec<PathBuf> = file.cloned().into_iter().collect();
    let (sources, bytes) = input::sources(&files)?;
    let progress = Progress::new(bytes, false);
    let mut count = 0;
    for piece in input::pieces(&sources, &progress) {
        if let Err(error) = &piece.text {
            let path = piece.source.as_ref().into();
            return Err(Failure::Content { path, advice: words::source_error(error) });
        }
        count += 1;
        if count == place
            && let Some(found) = one(piece, options)
        {
            let unread = is_unread(&found.reading.problems);
            return Ok((found, unread));
        }
    }
    let name = match sources.first() {
        Some(Source::File(path)) => path.display().to_string(),
        Some(Source::Demo) => "demo".to_owned(),
        _ => "-".to_owned(),
    };
    Err(Failure::NoSuchTune { name, place, count })
}

fn one(piece: Piece, options: &ReadOptions) -> Option<Read> {
    match piece.text {
        Ok(text) => Some(Read { source: piece.source, reading: read(&text, options) }),
        Err(error) => {
            input::tell(&piece.source, &words::source_error(&error));
            None
        }
    }
}

/// Whether some of a tune could not be read.
pub(crate) fn is_unread(problems: &[Problem]) -> bool {
    problems.iter().any(|problem| problem.kind.severity() == Severity::Error)
}

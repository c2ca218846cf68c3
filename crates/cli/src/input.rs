//! Where tunes come from: files, folders, standard input, the demo.

use crate::{failure::Failure, progress::Progress, tunes};
use modewright_formats::source::{Kind, SourceError, TuneText, Tunes, decode, split};
use modewright_formats::{ProblemKind, ReadOptions, Severity, abc, read};
use modewright_lesson::words::Advice;
use std::{
    fs::File,
    io::{self, BufReader, Read},
    path::{Path, PathBuf},
    sync::Arc,
};

/// One source of tunes.
#[derive(Debug)]
pub(crate) enum Source {
    /// Standard input.
    Standard,
    /// A file.
    File(PathBuf),
    /// The demo tune.
    Demo,
}

/// What follows the answer for the demo tune.
pub(crate) const DEMO: &str = "
  This tune is invented. Name a file to ask about yours, or - to paste one.
";

/// Files in a folder that are taken for tunes.
const ENDINGS: [&str; 7] = ["abc", "txt", "musicxml", "xml", "mxl", "mid", "midi"];

/// The sources that the arguments name, with their size in bytes where it is known. Every name
/// is checked here, before anything is printed.
pub(crate) fn sources(files: &[PathBuf]) -> Result<(Vec<Source>, u64), Failure> {
    if files.is_empty() {
        return Ok((vec![Source::Demo], 0));
    }
    let mut sources = Vec::new();
    let mut bytes = 0;
    for path in files {
        if path.as_os_str() == "-" {
            sources.push(Source::Standard);
            continue;
        }
        let fail = |error| Failure::File { path: path.clone(), error };
        let about = std::fs::metadata(path).map_err(fail)?;
        if about.is_dir() {
            let found = folder(path)?;
            bytes += found.iter().map(|(_, size)| size).sum::<u64>();
            sources.extend(found.into_iter().map(|(path, _)| Source::File(path)));
        } else {
            File::open(path).map_err(fail)?;
            bytes += about.len();
            sources.push(Source::File(path.clone()));
        }
    }
    Ok((sources, bytes))
}

/// The tune files of a folder and all folders in it, in the order of their names.
fn folder(path: &Path) -> Result<Vec<(PathBuf, u64)>, Failure> {
    let mut found = Vec::new();
    for entry in walkdir::WalkDir::new(path).sort_by_file_name() {
        let entry = entry.map_err(|e| Failure::File {
            path: e.path().unwrap_or(path).to_path_buf(),
            error: e.into_io_error().unwrap_or_else(|| io::Error::other("it loops")),
        })?;
        let ending = entry.path().extension().and_then(|e| e.to_str()).unwrap_or_default();
        let is_tune = ENDINGS.iter().any(|e| ending.eq_ignore_ascii_case(e));
        if entry.file_type().is_file() && is_tune {
            let size = entry.metadata().map_or(0, |about| about.len());
            found.push((entry.into_path(), size));
        }
    }
    if found.is_empty() {
        return Err(Failure::NoTunes { path: path.to_path_buf() });
    }
    Ok(found)
}

/// A tune's text with the name of its source, or why a source gives no more.
pub(crate) struct Piece {
    /// The name of the source.
    pub source: Arc<str>,
    /// The text.
    pub text: Result<TuneText, SourceError>,
}

/// All tunes of all sources, in order; a source without a tune gives the reason.
pub(crate) fn pieces<'a>(
    sources: &'a [Source],
    progress: &'a Progress,
) -> impl Iterator<Item = Piece> + 'a {
    sources.iter().flat_map(move |source| {
        let name: Arc<str> = match source {
            Source::Standard => Arc::from("-"),
            Source::File(path) => Arc::from(path.to_string_lossy()),
            Source::Demo => Arc::from("demo"),
        };
        let texts: Box<dyn Iterator<Item = Result<TuneText, SourceError>>> = match source {
            Source::Standard => Box::new(Tunes::new(io::stdin().lock())),
            Source::Demo => Box::new(split(modewright_lesson::demo::first().abc).map(Ok)),
            Source::File(path) => match File::open(path) {
                Ok(file) => Box::new(Tunes::new(BufReader::new(Counted { file, progress }))),
                Err(error) => Box::new(std::iter::once(Err(SourceError::Io(error)))),
            },
        };
        let mut texts = texts.peekable();
        let nothing = texts
            .peek()
            .is_none()
            .then_some(Err(SourceError::Refused { kind: ProblemKind::NoNotes, line: 1 }));
        texts.chain(nothing).map(move |text| Piece { source: Arc::clone(&name), text })
    })
}

/// The most bytes of a file that is kept whole.
const MOST_BYTES: u64 = 64 << 20;

/// A whole file, or all of standard input where the name is `-`; no more than is allowed is ever
/// read.
pub(crate) fn whole(path: &Path) -> Result<Vec<u8>, Failure> {
    let fail = |error| Failure::File { path: path.to_path_buf(), error };
    let mut bytes = Vec::new();
    let room = MOST_BYTES + 1;
    let read = if path.as_os_str() == "-" {
        io::stdin().lock().take(room).read_to_end(&mut bytes)
    } else {
        File::open(path).and_then(|file| file.take(room).read_to_end(&mut bytes))
    };
    read.map_err(fail)?;
    if bytes.len() as u64 > MOST_BYTES {
        let advice = modewright_lesson::words::file_too_large(MOST_BYTES);
        return Err(Failure::Content { path: path.to_path_buf(), advice });
    }
    Ok(bytes)
}

/// The text of a whole file, or of standard input where the name is `-`, and what is still to be
/// said of it when it is read: of a score or a MIDI file the melody is chosen here.
pub(crate) fn text(path: &Path, options: ReadOptions) -> Result<(String, ReadOptions), Failure> {
    let bytes = whole(path)?;
    // A score or a MIDI file has no text to keep: it becomes ABC.
    if let Some(Ok(tune)) = Tunes::new(bytes.as_slice()).next()
        && matches!(tune.kind, Kind::MusicXml | Kind::Midi)
    {
        let reading = read(&tune, &options);
        tunes::tell_choice(&path.to_string_lossy(), &reading.problems);
        for problem in reading.problems.iter().filter(|p| p.kind.severity() == Severity::Error) {
            let advice = modewright_lesson::words::problem(&problem.kind);
            if reading.tune.events.is_empty() {
                return Err(Failure::Content { path: path.to_path_buf(), advice });
            }
            tell(&path.to_string_lossy(), &advice);
        }
        return Ok((abc::write(&reading.tune), ReadOptions::default()));
    }
    let decoded = decode(&bytes).map_err(|kind| {
        let advice = modewright_lesson::words::problem(&kind);
        Failure::Content { path: path.to_path_buf(), advice }
    })?;
    // The mark at the beginning of a UTF-8 file is a part of it.
    let mark = if bytes.starts_with(b"\xef\xbb\xbf") { "\u{feff}" } else { "" };
    Ok((format!("{mark}{}", decoded.text), options))
}

/// Says why a source gives no more.
pub(crate) fn tell(source: &str, advice: &Advice) {
    anstream::eprintln!("error: {source}: {}", advice.message);
    if !advice.hint.is_empty() {
        anstream::eprintln!("hint: {}", advice.hint);
    }
}

/// A file that tells the progress how much of it was read.
struct Counted<'a> {
    file: File,
    progress: &'a Progress,
}

impl Read for Counted<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let count = self.file.read(buffer)?;
        self.progress.add_bytes(count);
        Ok(count)
    }
}

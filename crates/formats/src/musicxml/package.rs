//! Compressed MusicXML: a zip archive with a container file that names the score.

use super::MusicXmlProblem as P;
use super::score::elements;
use crate::ProblemKind;
use roxmltree::Document;
use std::io::{Cursor, Read, Write};
use zip::{CompressionMethod, ZipArchive, ZipWriter, write::SimpleFileOptions};

/// The most bytes that a score may unpack to: 32 MiB.
pub const MAX_UNPACKED: u64 = crate::limits::SCORE_BYTES;
/// The most bytes of the container file.
const MAX_CONTAINER: u64 = 1 << 20;
/// The place of the container file (MusicXML 4.0, "Compressed .mxl files").
const CONTAINER: &str = "META-INF/container.xml";
/// The media type of compressed MusicXML.
const MIME: &str = "application/vnd.recordare.musicxml";
/// The media type of a score in it.
const SCORE_MIME: &str = "application/vnd.recordare.musicxml+xml";

/// The bytes of the score in a compressed file: the one that its container names, or else the
/// first XML file in it.
///
/// # Errors
///
/// [`MusicXmlProblem::BadPackage`](P::BadPackage), [`EmptyPackage`](P::EmptyPackage), or
/// [`TooLarge`](P::TooLarge) for a score that unpacks to more than [`MAX_UNPACKED`] bytes; no more
/// than those are ever unpacked.
pub fn unpack(bytes: &[u8]) -> Result<Vec<u8>, ProblemKind> {
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(|_| P::BadPackage)?;
    let named = match take(&mut archive, CONTAINER, MAX_CONTAINER) {
        Ok(container) => rootfile(&container),
        Err(_) => None,
    };
    let first = || {
        let mut names = archive.file_names().flatten().map(|name| {
            let lower = name.to_ascii_lowercase();
            (name, lower)
        });
        let score = names.find(|(_, lower)| {
            !lower.starts_with("meta-inf/")
                && (lower.ends_with(".xml") || lower.ends_with(".musicxml"))
        });
        score.map(|(name, _)| name.to_string())
    };
    let name = named.or_else(first).ok_or(P::EmptyPackage)?;
    take(&mut archive, &name, MAX_UNPACKED)
}

/// Unpacks one file of an archive, up to a limit.
fn take(
    archive: &mut ZipArchive<Cursor<&[u8]>>,
    name: &str,
    limit: u64,
) -> Result<Vec<u8>, ProblemKind> {
    let file = archive.by_name(name).map_err(|_| P::EmptyPackage)?;
    let mut out = Vec::new();
    // What the archive says of the size is not believed.
    file.take(limit + 1).read_to_end(&mut out).map_err(|_| P::BadPackage)?;
    if out.len() as u64 > limit {
        return Err(P::TooLarge { limit }.into());
    }
    Ok(out)
}

/// The score that a container names first.
fn rootfile(container: &[u8]) -> Option<String> {
    let text = std::str::from_utf8(container).ok()?;
    let document = Document::parse(text).ok()?;
    let files = elements(document.root_element()).find(|n| n.tag_name().name() == "rootfiles")?;
    let mut roots = elements(files).filter(|n| {
        let kind = n.attribute("media-type");
        n.tag_name().name() == "rootfile" && kind.is_none_or(|kind| kind == SCORE_MIME)
    });
    let path = roots.next()?.attribute("full-path")?;
    Some(path.to_owned())
}

/// A score as a compressed file.
///
/// The same score gives the same bytes: no clock is asked.
///
/// # Examples
///
/// ```
/// use modewright_formats::musicxml::{pack, unpack};
///
/// let score = "<score-partwise version=\"4.0\"/>";
/// assert_eq!(unpack(&pack(score)).unwrap(), score.as_bytes());
/// // A zip archive without a score is none of ours.
/// assert_eq!(unpack(b"PK\x03\x04").unwrap_err().code(), "mxl-not-readable");
/// ```
#[must_use]
pub fn pack(score: &str) -> Vec<u8> {
    let container = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<container>\n  <rootfiles>\n    \
         <rootfile full-path=\"score.musicxml\" media-type=\"{SCORE_MIME}\"/>\n  </rootfiles>\n\
         </container>\n"
    );
    let stored = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    let packed = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    // The media type comes first and is not compressed, so that it can be seen from outside.
    for (name, text, options) in [
        ("mimetype", MIME, stored),
        (CONTAINER, container.as_str(), packed),
        ("score.musicxml", score, packed),
    ] {
        // Writing to memory does not fail.
        let _ = writer.start_file(name, options);
        let _ = writer.write_all(text.as_bytes());
    }
    writer.finish().map(Cursor::into_inner).unwrap_or_default()
}

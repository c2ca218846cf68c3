//! Files that are no text, or text of another trade.

use crate::ProblemKind;

/// How files of other types begin, and what to call them.
///
/// These are the published signatures of the Standard
/// MIDI File, PKZIP, PDF, PNG, JPEG, GIF, RIFF, Ogg, FLAC, ID3, gzip and RTF (from memory).
const SIGNATURES: [(&[u8], &str); 19] = [
    (b"mthd", "a MIDI file"),
    (b"pk\x03\x04", "a zip file, perhaps compressed MusicXML"),
    (b"<?xml", "an XML file, perhaps MusicXML"),
    (b"<score-partwise", "MusicXML"),
    (b"<score-timewise", "MusicXML"),
    (b"<!doctype score", "MusicXML"),
    (b"<!doctype html", "a web page"),
    (b"<html", "a web page"),
    (b"<svg", "a picture"),
    (b"%pdf-", "a PDF file"),
    (b"{\\rtf", "a word processor's RTF file"),
    (b"\x89png", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"gif8", "a picture"),
    (b"riff", "a sound file"),
    (b"oggs", "a sound file"),
    (b"flac", "a sound file"),
    (b"id3", "a sound file"),
    (b"\x1f\x8b", "a gzip file"),
];

/// What a file seems to be, from its beginning; `None` for what may be a tune.
pub(super) fn other_type(start: &[u8]) -> Option<&'static str> {
    let start = start.trim_ascii_start();
    let begins = |signature: &[u8]| {
        start.get(..signature.len()).is_some_and(|s| s.eq_ignore_ascii_case(signature))
    };
    let (signature, seems) = SIGNATURES.iter().find(|(signature, _)| begins(signature))?;
    // Signatures of plain letters count only where something follows that no message has.
    let plain = signature.iter().all(u8::is_ascii_alphanumeric);
    let binary = start.iter().take(64).any(|b| !(9..=126).contains(b));
    (!plain || binary).then_some(seems)
}

/// Refuses bytes that are no tune text.
pub(super) fn refuse(bytes: &[u8]) -> Option<ProblemKind> {
    if let Some(seems) = other_type(bytes) {
        return Some(ProblemKind::OtherFileType { seems });
    }
    bytes.contains(&0).then_some(ProblemKind::NotText)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn other_types_are_named_and_tunes_are_not() {
        for (start, seems) in [
            (&b"MThd\0\0\0\x06"[..], Some("a MIDI file")),
            (b"PK\x03\x04\x14", Some("a zip file, perhaps compressed MusicXML")),
            (b"<?xml version=\"1.0\"?>", Some("an XML file, perhaps MusicXML")),
            (b"\n  <!DOCTYPE HTML>", Some("a web page")),
            (b"<HTML>", Some("a web page")),
            (b"<svg xmlns=\"http://www.w3.org/2000/svg\">", Some("a picture")),
            (b"%PDF-1.7", Some("a PDF file")),
            (b"RIFF\x24\0\0\0WAVE", Some("a sound file")),
            (b"\x89PNG\r\n\x1a\n", Some("a picture")),
            (b"X:1\nK:D\n", None),
            (b"%abc-2.1", None),
            (b"PK the piper's jig: D E F", None),
            (b"Flac Brae\nD E F", None),
            (b"Riff in D: D E F", None),
            (b"", None),
        ] {
            assert_eq!(other_type(start), seems, "{:?}", String::from_utf8_lossy(start));
        }
    }

    #[test]
    fn zero_bytes_are_no_text() {
        assert_eq!(refuse(b"D E\0F"), Some(ProblemKind::NotText));
        assert_eq!(refuse(b"D E F"), None);
    }
}

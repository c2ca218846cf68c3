//! From bytes to characters.

use crate::ProblemKind;
use std::borrow::Cow;

use super::file_type;

/// Text and how it was encoded.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Decoded<'a> {
    /// The text, without byte order mark.
    pub text: Cow<'a, str>,
    /// Whether the bytes were no UTF-8 and were read as Latin-1: worth a note to the user.
    pub latin1: bool,
}

/// Makes text of the bytes of a whole file: UTF-8, UTF-16 with a byte order mark, or else
/// Latin-1.
///
/// # Examples
///
/// ```
/// use modewright_formats::source::decode;
///
/// assert_eq!(decode("\u{feff}X:1".as_bytes()).unwrap().text, "X:1");
/// // Old books are often in Latin-1.
/// let old = decode(b"T:Caf\xe9 waltz").unwrap();
/// assert_eq!((&*old.text, old.latin1), ("T:Café waltz", true));
/// assert_eq!(decode(b"MThd\0\0\0\x06").unwrap_err().code(), "other-file-type");
/// ```
///
/// # Errors
///
/// [`ProblemKind::OtherFileType`] for files that are known not to be tune text, and
/// [`ProblemKind::NotText`] for bytes with zeros in them.
pub fn decode(bytes: &[u8]) -> Result<Decoded<'_>, ProblemKind> {
    if let Some((big, rest)) = utf16_mark(bytes) {
        let units = rest.chunks(2).map(|pair| unit(pair, big));
        let text: String =
            char::decode_utf16(units).map(|c| c.unwrap_or(char::REPLACEMENT_CHARACTER)).collect();
        return match file_type::refuse(text.as_bytes()) {
            Some(kind) => Err(kind),
            None => Ok(Decoded { text: Cow::Owned(text), latin1: false }),
        };
    }
    let bytes = bytes.strip_prefix(UTF8_MARK).unwrap_or(bytes);
    if let Some(kind) = file_type::refuse(bytes) {
        return Err(kind);
    }
    Ok(match std::str::from_utf8(bytes) {
        Ok(text) => Decoded { text: Cow::Borrowed(text), latin1: false },
        Err(_) => Decoded { text: Cow::Owned(latin1(bytes)), latin1: true },
    })
}

/// The byte order mark of UTF-8.
pub(super) const UTF8_MARK: &[u8] = b"\xef\xbb\xbf";

/// Whether bytes begin with a UTF-16 mark: whether it is big-endian, and what follows it.
pub(super) fn utf16_mark(bytes: &[u8]) -> Option<(bool, &[u8])> {
    match bytes {
        [0xfe, 0xff, rest @ ..] => Some((true, rest)),
        [0xff, 0xfe, rest @ ..] => Some((false, rest)),
        _ => None,
    }
}

/// The UTF-16 unit of two bytes; half a unit at the end of a file is a replacement character.
pub(super) fn unit(pair: &[u8], big: bool) -> u16 {
    match *pair {
        [a, b] if big => u16::from_be_bytes([a, b]),
        [a, b] => u16::from_le_bytes([a, b]),
        _ => 0xfffd,
    }
}

/// Every byte is the character of its number.
pub(super) fn latin1(bytes: &[u8]) -> String {
    bytes.iter().map(|&b| char::from(b)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn encodings() {
        let utf16_le = b"\xff\xfeF\0o\x26\n\0";
        let utf16_be = b"\xfe\xff\0F\x26\x6f\0\n";
        for (bytes, text, latin1) in [
            (&b"F# G"[..], "F# G", false),
            ("F♯ G".as_bytes(), "F♯ G", false),
            (b"\xef\xbb\xbfF", "F", false),
            (b"\xe9\xa0", "é\u{a0}", true),
            (utf16_le, "F♯\n", false),
            (utf16_be, "F♯\n", false),
            (b"\xff\xfeF\0G", "F\u{fffd}", false),
            (b"", "", false),
        ] {
            let got = decode(bytes).unwrap();
            assert_eq!((&*got.text, got.latin1), (text, latin1));
        }
        assert_eq!(decode(b"a\0b"), Err(ProblemKind::NotText));
        assert_eq!(decode(b"\xff\xfeF\0\0\0"), Err(ProblemKind::NotText));
    }

    proptest! {
        #[test]
        fn any_bytes_are_text_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
            let _ = decode(&bytes);
        }

        #[test]
        fn utf8_is_kept(text in "[^\0\u{feff}]*") {
            if let Ok(got) = decode(text.as_bytes()) {
                prop_assert_eq!(got, Decoded { text: Cow::Borrowed(&text), latin1: false });
            }
        }
    }
}

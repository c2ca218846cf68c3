//! New text for the tunes of a book, with all that stands between them kept.

use super::{TuneText, split};

/// The text of a book with tunes replaced; a tune for which there is no new text stays.
///
/// The file header, words between tunes, empty lines and line ends stay byte for byte.
///
/// # Examples
///
/// ```
/// use modewright_formats::source::replace;
///
/// let book = "M:6/8\n\nX:1\nK:D\nABA|\n\nSome words.\n\nX:2\nK:G\nGAB|";
/// let new = replace(book, |tune| tune.text.contains("X:2").then(|| "X:2\nK:A\nABc|".into()));
/// assert_eq!(new, "M:6/8\n\nX:1\nK:D\nABA|\n\nSome words.\n\nX:2\nK:A\nABc|");
/// // Where nothing is new, nothing changes.
/// assert_eq!(replace(book, |_| None), book);
/// ```
#[must_use]
pub fn replace(text: &str, mut new: impl FnMut(&TuneText) -> Option<String>) -> String {
    let mut out = String::with_capacity(text.len());
    // A byte order mark is no part of the first tune.
    let text = match text.strip_prefix('\u{feff}') {
        Some(rest) => {
            out.push('\u{feff}');
            rest
        }
        None => text,
    };
    let (mut kept, mut at, mut line) = (0, 0, 1);
    for tune in split(text) {
        while line < tune.first_line
            && let Some(next) = next_line(text, at)
        {
            at = next;
            line += 1;
        }
        // A tune is a piece of the text as it stands.
        let is_here = text.get(at..).is_some_and(|rest| rest.starts_with(tune.text.as_str()));
        if is_here && let Some(new) = new(&tune) {
            out.push_str(text.get(kept..at).unwrap_or_default());
            out.push_str(&new);
            kept = at + tune.text.len();
        }
    }
    out.push_str(text.get(kept..).unwrap_or_default());
    out
}

/// Where the line after a place begins; lines end in LF, CRLF or CR.
fn next_line(text: &str, at: usize) -> Option<usize> {
    let rest = text.get(at..)?;
    let end = rest.find(['\n', '\r'])?;
    let crlf = rest.get(end..).is_some_and(|rest| rest.starts_with("\r\n"));
    Some(at + end + 1 + usize::from(crlf))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_tune_is_found_where_it_stands() {
        for end in ["\n", "\r\n", "\r"] {
            let book =
                ["%abc-2.1", "", "", "X:1", "K:D", "é|", "", "words", "", "X:2", "K:G", "G|"];
            let book = book.join(end);
            let mut count = 0;
            let upper = replace(&book, |tune| {
                count += 1;
                Some(tune.text.to_uppercase())
            });
            assert_eq!((count, upper), (2, book.replace('é', "É")), "{end:?}");
            assert_eq!(replace(&book, |tune| Some(tune.text.clone())), book);
        }
        let marked = replace("\u{feff}X:1\nK:D\nD|\n", |_| Some("new\n".into()));
        assert_eq!(marked, "\u{feff}new\n");
        assert_eq!(replace("", |_| Some(String::new())), "");
        assert_eq!(replace("D E F", |_| Some("X".into())), "X");
    }
}

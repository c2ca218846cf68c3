//! Tests of splitting: books as the standard has them, and as people type them.

use super::{Kind, Splitter, TuneText, split};
use proptest::prelude::*;
use std::io::BufReader;

/// Text, then for each tune its first line, its text, its kind and its defaults.
type Row = (&'static str, &'static [(u32, &'static str, Kind, &'static str)]);

#[test]
fn tidy_and_untidy_books() {
    const A: Kind = Kind::Abc;
    const L: Kind = Kind::Letters;
    let table: &[Row] = &[
        ("", &[]),
        (" \n\t\n", &[]),
        ("X:1\nK:D\nABc|", &[(1, "X:1\nK:D\nABc|", A, "")]),
        // No empty line between tunes.
        (
            "X:1\nK:D\nA|\nX:2\nK:G\nB|\n",
            &[(1, "X:1\nK:D\nA|\n", A, ""), (4, "X:2\nK:G\nB|\n", A, "")],
        ),
        // A file header; free text between; line ends of all kinds.
        (
            "%abc-2.1\r\nM:6/8\r\n%%scale 1\r\n\r\nX:1\r\nK:D\r\nA|\r\n\r\nWords.\r\n\r\nX:2\r\nK:G\r\n",
            &[
                (5, "X:1\r\nK:D\r\nA|\r\n", A, "%abc-2.1\nM:6/8\n%%scale 1\n"),
                (11, "X:2\r\nK:G\r\n", A, "%abc-2.1\nM:6/8\n%%scale 1\n"),
            ],
        ),
        ("X:1\rK:D\rA|\r\rX:2\rK:G\r", &[(1, "X:1\rK:D\rA|\r", A, ""), (5, "X:2\rK:G\r", A, "")]),
        // Words before the first tune are no header.
        ("Hello.\n\nX:1\nK:D\n", &[(3, "X:1\nK:D\n", A, "")]),
        // Bars after an empty line go on, words do not, and after words nothing does.
        ("X:1\nK:D\nAB|\n\ncd|\n\nWords.\n\nef|\n", &[(1, "X:1\nK:D\nAB|\n\ncd|\n", A, "")]),
        // So do a part and the words of a song; a line with a colon does not.
        (
            "X:1\nK:D\nAB|\n\nP:B\ncd|\n\nW:Row home\n\nSee: page 4\n",
            &[(1, "X:1\nK:D\nAB|\n\nP:B\ncd|\n\nW:Row home\n", A, "")],
        ),
        ("X:1\nK:D\nAB|\n\nA: an answer\n", &[(1, "X:1\nK:D\nAB|\n", A, "")]),
        // Empty lines after every line.
        ("X:1\n\nT:Low Tide\n\nK:D\n\nAB|\n", &[(1, "X:1\n\nT:Low Tide\n\nK:D\n\nAB|\n", A, "")]),
        // Comments alone neither end a tune nor belong to it, unless it goes on.
        ("X:1\nK:D\nAB|\n\n% end\n\nX:2\n", &[(1, "X:1\nK:D\nAB|\n", A, ""), (7, "X:2\n", A, "")]),
        (
            "X:1\nK:D\nAB|\n\n% part two\n\ncd|\n",
            &[(1, "X:1\nK:D\nAB|\n\n% part two\n\ncd|\n", A, "")],
        ),
        // A tune that lost its number.
        (
            "X:1\nK:D\nAB|\n\nT:Ebb\nK:G\ncd|\n",
            &[(1, "X:1\nK:D\nAB|\n", A, ""), (5, "T:Ebb\nK:G\ncd|\n", A, "")],
        ),
        (
            "T:Ebb\nK:G\ncd|\n\nX:1\nK:D\n",
            &[(1, "T:Ebb\nK:G\ncd|\n", A, ""), (5, "X:1\nK:D\n", A, "")],
        ),
        // Typeset text may have empty lines.
        (
            "X:1\nK:D\nA|\n%%begintext\n\nX and Y\n%%endtext\nB|\n",
            &[(1, "X:1\nK:D\nA|\n%%begintext\n\nX and Y\n%%endtext\nB|\n", A, "")],
        ),
        // Without any number the whole text is one.
        ("\n\nT:Ebb\nK:G\ncd|\n\nef|\n", &[(3, "T:Ebb\nK:G\ncd|\n\nef|\n", A, "")]),
        (
            "Hello, my tune:\n\nD E F#\n\nG A B\n\n",
            &[(1, "Hello, my tune:\n\nD E F#\n\nG A B\n", L, "")],
        ),
    ];
    for (text, wanted) in table {
        let got: Vec<TuneText> = split(text).collect();
        let got: Vec<_> =
            got.iter().map(|t| (t.first_line, t.text.as_str(), t.kind, &*t.defaults)).collect();
        assert_eq!(got, *wanted, "{text:?}");
    }
}

fn streamed(bytes: &[u8], buffer: usize) -> Vec<TuneText> {
    let reader = BufReader::with_capacity(buffer, bytes);
    Splitter::new(reader).map_while(Result::ok).collect()
}

#[test]
fn a_tune_that_is_too_long_is_cut_and_the_next_one_read() {
    let long = "ABcd|\n".repeat(TuneText::MAX_BYTES / 6 + 10);
    let one_line = long.replace('\n', " ");
    for body in [&long, &one_line] {
        let book = format!("X:1\nK:D\n{body}\nmore|\n\nX:2\nK:G\nGAB|\n");
        let tunes: Vec<TuneText> = split(&book).collect();
        assert_eq!(tunes.len(), 2);
        assert_eq!(tunes[0].problems[0].kind.code(), "tune-too-long");
        assert_eq!(tunes[0].text.len(), TuneText::MAX_BYTES);
        assert_eq!(tunes[1].text, "X:2\nK:G\nGAB|\n");
        assert_eq!(streamed(book.as_bytes(), 8192), tunes);
    }
    // A text without tunes, in one block and in many.
    for text in [one_line, long.replace('|', "|\n")] {
        let whole: Vec<TuneText> = split(&text).collect();
        assert_eq!(whole[0].problems[0].kind.code(), "tune-too-long");
        assert!(whole.iter().all(|t| t.text.len() <= TuneText::MAX_BYTES));
    }
}

#[test]
fn each_tune_has_its_own_encoding() {
    let tunes = streamed(b"X:1\nT:\xe9bb\nK:D\n\nX:2\nT:\xc3\xa9bb\nK:D\n", 4);
    assert!(tunes.iter().all(|t| t.text.contains("T:ébb")));
    let note = &tunes[0].problems[0];
    assert_eq!((note.kind.code(), note.line, note.column), ("latin-1", 2, 3));
    assert!(tunes[1].problems.is_empty());
}

#[test]
fn a_zero_byte_ends_a_stream() {
    let bytes = b"X:1\nK:D\n\nX:2\nK:\0\n\nX:3\n";
    let results: Vec<_> = Splitter::new(&bytes[..]).collect();
    assert_eq!(results.len(), 1);
    assert_eq!(results[0].as_ref().unwrap_err().code(), "not-text");
}

/// Lines that books are made of, in any order and with any ends.
fn book() -> impl Strategy<Value = String> {
    let line = prop::sample::select(vec![
        "X:1",
        "X:2",
        "T:Ebb",
        "K:D",
        "M:3/4",
        "ABc|",
        "d e",
        "Words here",
        "% c",
        "%%text a",
        "%%begintext",
        "%%endtext",
        "",
        " ",
        "w:la",
        "P:B",
        "é♯",
        "A:",
        "||",
        "+:x",
    ]);
    let end = prop::sample::select(vec!["\n", "\r\n", "\r", "\n\n"]);
    prop::collection::vec((line, end), 0..24)
        .prop_map(|lines| lines.into_iter().map(|(l, e)| l.to_owned() + e).collect())
}

proptest! {
    #[test]
    fn streams_split_as_texts_do(text in book(), buffer in 1..40_usize) {
        let whole: Vec<TuneText> = split(&text).collect();
        prop_assert_eq!(streamed(text.as_bytes(), buffer), whole.clone());
        for tune in &whole {
            // Each stands in the file, at the line that it says.
            let (lf, line) = (text.replace("\r\n", "\n").replace('\r', "\n"), tune.first_line);
            let own = tune.text.replace("\r\n", "\n").replace('\r', "\n");
            let rest: String =
                lf.split_inclusive('\n').skip(line as usize - 1).collect();
            prop_assert!(rest.starts_with(&own), "{rest:?} {own:?}");
        }
        let numbers = text.split(['\n', '\r']).filter(|l| l.starts_with("X:")).count();
        let found: usize = whole.iter().filter(|t| t.text.starts_with("X:")).count();
        prop_assert_eq!(numbers, found);
    }

    #[test]
    fn no_bytes_panic(bytes in prop::collection::vec(any::<u8>(), 0..300), buffer in 1..40_usize) {
        let _ = Splitter::new(BufReader::with_capacity(buffer, &bytes[..])).count();
        let _ = split(&String::from_utf8_lossy(&bytes)).count();
    }
}

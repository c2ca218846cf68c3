//! A file with many tunes, as a list to choose from.

use modewright_formats::source::{Kind, TuneText, split};

/// A tune in a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Its number in the book, as written.
    pub number: Option<String>,
    /// Its title; empty where it has none.
    pub title: String,
    /// What a search looks in: number, title and further titles in small letters.
    pub searched: String,
}

/// A file with more than one tune.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Book {
    /// The file's name.
    pub name: String,
    /// Its tunes.
    pub tunes: Vec<TuneText>,
    /// What the list shows of each.
    pub entries: Vec<Entry>,
}

impl Book {
    /// The tunes of a text.
    #[must_use]
    pub fn of(name: &str, text: &str) -> Self {
        let tunes: Vec<TuneText> = split(text).collect();
        let entries = tunes.iter().map(entry).collect();
        Self { name: name.to_owned(), tunes, entries }
    }

    /// The places of the tunes that hold every word of a search.
    #[must_use]
    pub fn search(&self, search: &str) -> Vec<usize> {
        let search = search.to_ascii_lowercase();
        let words: Vec<&str> = search.split_whitespace().collect();
        let fits = |entry: &Entry| words.iter().all(|word| entry.searched.contains(word));
        self.entries.iter().enumerate().filter(|(_, e)| fits(e)).map(|(i, _)| i).collect()
    }
}

/// What the head of a tune calls it.
fn entry(tune: &TuneText) -> Entry {
    let mut number = None;
    let mut titles: Vec<&str> = Vec::new();
    if tune.kind == Kind::Abc {
        for line in tune.text.lines() {
            match line.split_once(':') {
                Some(("X", rest)) if number.is_none() => number = Some(rest.trim().to_owned()),
                Some(("T", rest)) => titles.push(rest.trim()),
                Some(("K", _)) => break,
                _ => {}
            }
        }
    }
    let title = titles.first().copied().unwrap_or_default().to_owned();
    let mut searched = titles.join(" ");
    if let Some(number) = &number {
        searched = format!("{number} {searched}");
    }
    Entry { number, title, searched: searched.to_ascii_lowercase() }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOOK: &str = "X:1\nT:Ebb\nT:The Second Name\nK:D\nDEF|\n\nX:7\nT:Flood <b>tide</b>\nK:G\nGAB|\n\nX:12\nK:C\nC|\n";

    #[test]
    fn a_book_lists_its_tunes_with_number_and_title() {
        let book = Book::of("quay.abc", BOOK);
        let titles: Vec<&str> = book.entries.iter().map(|e| e.title.as_str()).collect();
        assert_eq!(titles, ["Ebb", "Flood <b>tide</b>", ""]);
        assert_eq!(book.entries[1].number.as_deref(), Some("7"));
    }

    #[test]
    fn a_search_finds_all_its_words_in_any_title_and_the_number() {
        let book = Book::of("quay.abc", BOOK);
        assert_eq!(book.search(""), [0, 1, 2]);
        assert_eq!(book.search("second EBB"), [0]);
        assert_eq!(book.search("12"), [2]);
        assert_eq!(book.search("nowhere"), Vec::<usize>::new());
    }
}

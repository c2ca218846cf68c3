//! Words about the piece: titles, names, rights.

use super::score::{child, elements, said, text};
use modewright_core::tune::Header;
use roxmltree::Node;

/// How the name of a field begins that only ABC has.
pub(super) const ABC_FIELD: &str = "abc-";
/// The name of the field with the order of parts.
pub(super) const PARTS: &str = "parts";

/// The header of a score, and the order of its parts where it states one.
pub(super) fn read<'a>(root: Node<'a, 'a>) -> (Header, Vec<String>) {
    let mut header = Header::default();
    let mut order = Vec::new();
    let work = child(root, "work");
    header.number = work.and_then(|w| text(w, "work-number")).map(str::to_owned);
    let titles = [work.and_then(|w| text(w, "work-title")), text(root, "movement-title")];
    for title in titles.into_iter().flatten() {
        if !header.titles.iter().any(|known| known == title) {
            header.titles.push(title.to_owned());
        }
    }
    for credit in elements(root).filter(|n| n.tag_name().name() == "credit") {
        let is_title = text(credit, "credit-type") == Some("title");
        let words = text(credit, "credit-words").filter(|_| is_title);
        if let Some(words) = words.filter(|_| header.titles.is_empty()) {
            header.titles.push(words.to_owned());
        }
    }
    for inner in child(root, "identification").into_iter().flat_map(elements) {
        let words = said(inner);
        match (inner.tag_name().name(), inner.attribute("type")) {
            ("miscellaneous", _) => {
                for field in elements(inner) {
                    let name = field.attribute("name").unwrap_or_default();
                    if name == PARTS {
                        order = said(field).chars().filter(char::is_ascii_uppercase).collect();
                    }
                    miscellaneous(&mut header, name, said(field));
                }
            }
            _ if words.is_empty() => {}
            ("creator", None | Some("composer")) => header.composer.push(words.to_owned()),
            ("creator", Some("transcriber")) => header.transcriber.push(words.to_owned()),
            ("creator", Some(role)) => header.other.push((role.to_owned(), words.to_owned())),
            ("rights", _) => header.other.push(("rights".to_owned(), words.to_owned())),
            ("source", _) => header.source.push(words.to_owned()),
            _ => {}
        }
    }
    (header, order.into_iter().map(|c: char| c.to_string()).collect())
}

fn miscellaneous(header: &mut Header, name: &str, words: &str) {
    if words.is_empty() {
        return;
    }
    let words = words.to_owned();
    match name {
        "title" => header.titles.push(words),
        "source" => header.source.push(words),
        "origin" => header.origin.push(words),
        "book" => header.book.push(words),
        "rhythm" => header.rhythm = Some(words),
        "notes" => header.notes.push(words),
        "words" => header.words.push(words),
        _ => {
            if let Some(letter) = name.strip_prefix(ABC_FIELD) {
                header.other.push((letter.to_owned(), words));
            }
        }
    }
}

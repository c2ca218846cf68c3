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
    header.number = work.and_then(|w| text(w, "work-number")).map(one_line);
    let titles = [work.and_then(|w| text(w, "work-title")), text(root, "movement-title")];
    for title in titles.into_iter().flatten() {
        let title = one_line(title);
        if !header.titles.contains(&title) {
            header.titles.push(title);
        }
    }
    for credit in elements(root).filter(|n| n.tag_name().name() == "credit") {
        let is_title = text(credit, "credit-type") == Some("title");
        let words = text(credit, "credit-words").filter(|_| is_title);
        if let Some(words) = words.filter(|_| header.titles.is_empty()) {
            header.titles.push(one_line(words));
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
            ("creator", None | Some("composer")) => header.composer.push(one_line(words)),
            ("creator", Some("transcriber")) => header.transcriber.push(one_line(words)),
            ("creator", Some(role)) => header.other.push((role.to_owned(), one_line(words))),
            ("rights", _) => header.other.push(("rights".to_owned(), one_line(words))),
            ("source", _) => header.source.push(one_line(words)),
            _ => {}
        }
    }
    (header, order.into_iter().map(|c: char| c.to_string()).collect())
}

fn miscellaneous(header: &mut Header, name: &str, words: &str) {
    if words.is_empty() {
        return;
    }
    let words = one_line(words);
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

/// Words without their breaks of lines, which are how the file is set and not what it says.
fn one_line(words: &str) -> String {
    let lines = words.lines().map(str::trim).filter(|line| !line.is_empty());
    lines.collect::<Vec<_>>().join(" ")
}

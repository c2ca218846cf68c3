//! `P:` in the header: the order in which parts are played.

use crate::ProblemKind;
use crate::report::{Report, excerpt};

/// The most parts that an order may unfold to.
const MOST_PARTS: usize = crate::limits::PLAY_ORDER_PARTS;
/// The deepest brackets within brackets.
const DEEPEST: usize = crate::limits::PLAY_ORDER_DEPTH;
/// The largest number of times.
const MOST_TIMES: usize = 999;

/// Unfolds an order of parts: `((AB)3.C)2`. Dots and blanks mean nothing; a part is a letter.
/// Words that are no order (`P:Reel`) give none.
pub(super) fn read_parts(text: &str, at: usize, report: &mut Report) -> Vec<String> {
    match unfold(text) {
        Some((mut order, whole)) => {
            if !whole {
                let kind = ProblemKind::PartsTooLong { limit: MOST_PARTS };
                report.add(at, at + text.len(), kind);
                order.truncate(MOST_PARTS);
            }
            order.into_iter().map(String::from).collect()
        }
        None => {
            let found = excerpt(text);
            report.add(at, at + text.len(), ProblemKind::PartsNotUnderstood { found });
            Vec::new()
        }
    }
}

/// The parts, and whether all of them are there; `None` where the text is no order.
fn unfold(text: &str) -> Option<(Vec<char>, bool)> {
    let mut order: Vec<char> = Vec::new();
    // Where each open bracket begins, and where the last letter or bracket does.
    let mut open: Vec<usize> = Vec::new();
    let mut last: Option<usize> = None;
    let mut whole = true;
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        rest = rest.get(c.len_utf8()..)?;
        match c {
            'A'..='Z' => {
                last = Some(order.len());
                order.push(c);
            }
            '(' if open.len() < DEEPEST => {
                open.push(order.len());
                last = None;
            }
            ')' => last = Some(open.pop()?),
            '0'..='9' => {
                let digits = rest.bytes().take_while(u8::is_ascii_digit).count();
                let mut times = c.to_digit(10)? as usize;
                for digit in rest.bytes().take(digits) {
                    times = (times * 10 + usize::from(digit - b'0')).min(MOST_TIMES);
                }
                rest = rest.get(digits..)?;
                let from = last.take()?;
                let group: Vec<char> = order.get(from..)?.to_vec();
                order.truncate(from);
                for _ in 0..times {
                    if order.len() + group.len() > MOST_PARTS {
                        whole = false;
                        break;
                    }
                    order.extend_from_slice(&group);
                }
            }
            '.' | ' ' | '\t' => {}
            _ => return None,
        }
        if order.len() > MOST_PARTS {
            return Some((order, false));
        }
    }
    open.is_empty().then_some((order, whole))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parts(text: &str) -> (String, usize) {
        let mut report = Report::default();
        let parts = read_parts(text, 0, &mut report).concat();
        (parts, report.len())
    }

    #[test]
    fn orders_unfold() {
        for (text, wanted) in [
            ("ABA", "ABA"),
            ("A3", "AAA"),
            ("(AB)3", "ABABAB"),
            ("((AB)3.(CD)3)2", "ABABABCDCDCDABABABCDCDCD"),
            ("A. B. A ", "ABA"),
            ("A0B", "B"),
            ("", ""),
        ] {
            assert_eq!(parts(text), (wanted.to_owned(), 0), "{text}");
        }
        for text in ["Reel", "(AB", "AB)", "3A", "A-B", "()3("] {
            assert_eq!(parts(text), (String::new(), 1), "{text}");
        }
    }

    #[test]
    fn there_is_an_end_to_parts() {
        for text in ["(((A999)999)999)999", "((((AB)9)9)9)99999999999", &"A".repeat(20_000)] {
            let (parts, problems) = parts(text);
            assert!(!parts.is_empty() && parts.len() <= MOST_PARTS, "{}", parts.len());
            assert_eq!(problems, 1);
        }
        assert_eq!(parts(&"(".repeat(5000)).1, 1);
    }
}

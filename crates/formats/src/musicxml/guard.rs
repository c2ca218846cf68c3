//! What an XML parser would take more than linear time for, found before it is asked.

/// The most attributes of a tag. The parser compares each with all others.
const MOST_ATTRIBUTES: usize = crate::limits::TAG_ATTRIBUTES;
/// No tag that is shorter has more attributes.
const SHORTEST: usize = MOST_ATTRIBUTES * " a=''".len();
/// The most namespaces of a document. The parser hands all of them on to what stands inside.
const MOST_NAMESPACES: usize = crate::limits::SCORE_NAMESPACES;

/// The first thing that no score has and that would take too long, and where it stands.
pub(super) fn refused(text: &str) -> Option<(usize, &'static str)> {
    if let Some((at, _)) = text.match_indices("xmlns").nth(MOST_NAMESPACES) {
        return Some((at, "more than 100 namespaces"));
    }
    let mut at = 0;
    for piece in text.split('<') {
        let start = at;
        at += piece.len() + 1;
        let is_tag = piece.starts_with(|c: char| !matches!(c, '!' | '?' | '/'));
        if piece.len() >= SHORTEST && is_tag && attributes(piece) > MOST_ATTRIBUTES {
            return Some((start.saturating_sub(1), "a tag with more than 200 attributes"));
        }
    }
    None
}

/// How many values in quotation marks a tag has, up to its end.
fn attributes(tag: &str) -> usize {
    let mut count = 0;
    let mut open = None;
    for byte in tag.bytes() {
        match (open, byte) {
            (None, b'>') => break,
            (None, b'"' | b'\'') => {
                open = Some(byte);
                count += 1;
            }
            (Some(mark), byte) if mark == byte => open = None,
            _ => {}
        }
    }
    count
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_no_score_has_is_refused() {
        let tag = |count: usize| {
            let many: String = (0..count).map(|i| format!(" a{i}='>'")).collect();
            format!("<score><a{many}>\"text\" 'text'</a></score>")
        };
        assert_eq!(refused(&tag(200)), None);
        assert_eq!(refused(&tag(201)), Some((7, "a tag with more than 200 attributes")));
        let quoted = "'a' ".repeat(1000);
        assert_eq!(refused(&format!("<a>{quoted}</a><!-- {quoted} --><?x {quoted}?>")), None);
        assert_eq!(refused(&" xmlns:a='b'".repeat(100)), None);
        assert!(refused(&" xmlns:a='b'".repeat(101)).is_some());
    }
}

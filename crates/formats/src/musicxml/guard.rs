//! What an XML parser would take more than linear time for, found before it is asked.

/// The most attributes of a tag. The parser compares each with all others.
const MOST_ATTRIBUTES: usize = crate::limits::TAG_ATTRIBUTES;
/// No tag that is shorter has more attributes.
const SHORTEST: usize = MOST_ATTRIBUTES * " a=''".len();
/// The most namespaces of a document. The parser hands all of them on to what stands inside.
const MOST_NAMESPACES: usize = crate::limits::SCORE_NAMESPACES;

/// The first thing that no score has and that would take too long, and where it stands.
pub(super) fn refused(text: &str) -> Option<(usize, &'static str)> {
    // The word may stand in a title too: where there are few of it, nothing is looked at closely.
    if text.match_indices("xmlns").nth(MOST_NAMESPACES).is_some()
        && let Some(at) = namespaces(text).nth(MOST_NAMESPACES)
    {
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

/// Where tags name namespaces.
fn namespaces(text: &str) -> impl Iterator<Item = usize> {
    let mut is_tag = false;
    let mut open = None;
    let bytes = text.as_bytes();
    bytes.iter().enumerate().filter_map(move |(at, &byte)| {
        match (open, byte) {
            // No value holds this sign: what is open there was text.
            (_, b'<') => (is_tag, open) = (true, None),
            (None, b'>') => is_tag = false,
            (None, b'"' | b'\'') if is_tag => open = Some(byte),
            (Some(mark), byte) if mark == byte => open = None,
            (None, b'x') if is_tag && bytes.get(at..at + 5) == Some(b"xmlns") => return Some(at),
            _ => {}
        }
        None
    })
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
    }

    #[test]
    fn namespaces_are_counted_where_they_are_named() {
        let tags = |count: usize| "<a xmlns:b='c>'/>\n".repeat(count);
        assert_eq!(refused(&tags(100)), None);
        assert_eq!(
            refused(&tags(101)),
            Some((100 * tags(1).len() + 3, "more than 100 namespaces"))
        );
        let inner = " xmlns:a='b'".repeat(101);
        assert!(refused(&format!("<a{inner}/>")).is_some());
        // What hides nothing: signs of quotation in comments and texts.
        assert!(refused(&format!("<!-- \" ' --><a>'\"</a>{}", tags(101))).is_some());
        // The word alone, in texts and values.
        let words = "xmlns ".repeat(200);
        assert_eq!(refused(&format!("<a b='{words}'>{words}</a><!-- > {words} -->")), None);
    }
}

//! Text as ABC writes it, so that reading it gives the same again.

/// Text of a field or of quotation marks: what would be read as a sign is escaped.
pub(super) fn text(text: &str, also: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.trim().chars() {
        match c {
            '\\' => out.push_str("\\\\"),
            '%' => out.push_str("\\%"),
            '&' => out.push_str("\\&"),
            '\n' | '\r' => out.push(' '),
            c if also.contains(c) => entity(c, &mut out),
            c => out.push(c),
        }
    }
    out
}

/// A syllable of a line of words; `first` where it begins the line.
pub(super) fn syllable(text: &str, first: bool) -> String {
    let mut out = String::with_capacity(text.len());
    // A number with a full stop at the beginning of a line would be the number of a verse.
    let digits = text.bytes().take_while(u8::is_ascii_digit).count();
    let numbered = first && digits > 0 && text.as_bytes().get(digits) == Some(&b'.');
    for (i, c) in text.trim().char_indices() {
        match c {
            '\\' | '%' | '&' | '-' | '_' | '*' | '|' => out.extend(['\\', c]),
            ' ' | '\n' | '\r' | '\t' => out.push('~'),
            '~' => entity(c, &mut out),
            c if numbered && i == 0 || c.is_whitespace() => entity(c, &mut out),
            c => out.push(c),
        }
    }
    out
}

fn entity(c: char, out: &mut String) {
    match c {
        '"' => out.push_str("&quot;"),
        c => out.push_str(&format!("&#{};", u32::from(c))),
    }
}

#[cfg(test)]
mod tests {
    use crate::abc::text::decode;

    #[test]
    fn what_is_escaped_is_read_as_it_was() {
        for said in ["50 % of \\ and & more", "\"Tide\" ]|[", "&amp;", "\\'e \\u00e9", "a&b;"] {
            assert_eq!(decode(&super::text(said, "\"]")), said);
        }
    }
}

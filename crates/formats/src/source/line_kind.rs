//! What a line of an ABC book is, seen from far enough away to tell tunes from text.

/// Kinds of lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LineKind {
    /// Nothing but blanks.
    Empty,
    /// `X:`, which begins a tune.
    Number,
    /// A field of this letter; `+` for a line that goes on with the one before.
    Field(u8),
    /// A comment.
    Comment,
    /// A directive, `%%` and its text.
    Directive,
    /// Bars of notes.
    Music,
    /// Anything else.
    Other,
}

/// The kind of a line, with or without its end.
pub(super) fn kind_of(line: &[u8]) -> LineKind {
    match line.trim_ascii_end() {
        [] => LineKind::Empty,
        [b'X', b':', ..] => LineKind::Number,
        // A repeat sign may touch a note: `G:|`.
        [letter, b':', rest @ ..]
            if (letter.is_ascii_alphabetic() || *letter == b'+')
                && !matches!(rest.first(), Some(b'|' | b':')) =>
        {
            LineKind::Field(*letter)
        }
        [b'%', b'%', ..] => LineKind::Directive,
        [b'%', ..] => LineKind::Comment,
        line if is_music(line) => LineKind::Music,
        _ => LineKind::Other,
    }
}

/// Whether a line has bar lines and, apart from quoted text, decorations and inline fields, at
/// least three of four letters are notes or rests. A table with upright strokes is no music.
pub(crate) fn is_music(line: &[u8]) -> bool {
    // Most lines of a header have no bar line, and are looked at no further.
    if !line.contains(&b'|') {
        return false;
    }
    let (mut bars, mut letters, mut notes) = (0_u32, 0_u32, 0_u32);
    let mut rest = line;
    let mut unclosed = false;
    while let [first, tail @ ..] = rest {
        rest = tail;
        let close = match first {
            b'"' => Some(b'"'),
            b'!' => Some(b'!'),
            b'[' if matches!(tail, [a, b':', ..] if a.is_ascii_alphabetic()) => Some(b']'),
            b'%' => break,
            _ => None,
        };
        if let Some(close) = close.filter(|_| !unclosed) {
            if let Some(at) = tail.iter().position(|&b| b == close) {
                rest = tail.get(at + 1..).unwrap_or_default();
                continue;
            }
            unclosed = true;
        }
        match first {
            b'|' => bars += 1,
            b'A'..=b'G' | b'a'..=b'g' | b'z' | b'Z' | b'x' | b'X' => {
                letters += 1;
                notes += 1;
            }
            b if b.is_ascii_alphabetic() || !b.is_ascii() => letters += 1,
            _ => {}
        }
    }
    bars > 0 && notes > 0 && u64::from(notes) * 4 >= u64::from(letters) * 3
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds() {
        use LineKind::{Comment, Directive, Empty, Field, Music, Number, Other};
        for (line, kind) in [
            ("", Empty),
            (" \t\r\n", Empty),
            ("X:1\n", Number),
            ("X: 0", Number),
            ("K:D", Field(b'K')),
            ("w:la la", Field(b'w')),
            ("+:more", Field(b'+')),
            ("G:|", Music),
            ("%%text hello", Directive),
            ("% remark", Comment),
            ("ABc def | gfe d2 :|", Music),
            ("|: \"Em\" EFG !roll! B3 |[M:2/4] A2 | % end", Music),
            ("~A2 Bc | Td2 vef g |", Music),
            ("ABc def", Other),
            ("| Title | Composer |", Other),
            ("He played A and B, then stopped.", Other),
            ("\"AB cd |", Music),
            ("P.S. more below", Other),
        ] {
            assert_eq!(kind_of(line.as_bytes()), kind, "{line}");
        }
    }
}

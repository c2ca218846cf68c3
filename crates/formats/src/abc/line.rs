//! Lines of an ABC text, without comments and blanks about them.

/// A line: where what it says begins and ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Line {
    /// First byte that is no blank.
    pub(super) start: usize,
    /// One past the last byte that is no blank; comments are left out.
    pub(super) end: usize,
    /// First byte of the next line.
    pub(super) next: usize,
    /// What it is.
    pub(super) kind: LineKind,
}

/// Kinds of lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LineKind {
    /// Nothing but blanks.
    Empty,
    /// A comment and nothing else.
    Comment,
    /// A directive: `%%` and its text.
    Directive,
    /// A letter and a colon, or `+:`. It may yet be music: `G:|`.
    Field(u8),
    /// Anything else.
    Other,
}

/// The line that begins at a byte; `None` at the end of the text.
pub(super) fn line_at(text: &[u8], at: usize) -> Option<Line> {
    let rest = text.get(at..).filter(|rest| !rest.is_empty())?;
    let (length, may_have_comment) = length_to_end(rest);
    let line = rest.get(..length)?;
    let next = match rest.get(length..) {
        Some([b'\r', b'\n', ..]) => at + length + 2,
        Some([_, ..]) => at + length + 1,
        _ => at + length,
    };
    let start = at + line.iter().position(|&b| !is_blank(b)).unwrap_or(length);
    let line = text.get(start..at + length)?;
    let (kind, line) = match line {
        [] => (LineKind::Empty, line),
        [b'%', b'%', ..] => (LineKind::Directive, line),
        [b'%', ..] => (LineKind::Comment, line),
        [letter, b':', ..] if letter.is_ascii_alphabetic() || *letter == b'+' => {
            (LineKind::Field(*letter), if may_have_comment { without_comment(line) } else { line })
        }
        _ => (LineKind::Other, if may_have_comment { without_comment(line) } else { line }),
    };
    let length = line.iter().rposition(|&b| !is_blank(b)).map_or(0, |last| last + 1);
    Some(Line { start, end: start + length, next, kind })
}

/// How many bytes stand before the end of the line, and whether a percent sign may be among them.
fn length_to_end(rest: &[u8]) -> (usize, bool) {
    // Eight at a time.
    let (words, last) = rest.as_chunks();
    let mut percent = 0;
    for (i, &word) in words.iter().enumerate() {
        let word = u64::from_le_bytes(word);
        percent |= has(word, b'%');
        let ends = has(word, b'\n') | has(word, b'\r');
        if ends != 0 {
            return (8 * i + ends.trailing_zeros() as usize / 8, percent != 0);
        }
    }
    let length = last.iter().position(|&byte| byte == b'\n' || byte == b'\r');
    let length = length.unwrap_or(last.len());
    (8 * words.len() + length, percent != 0 || last.contains(&b'%'))
}

/// Which bytes of eight are this one: the lowest of the bits that are set is in the first such.
const fn has(word: u64, byte: u8) -> u64 {
    const ONES: u64 = u64::MAX / 255;
    let zero = word ^ (ONES * byte as u64);
    zero.wrapping_sub(ONES) & !zero & (ONES << 7)
}

/// Space or tab.
pub(super) const fn is_blank(byte: u8) -> bool {
    matches!(byte, b' ' | b'\t')
}

/// The line up to its comment; `\%` begins none.
fn without_comment(line: &[u8]) -> &[u8] {
    let mut from = 0;
    while let Some(found) = line.get(from..).and_then(|rest| rest.iter().position(|&b| b == b'%')) {
        let at = from + found;
        if at == 0 || line.get(at - 1) != Some(&b'\\') {
            return line.get(..at).unwrap_or(line);
        }
        from = at + 1;
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_lose_comments_and_blanks() {
        let text = b"  T: 50\\% % half\r\n\t% note\r%%text a % b \n \t\nK:G\\%%x";
        let mut at = 0;
        let mut lines = Vec::new();
        while let Some(line) = line_at(text, at) {
            lines.push((line.kind, std::str::from_utf8(&text[line.start..line.end]).unwrap()));
            at = line.next;
        }
        assert_eq!(
            lines,
            [
                (LineKind::Field(b'T'), "T: 50\\%"),
                (LineKind::Comment, "% note"),
                (LineKind::Directive, "%%text a % b"),
                (LineKind::Empty, ""),
                (LineKind::Field(b'K'), "K:G\\%"),
            ]
        );
    }
}

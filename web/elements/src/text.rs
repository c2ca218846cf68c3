//! The text of an element as a tune.

/// The text without the blank lines around it and without the indent that all its lines share:
/// pages indent what stands in an element, and ABC begins at the margin.
///
/// # Examples
///
/// ```
/// use modewright_elements::text::tune;
///
/// assert_eq!(tune("\n    X:1\n    K:D\n      DEF|\n  "), "X:1\nK:D\n  DEF|");
/// assert_eq!(tune("\r\n\tX:1\r\n\r\n\tX:2\r\n"), "X:1\n\nX:2");
/// ```
#[must_use]
pub fn tune(text: &str) -> String {
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    let indents = lines.iter().filter(|line| !line.is_empty()).map(|line| {
        let text = line.trim_start();
        line.get(..line.len() - text.len()).unwrap_or("")
    });
    let shared = indents.reduce(in_common).unwrap_or("");
    let lines = lines.iter().map(|line| line.strip_prefix(shared).unwrap_or(line));
    let text = lines.collect::<Vec<&str>>().join("\n");
    text.trim_matches('\n').to_owned()
}

/// What two texts begin with alike.
fn in_common<'a>(one: &'a str, other: &'a str) -> &'a str {
    let alike = one.chars().zip(other.chars()).take_while(|(a, b)| a == b);
    let length: usize = alike.map(|(c, _)| c.len_utf8()).sum();
    one.get(..length).unwrap_or("")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn odd_texts_stay_whole() {
        assert_eq!(tune(""), "");
        assert_eq!(tune(" \n \n"), "");
        assert_eq!(tune("D E F#"), "D E F#");
        // Characters of several bytes in the indent: a no-break space.
        assert_eq!(tune("\u{a0}D\n\u{a0}\u{a0}E"), "D\n\u{a0}E");
        // Where nothing is shared nothing is taken, and no line is lost.
        assert_eq!(tune(" D\n\u{a0}E"), " D\n\u{a0}E");
        assert_eq!(tune("\t D\n\tE"), " D\nE");
    }
}

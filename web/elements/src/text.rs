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
    let blank = |line: &&str| line.trim().is_empty();
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    let indent = |line: &&str| line.len() - line.trim_start().len();
    let shared = lines.iter().copied().filter(|line| !blank(line)).map(|line| indent(&line)).min();
    let lines = lines.iter().map(|line| line.get(shared.unwrap_or(0)..).unwrap_or(""));
    let text = lines.collect::<Vec<&str>>().join("\n");
    text.trim_matches('\n').to_owned()
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
        assert_eq!(tune(" D\n\u{a0}E"), "D\n\u{a0}E".replace("\u{a0}", ""), "cut where it can be");
    }
}

//! What to look up before a tune is published. No advice on law: a reminder of what the text of
//! the tune leaves open.

use modewright_core::tune::Header;

/// What the text of a tune leaves open about whose it is; empty where nothing does.
///
/// A traditional tune has no owner, but its arrangement or transcription may have one; so a text
/// without a source is asked for one, and a composer without a year of death for the year.
///
/// # Examples
///
/// ```
/// use modewright_core::tune::Header;
/// use modewright_lesson::words::rights;
///
/// let with = |composer: &str| Header {
///     composer: vec![composer.to_owned()],
///     source: vec!["the tune class, by ear".to_owned()],
///     ..Header::default()
/// };
/// assert!(rights(&with("Trad.")).is_empty());
/// assert!(rights(&with("Aud Weir (1790-1851)")).is_empty());
/// assert_eq!(
///     rights(&with("Aud Weir, born 1970")),
///     ["Composer: “Aud Weir, born 1970” has no year of death. A tune may be protected for 70 years \
///       after its composer died, in some countries longer."]
/// );
/// // A text that says nothing is asked for both.
/// assert_eq!(rights(&Header::default()).len(), 2);
/// ```
#[must_use]
pub fn rights(header: &Header) -> Vec<String> {
    // A tune that was made up for a class or a test says so itself.
    if header.composer.iter().any(|line| line.to_ascii_lowercase().contains("invented")) {
        return Vec::new();
    }
    let said = |lines: &[String]| lines.iter().any(|line| !line.trim().is_empty());
    let mut open = Vec::new();
    let composers: Vec<&str> =
        header.composer.iter().map(|line| line.trim()).filter(|line| !line.is_empty()).collect();
    if composers.is_empty() {
        open.push(
            "Composer: the text names none (C: in ABC). Is the tune traditional, or whose is it?"
                .to_owned(),
        );
    }
    for composer in composers {
        if !is_nobody(composer) && !has_year_of_death(composer) {
            open.push(format!(
                "Composer: “{composer}” has no year of death. A tune may be protected for 70 years \
                 after its composer died, in some countries longer."
            ));
        }
    }
    if ![&header.source, &header.book, &header.transcriber].into_iter().any(|lines| said(lines)) {
        open.push(
            "Source: the text names none (S: in ABC). An arrangement or a transcription may be \
             protected even where the tune is not."
                .to_owned(),
        );
    }
    open
}

/// Whether a composer's line says that there is none to be named.
fn is_nobody(composer: &str) -> bool {
    let small = composer.to_ascii_lowercase();
    ["trad", "anon", "unknown"].iter().any(|word| small.contains(word))
}

/// Whether a line ends a life: two years, or a year after a word or sign of death.
fn has_year_of_death(line: &str) -> bool {
    let years = line
        .split(|c: char| !c.is_ascii_digit())
        .filter(|digits| digits.len() == 4 && matches!(digits.get(..1), Some("1" | "2")));
    let count = years.count();
    let small = line.to_ascii_lowercase();
    let dies = ["died", "d. ", "d.1", "d.2", "† ", "†", "(d ", "death"];
    count >= 2
        || count == 1 && dies.iter().any(|sign| small.contains(sign))
        || count == 1 && ends_a_span(line)
}

/// Whether the only year stands after a dash: "(?–1851)".
fn ends_a_span(line: &str) -> bool {
    let digit = line.find(|c: char| c.is_ascii_digit()).unwrap_or(0);
    let before = line.get(..digit).unwrap_or_default().trim_end();
    before.ends_with(['-', '–', '—'])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn years_of_death_are_seen_and_years_of_birth_are_none() {
        for (line, dead) in [
            ("Aud Weir (1790-1851)", true),
            ("Aud Weir (1790–1851)", true),
            ("Aud Weir, d. 1851", true),
            ("Aud Weir, died in 1851", true),
            ("Aud Weir † 1851", true),
            ("Aud Weir (?-1851)", true),
            ("Aud Weir (1790-)", false),
            ("Aud Weir, born 1970", false),
            ("Aud Weir, 1999", false),
            ("Aud Weir", false),
        ] {
            assert_eq!(has_year_of_death(line), dead, "{line}");
        }
    }

    #[test]
    fn blanks_are_no_names_and_a_book_is_a_source() {
        let header = Header {
            composer: vec!["  ".to_owned()],
            book: vec!["The Lantern Quay book, invented".to_owned()],
            ..Header::default()
        };
        assert_eq!(rights(&header).len(), 1);
        let invented = Header { composer: vec!["Invented here".to_owned()], ..Header::default() };
        assert!(rights(&invented).is_empty());
    }
}

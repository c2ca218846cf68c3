//! The walk-through as Markdown that a tutor edits, and back.

use super::{Paragraph, Section, Walk};
use std::fmt::Write as _;

impl Walk {
    /// The walk-through as Markdown: a heading, sections, a paragraph for each bar or run of bars
    /// that begins with their numbers in bold, and numbered steps. Where there is no title, or no
    /// heading before the first words, none is written.
    #[must_use]
    pub fn to_markdown(&self) -> String {
        let mut out = String::new();
        // Writing to a string cannot fail.
        if !self.title.is_empty() {
            let _ = writeln!(out, "# {}", escaped(&self.title));
        }
        for (i, section) in self.sections.iter().enumerate() {
            if i > 0 || !section.heading.is_empty() || section.paragraphs.is_empty() {
                let _ = write!(out, "\n## {}\n", escaped(&section.heading));
            }
            let mut step = 0;
            for paragraph in &section.paragraphs {
                let text = escaped(&paragraph.text);
                if paragraph.is_step {
                    step += 1;
                    let gap = if step == 1 { "\n" } else { "" };
                    let _ = writeln!(out, "{gap}{step}. {text}");
                } else if let Some(label) = &paragraph.label {
                    let _ =
                        writeln!(out, "\n{}", format!("**{}.** {text}", escaped(label)).trim_end());
                } else {
                    let _ = writeln!(out, "\n{text}");
                }
            }
        }
        out.trim_start().to_owned()
    }

    /// Reads a walk-through back, however it was edited: whatever stands between blank lines is a
    /// paragraph, bold words at its beginning are its label, and the numbers in the label are its
    /// bars. Nothing is lost and nothing is refused.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_lesson::walk::Walk;
    ///
    /// let walk = Walk::from_markdown("# My tune\n\n## Part A\n\n**Bars 3–4.** Like rowing:\nin, out.\n");
    /// let told = &walk.sections[0].paragraphs[0];
    /// assert_eq!((told.bars, told.text.as_str()), (Some((3, 4)), "Like rowing: in, out."));
    /// // Words before any heading are kept in a section without one.
    /// let bare = Walk::from_markdown("Just play.");
    /// assert_eq!((bare.title.as_str(), bare.sections[0].heading.as_str()), ("", ""));
    /// ```
    #[must_use]
    pub fn from_markdown(text: &str) -> Self {
        let mut walk = Self::default();
        let mut open: Option<Paragraph> = None;
        for line in text.lines().map(str::trim) {
            if let Some(title) = title(line) {
                close(&mut walk, &mut open);
                walk.title = plain(title);
            } else if let Some(heading) = heading(line) {
                close(&mut walk, &mut open);
                walk.sections.push(Section { heading: plain(heading), paragraphs: Vec::new() });
            } else if line.is_empty() {
                close(&mut walk, &mut open);
            } else if let Some(step) = step(line) {
                close(&mut walk, &mut open);
                open = Some(Paragraph { text: plain(step), is_step: true, ..Paragraph::default() });
            } else if let Some(paragraph) = &mut open {
                paragraph.text.push(' ');
                paragraph.text.push_str(&plain(line));
            } else {
                open = Some(begun(line));
            }
        }
        close(&mut walk, &mut open);
        walk
    }
}

fn close(walk: &mut Walk, open: &mut Option<Paragraph>) {
    let Some(paragraph) = open.take() else { return };
    if walk.sections.is_empty() {
        walk.sections.push(Section::default());
    }
    if let Some(section) = walk.sections.last_mut() {
        section.paragraphs.push(paragraph);
    }
}

/// A heading of the first level; one without words is a heading too.
fn title(line: &str) -> Option<&str> {
    let rest = line.strip_prefix('#')?;
    if rest.is_empty() { Some(rest) } else { rest.strip_prefix(' ') }
}

/// A heading of any level below the first.
fn heading(line: &str) -> Option<&str> {
    let rest = line.strip_prefix("##")?.trim_start_matches('#');
    if rest.is_empty() { Some(rest) } else { rest.strip_prefix(' ').map(str::trim) }
}

/// The text of a numbered step or of a point of a list.
fn step(line: &str) -> Option<&str> {
    let rest = line.trim_start_matches(|c: char| c.is_ascii_digit());
    if rest.len() < line.len() {
        return rest.strip_prefix(". ").or_else(|| rest.strip_prefix(") "));
    }
    line.strip_prefix("- ").or_else(|| line.strip_prefix("* "))
}

/// A paragraph from its first line.
fn begun(line: &str) -> Paragraph {
    let labelled = line.strip_prefix("**").and_then(|rest| rest.split_once("**"));
    let Some((label, text)) = labelled else {
        return Paragraph { text: plain(line), ..Paragraph::default() };
    };
    let label = plain(label.trim().trim_end_matches(['.', ':']));
    Paragraph {
        bars: numbers(&label),
        label: Some(label),
        text: plain(text.trim_start_matches([':', '.']).trim()),
        is_step: false,
    }
}

/// The first number of a label, and the second if it is no smaller.
fn numbers(label: &str) -> Option<(u32, u32)> {
    let mut numbers = label
        .split(|c: char| !c.is_ascii_digit())
        .filter(|digits| !digits.is_empty())
        .filter_map(|digits| digits.parse().ok());
    let first = numbers.next()?;
    Some((first, numbers.next().filter(|last| *last >= first).unwrap_or(first)))
}

/// Signs that mean something in Markdown, and in pages made from it.
const SIGNS: [char; 9] = ['\\', '*', '_', '`', '<', '>', '[', ']', '#'];

/// Text that Markdown takes as it stands: signs escaped, control signs and line ends as blanks,
/// and without signs that turn the direction of all that follows.
fn escaped(text: &str) -> String {
    let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let mut out = String::with_capacity(text.len());
    for c in text.chars().filter(|c| !turns(*c)) {
        if SIGNS.contains(&c) {
            out.push('\\');
        }
        out.push(if c.is_control() { ' ' } else { c });
    }
    out
}

/// The text without escapes and emphasis.
fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut letters = text.trim().chars();
    while let Some(c) = letters.next() {
        match c {
            '\\' => out.extend(letters.next()),
            '*' | '`' => {}
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_without_words_stay_headings() {
        let page = "# \n\n## \n\nDip.\n\n##\n\nPull.\n";
        let walk = Walk::from_markdown(page);
        assert_eq!((walk.title.as_str(), walk.sections.len()), ("", 2));
        assert_eq!(walk.sections[0].paragraphs[0].text, "Dip.");
        assert_eq!(Walk::from_markdown(&walk.to_markdown()), walk);
    }

    #[test]
    fn words_alone_stay_alone() {
        let words = "Just play this slowly.\n\nThen again.\n";
        assert_eq!(Walk::from_markdown(words).to_markdown(), words);
        let titled = Walk { title: "Slack Water".into(), ..Walk::from_markdown(words) };
        assert_eq!(titled.to_markdown(), format!("# Slack Water\n\n{words}"));
        assert_eq!(Walk::from_markdown(&titled.to_markdown()), titled);
    }
}

//! The words of a language, as a file of keys and templates.

use std::collections::HashMap;

/// Sentences by key. See `wording/english.txt` for the form of a file.
#[derive(Clone, Debug, Default)]
pub struct Wording {
    templates: HashMap<String, Vec<String>>,
}

/// What a file of words lacks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WordingError {
    /// A line that is no `KEY = TEXT`; counted from 1.
    Line(usize),
    /// A key that the English file has and this one has not.
    Missing(String),
    /// A key with a `{name}` that nothing fills.
    Unfilled {
        /// The key.
        key: String,
        /// The name.
        name: String,
    },
}

/// The English words.
const ENGLISH: &str = include_str!("../../wording/english.txt");
/// The English names of note values.
const VALUES: &str = include_str!("../../wording/values.txt");

impl Wording {
    /// English.
    #[must_use]
    pub fn english() -> Self {
        Self::of(lines(VALUES).chain(lines(ENGLISH)))
    }

    /// The English names of note values and nothing else: all that is needed where a note is named
    /// and no tune is walked through.
    #[must_use]
    pub fn english_values() -> Self {
        Self::of(lines(VALUES))
    }

    fn of<'a>(lines: impl Iterator<Item = Result<(&'a str, &'a str), usize>>) -> Self {
        Self { templates: lines.filter_map(Result::ok).fold(HashMap::new(), add) }
    }

    /// Another language, from the text of its file. Every key of the English file must be there,
    /// and no `{name}` that English does not have under the same key.
    ///
    /// # Errors
    ///
    /// [`WordingError`]: the first thing that is missing or too much.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_lesson::walk::{Wording, WordingError};
    ///
    /// let error = Wording::from_text("label.bar = Takt {number}").unwrap_err();
    /// assert!(matches!(error, WordingError::Missing(_)));
    /// assert_eq!(Wording::from_text("no key").unwrap_err(), WordingError::Line(1));
    /// ```
    pub fn from_text(text: &str) -> Result<Self, WordingError> {
        let mut templates = HashMap::new();
        for line in lines(text) {
            templates = add(templates, line.map_err(WordingError::Line)?);
        }
        let mut keys: Vec<(String, Vec<String>)> = Self::english().templates.into_iter().collect();
        keys.sort_unstable();
        for (key, english) in keys {
            let Some(own) = templates.get(&key) else { return Err(WordingError::Missing(key)) };
            let known: Vec<&str> = english.iter().flat_map(|text| names(text)).collect();
            if let Some(name) = own.iter().flat_map(|t| names(t)).find(|n| !known.contains(n)) {
                return Err(WordingError::Unfilled { key, name: name.to_owned() });
            }
        }
        Ok(Self { templates })
    }

    /// All ways to say a thing; none for a key that is not there.
    pub(super) fn ways(&self, key: &str) -> &[String] {
        self.templates.get(key).map_or(&[], Vec::as_slice)
    }

    /// The first way to say a thing, filled in.
    pub(super) fn say(&self, key: &str, with: &[(&str, &str)]) -> String {
        self.ways(key).first().map_or_else(String::new, |template| fill(template, with))
    }

    /// The form for one (`false`) or for many, of a phrase that has both.
    pub(super) fn form(&self, key: &str, many: bool) -> Option<&str> {
        let phrase = self.ways(key).first()?;
        let (one, more) = phrase.split_once(" | ").unwrap_or((phrase, phrase));
        Some(if many { more } else { one })
    }

    /// A number in words up to twelve, in digits beyond.
    pub(super) fn number(&self, number: usize) -> String {
        let words = self.say(&format!("number.{number}"), &[]);
        if words.is_empty() { number.to_string() } else { words }
    }

    /// Words of a series such as `times.2`; the last of it is `times.many`.
    pub(super) fn series(&self, key: &str, number: usize) -> String {
        let words = self.say(&format!("{key}.{number}"), &[]);
        if words.is_empty() { self.say(&format!("{key}.many"), &[]) } else { words }
    }

    /// Joined as a sentence joins: "A, B and C".
    pub(super) fn list(&self, words: &[String]) -> String {
        let [first, middle @ .., last] = words else { return words.concat() };
        let first = middle.iter().fold(first.clone(), |all, next| {
            self.say("list.comma", &[("first", &all), ("next", next)])
        });
        self.say("list.and", &[("first", &first), ("last", last)])
    }
}

/// The lines of a file as key and text; an error is the number of a line that is neither.
fn lines(text: &str) -> impl Iterator<Item = Result<(&str, &str), usize>> {
    text.lines().enumerate().filter_map(|(i, line)| {
        let line = line.trim();
        if line.is_empty() || line.starts_with('#') {
            return None;
        }
        let pair = line.split_once('=').map(|(key, text)| (key.trim(), text.trim()));
        Some(pair.filter(|(key, text)| !key.is_empty() && !text.is_empty()).ok_or(i + 1))
    })
}

fn add(
    mut templates: HashMap<String, Vec<String>>,
    (key, text): (&str, &str),
) -> HashMap<String, Vec<String>> {
    templates.entry(key.to_owned()).or_default().push(text.to_owned());
    templates
}

/// The `{names}` of a template.
fn names(template: &str) -> Vec<&str> {
    let opened = template.split('{').skip(1);
    opened.filter_map(|rest| rest.split_once('}')).map(|(name, _)| name).collect()
}

/// A template with its names filled in, from left to right: what is filled in is not read again.
pub(super) fn fill(template: &str, with: &[(&str, &str)]) -> String {
    let mut text = String::with_capacity(template.len() + 16);
    let mut rest = template;
    while let Some((before, after)) = rest.split_once('{') {
        text.push_str(before);
        let Some((name, later)) = after.split_once('}') else {
            rest = after;
            break;
        };
        text.push_str(with.iter().find(|(known, _)| *known == name).map_or("", |(_, value)| value));
        rest = later;
    }
    text.push_str(rest);
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn english_is_a_whole_language() {
        let both = format!("{VALUES}{ENGLISH}");
        assert!(Wording::from_text(&both).is_ok());
        assert!(matches!(Wording::from_text(ENGLISH), Err(WordingError::Missing(_))));
        let odd = format!("{both}\nhome.none = {{who}} knows");
        let name = "who".to_owned();
        let key = "home.none".to_owned();
        assert_eq!(Wording::from_text(&odd).unwrap_err(), WordingError::Unfilled { key, name });
    }

    #[test]
    fn what_is_filled_in_is_not_read_again() {
        assert_eq!(fill("{a} and {b}{c}", &[("a", "{b}"), ("b", "x")]), "{b} and x");
        assert_eq!(fill("open {", &[]), "open ");
    }

    #[test]
    fn lists_and_numbers() {
        let words = Wording::english();
        let list = |n: usize| words.list(&["A", "B", "C"].map(str::to_owned)[..n]);
        assert_eq!((list(0), list(1)), (String::new(), "A".into()));
        assert_eq!((list(2), list(3)), ("A and B".into(), "A, B and C".into()));
        assert_eq!((words.number(12), words.number(13)), ("twelve".into(), "13".into()));
        assert_eq!(words.series("times", 9), "many times");
    }
}

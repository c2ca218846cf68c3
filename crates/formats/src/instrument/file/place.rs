//! Where something stands in a JSON text: a path, and the line and column that it leads to.

use std::fmt;

/// One step into a JSON value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Step {
    /// Into the field of an object.
    Field(String),
    /// Into an item of a list, from 0.
    Item(usize),
}

/// The way from the whole text to a value in it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Path(pub(super) Vec<Step>);

impl Path {
    /// The path with one more field.
    pub(super) fn field(&self, name: &str) -> Self {
        self.with(Step::Field(name.to_owned()))
    }

    /// The path with one more item.
    pub(super) fn item(&self, index: usize) -> Self {
        self.with(Step::Item(index))
    }

    fn with(&self, step: Step) -> Self {
        let mut longer = self.clone();
        longer.0.push(step);
        longer
    }

    /// Line and column, both from 1, of the value that the path leads to in a JSON text; of the
    /// last value on the way, where it leads nowhere.
    pub(super) fn place(&self, text: &str) -> (u32, u32) {
        let mut here = text.trim_start();
        for step in &self.0 {
            let Some(next) = inside(here, step) else { break };
            here = next;
        }
        // `here` is a part of `text`.
        place_of(text, here.as_ptr() as usize - text.as_ptr() as usize)
    }
}

/// Line and column of a byte of a text.
pub(super) fn place_of(text: &str, byte: usize) -> (u32, u32) {
    let before = text.get(..byte).unwrap_or(text);
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let line = before.matches('\n').count() + 1;
    let column = before.rsplit('\n').next().unwrap_or_default().chars().count() + 1;
    (count(line), count(column))
}

/// The text from a value inside another on; both are parts of a text that is JSON.
fn inside<'a>(text: &'a str, step: &Step) -> Option<&'a str> {
    let mut rest = text.get(1..)?;
    for index in 0.. {
        rest = rest.trim_start_matches(|c: char| c.is_ascii_whitespace() || c == ',');
        if rest.starts_with([']', '}']) {
            return None;
        }
        match step {
            Step::Item(wanted) if index == *wanted => return Some(rest),
            Step::Item(_) => {}
            Step::Field(wanted) => {
                let (name, after) = rest.split_at(length(rest));
                rest = after.trim_start().strip_prefix(':')?.trim_start();
                if serde_json::from_str::<String>(name).is_ok_and(|name| name == *wanted) {
                    return Some(rest);
                }
            }
        }
        rest = &rest[length(rest)..];
    }
    None
}

/// How many bytes of a text belong to the value that begins it.
fn length(text: &str) -> usize {
    let mut depth = 0_usize;
    let (mut quoted, mut escaped) = (false, false);
    for (at, byte) in text.bytes().enumerate() {
        if escaped {
            escaped = false;
        } else if quoted {
            match byte {
                b'\\' => escaped = true,
                b'"' if depth == 0 => return at + 1,
                b'"' => quoted = false,
                _ => {}
            }
        } else {
            match byte {
                b'"' => quoted = true,
                b'[' | b'{' => depth += 1,
                b']' | b'}' if depth == 1 => return at + 1,
                // The end of what stands around a number or a word.
                b']' | b'}' | b',' | b' ' | b'\n' | b'\r' | b'\t' if depth == 0 => return at,
                b']' | b'}' => depth -= 1,
                _ => {}
            }
        }
    }
    text.len()
}

impl fmt::Display for Path {
    /// `sizes[2].notes[0].pitch`; nothing for the whole.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, step) in self.0.iter().enumerate() {
            match step {
                Step::Field(name) if i == 0 => f.write_str(name)?,
                Step::Field(name) => write!(f, ".{name}")?,
                Step::Item(index) => write!(f, "[{index}]")?,
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_leads_to_its_line_and_column() {
        let text = "\n{ \"é\": 1,\n  \"list\": [ {\"a\": 2},\n\t{\"a\\u0062\": [3, 4]} ] }";
        let root = Path::default();
        let second = root.field("list").item(1);
        for (path, place, said) in [
            (root.clone(), (2, 1), ""),
            (root.field("é"), (2, 8), "é"),
            (root.field("list"), (3, 11), "list"),
            (second.clone(), (4, 2), "list[1]"),
            (second.field("ab").item(1), (4, 18), "list[1].ab[1]"),
            // What is not there is said where it should be.
            (second.field("other"), (4, 2), "list[1].other"),
        ] {
            assert_eq!(path.place(text), place, "{path}");
            assert_eq!(path.to_string(), said);
        }
    }
}

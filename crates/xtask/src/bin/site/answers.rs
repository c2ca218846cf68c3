//! The TypeScript types of all answers, from the Rust types and their comments, so that the two
//! cannot part.
//!
//! A `&'static str` is a word of a few where its comment lists them in backquotes, and any text
//! otherwise. The real answers of the fixtures are compiled against these types
//! (`tests/package/types.mjs`).

use crate::files::at;
use std::fmt::Write as _;
use std::fs;

const FOLDER: &str = "crates/lesson/src/answer";

/// All types, in the order of the files' names.
pub(crate) fn types() -> Result<String, String> {
    let folder = crate::root().join(FOLDER);
    let entries = fs::read_dir(&folder).map_err(|e| at(&folder, &e))?;
    let mut files: Vec<_> = entries.filter_map(|entry| Some(entry.ok()?.path())).collect();
    files.sort();
    let mut out = String::from(
        "/** The engine's answers: one shape for command, package and page. Pitches are as written unless a field says `sounding`. */\n",
    );
    out.push_str(
        "\n/** A mode of seven notes. */\nexport type Mode = \"lydian\" | \"ionian\" | \"mixolydian\" | \"dorian\" | \"aeolian\" | \"phrygian\" | \"locrian\";\n",
    );
    for file in files {
        let source = fs::read_to_string(&file).map_err(|e| at(&file, &e))?;
        out.push_str(&of_source(&source).map_err(|why| format!("{}: {why}", file.display()))?);
    }
    Ok(out)
}

/// The types that a source file serialises.
fn of_source(source: &str) -> Result<String, String> {
    let mut out = String::new();
    let mut comment: Vec<&str> = Vec::new();
    let mut serialised = false;
    let mut renamed = None;
    let mut open = false;
    let mut flat = String::new();
    let mut body = String::new();
    for line in source.lines() {
        let text = line.trim();
        if let Some(said) = text.strip_prefix("///") {
            comment.push(said.trim());
        } else if text.starts_with("#[derive(") {
            serialised = text.contains("Serialize");
        } else if let Some(serde) = text.strip_prefix("#[serde(") {
            if serde.starts_with("flatten") {
                renamed = Some("");
            } else {
                renamed = serde.split('"').nth(1);
            }
        } else if let Some(name) = text.strip_prefix("pub struct ").filter(|_| serialised) {
            open = true;
            let name = name.trim_end_matches(" {");
            said(&mut out, "\n", &comment);
            let _ = write!(out, "export interface {name}");
            comment.clear();
        } else if open && line == "}" {
            let _ = writeln!(out, "{flat} {{\n{body}}}");
            (open, serialised, flat, body) = (false, false, String::new(), String::new());
        } else if let Some(field) = text.strip_prefix("pub ").filter(|_| open) {
            let (name, kind) = field
                .trim_end_matches(',')
                .split_once(": ")
                .ok_or_else(|| format!("`{field}` is no field"))?;
            if renamed == Some("") {
                flat = format!(" extends {kind}");
            } else {
                said(&mut body, "  ", &comment);
                let name = renamed.unwrap_or(name);
                let kind = kind_of(kind, name, &comment.join(" "))?;
                let _ = writeln!(body, "  {name}: {kind};");
            }
            renamed = None;
            comment.clear();
        } else if !open && !text.starts_with("#[") {
            comment.clear();
            serialised = false;
        }
    }
    Ok(out)
}

fn said(out: &mut String, indent: &str, comment: &[&str]) {
    let said = comment.join(" ").replace("[`SCHEMA`]", "The version of the shape: 1");
    let _ = writeln!(out, "{indent}/** {said} */");
}

/// A Rust type in TypeScript.
fn kind_of(kind: &str, name: &str, comment: &str) -> Result<String, String> {
    let inner = |start: &str, end: &str| kind.strip_prefix(start)?.strip_suffix(end);
    if let Some(kind) = inner("Option<", ">") {
        return Ok(format!("{} | null", kind_of(kind, name, comment)?));
    }
    if let Some(kind) = inner("Vec<", ">") {
        let kind = kind_of(kind, name, comment)?;
        return Ok(if kind.contains(' ') && !kind.starts_with('[') {
            format!("({kind})[]")
        } else {
            format!("{kind}[]")
        });
    }
    if let Some(kind) = inner("[", "; 2]") {
        let kind = kind_of(kind, name, comment)?;
        return Ok(format!("[{kind}, {kind}]"));
    }
    Ok(match kind {
        "String" => "string".to_owned(),
        "bool" => "boolean".to_owned(),
        "&'static str" if name == "mode" || name == "modes" => "Mode".to_owned(),
        "&'static str" => words(comment),
        "u8" | "u16" | "u32" | "u64" | "usize" | "i8" | "i16" | "i32" | "f64" => {
            "number".to_owned()
        }
        other if other.ends_with("Answer") || other.starts_with("Fit") => other.to_owned(),
        other => return Err(format!("`{other}` has no type in TypeScript yet")),
    })
}

/// The words that a comment lists in backquotes; any text where it lists less than two.
fn words(comment: &str) -> String {
    let mut words: Vec<&str> = Vec::new();
    for word in comment.split('`').skip(1).step_by(2) {
        let plain = |c: char| c.is_ascii_lowercase() || "_-, ".contains(c);
        if word != "null" && word.chars().all(plain) && !words.contains(&word) {
            words.push(word);
        }
    }
    if words.len() < 2 {
        return "string".to_owned();
    }
    let quoted: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
    quoted.join(" | ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn types_follow_the_source() {
        let source = "/// A note.\n#[derive(Clone, Serialize)]\npub struct NoteAnswer {\n    /// \
                      `easy`, `fair` or `awkward`; `null` where\n    /// it is not there.\n    \
                      pub ease: Option<&'static str>,\n    #[serde(rename = \"for\")]\n    \
                      pub favours: Vec<[String; 2]>,\n    #[serde(flatten)]\n    pub way: \
                      WayAnswer,\n}\n\n/// No answer.\n#[derive(Clone)]\npub struct Other {\n    \
                      pub x: Tune,\n}\n";
        let types = of_source(source).unwrap();
        assert!(types.contains("export interface NoteAnswer extends WayAnswer {\n"), "{types}");
        assert!(types.contains("  ease: \"easy\" | \"fair\" | \"awkward\" | null;\n"), "{types}");
        assert!(types.contains("  for: [string, string][];\n"), "{types}");
        assert!(!types.contains("Other"));
        let unknown = source.replace("Vec<[String; 2]>", "Rc<str>");
        assert!(of_source(&unknown).is_err());
    }
}

//! What the corpus report reads from an answer of `modewright find --json`.

use serde_json::Value;

/// One tune's answer, as far as the report needs it.
pub(crate) struct Answer {
    /// The file that the tune came from, without its folders.
    pub(crate) file: String,
    /// The X: number.
    pub(crate) number: String,
    /// Home and mode as found; nothing where none could be said.
    pub(crate) found: Option<(String, String)>,
    /// Home and mode as written.
    pub(crate) written: Option<(String, String)>,
    /// Code and severity of each problem.
    pub(crate) problems: Vec<(String, Severity)>,
}

/// How much a problem matters, lightest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Severity {
    Note,
    Warning,
    Error,
}

impl Severity {
    /// The word that answers use.
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

const VERDICTS: [&str; 4] = ["clear", "open", "doubtful", "none"];

/// Reads a line; the error says what an answer must have and this one has not.
pub(crate) fn read(line: &str) -> Result<Answer, String> {
    let value: Value = serde_json::from_str(line).map_err(|error| error.to_string())?;
    if value["schema"] != 1 {
        return Err("schema is not 1".into());
    }
    let verdict = value["verdict"].as_str().unwrap_or_default();
    if !VERDICTS.contains(&verdict) {
        return Err(format!("`{verdict}` is no verdict"));
    }
    let found = key(&value)?;
    if found.is_none() != (verdict == "none") {
        return Err(format!("verdict `{verdict}` and home {} do not go together", value["home"]));
    }
    let source = value["source"].as_str().unwrap_or_default();
    let list = value["problems"].as_array().ok_or("no list of problems")?;
    Ok(Answer {
        file: source.rsplit('/').next().unwrap_or(source).to_owned(),
        number: value["number"].as_str().unwrap_or_default().to_owned(),
        found,
        written: key(&value["written"])?,
        problems: list.iter().map(problem).collect::<Result<_, _>>()?,
    })
}

/// Home and mode of an object that has both or neither.
fn key(of: &Value) -> Result<Option<(String, String)>, String> {
    match (of["home"].as_str(), of["mode"].as_str()) {
        (Some(home), Some(mode)) => Ok(Some((home.to_owned(), mode.to_owned()))),
        (None, None) => Ok(None),
        _ => Err(format!("home {} and mode {} do not go together", of["home"], of["mode"])),
    }
}

fn problem(value: &Value) -> Result<(String, Severity), String> {
    let code = value["code"].as_str().filter(|code| !code.is_empty()).ok_or("no code")?;
    for place in ["line", "column"] {
        if value[place].as_u64().is_none_or(|n| n == 0) {
            return Err(format!("problem `{code}` has no {place}"));
        }
    }
    let word = value["severity"].as_str().unwrap_or_default();
    let severity = [Severity::Note, Severity::Warning, Severity::Error]
        .into_iter()
        .find(|severity| severity.word() == word)
        .ok_or_else(|| format!("`{word}` is no severity"))?;
    Ok((code.to_owned(), severity))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_answer_is_read_and_a_broken_one_refused() {
        let good = r#"{"schema":1,"source":"a/b.abc","number":"7","home":"E","mode":"dorian",
            "verdict":"clear","written":{"home":"E","mode":"aeolian"},
            "problems":[{"code":"odd","severity":"warning","line":3,"column":1}]}"#;
        let answer = read(good).expect("a good answer");
        assert_eq!((answer.file.as_str(), answer.number.as_str()), ("b.abc", "7"));
        assert_eq!(answer.found, Some(("E".into(), "dorian".into())));
        assert_eq!(answer.written, Some(("E".into(), "aeolian".into())));
        assert_eq!(answer.problems, [("odd".into(), Severity::Warning)]);
        for (from, to) in [
            ("\"schema\":1", "\"schema\":2"),
            ("\"clear\"", "\"none\""),
            ("\"clear\"", "\"sure\""),
            ("\"mode\":\"dorian\"", "\"mode\":null"),
            ("\"line\":3", "\"line\":0"),
            ("\"warning\"", "\"bad\""),
            ("}]}", "}]"),
        ] {
            assert!(read(&good.replace(from, to)).is_err(), "{from} as {to}");
        }
    }
}

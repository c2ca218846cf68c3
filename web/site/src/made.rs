//! Files of other programs, which the engine makes into ABC.

use crate::engine::{Part, said};
use crate::labels;
use crate::state::{Action, Refused};
use js_sys::{Array, Object, Reflect, Uint8Array};
use std::rc::Rc;
use wasm_bindgen::JsValue;
use yew::Callback;

/// Whether bytes begin as a score, a packed score or a MIDI file does: what it is shows in what it
/// holds.
///
/// # Examples
///
/// ```
/// use modewright_site::made::is_of_another_program;
///
/// assert!(is_of_another_program(b"MThd\0\0\0\x06"));
/// assert!(is_of_another_program(b"\xef\xbb\xbf\n<?xml version=\"1.0\"?>"));
/// assert!(!is_of_another_program(b"X:1\nK:D\n") && !is_of_another_program(b"%PDF-1.7"));
/// ```
#[must_use]
pub fn is_of_another_program(bytes: &[u8]) -> bool {
    let midi = bytes.starts_with(b"MThd")
        || bytes.starts_with(b"RIFF") && bytes.get(8..12) == Some(b"RMID");
    if midi || bytes.starts_with(b"PK\x03\x04") {
        return true;
    }
    // A score may be written in units of two bytes.
    let start: Vec<u8> = bytes.iter().take(64).filter(|b| b.is_ascii_graphic()).copied().collect();
    let start = start.to_ascii_lowercase();
    [&b"<?xml"[..], b"<score-", b"<!doctypescore"].iter().any(|sign| start.starts_with(sign))
}

/// Makes a tune of such a file.
pub(crate) fn tune(name: Rc<str>, bytes: &Uint8Array, act: Callback<Action>) {
    let options = Object::new();
    // A new object takes every field.
    let _ = Reflect::set(&options, &"source".into(), &JsValue::from_str(&name));
    Part::Files.ask("readFile", [bytes.into(), options.into()], move |answer| {
        act.emit(match answer.and_then(|answer| read(&answer)) {
            Ok(Some((abc, told))) => Action::Made { name, abc, told: told.into() },
            Ok(None) => Action::Refuse(name, Refused::NotMade(labels::NO_TUNE.into())),
            Err(error) => Action::Refuse(name, Refused::NotMade(said(&error).into())),
        });
    });
}

/// A tune as ABC, and what is said of it.
type Made = (String, Vec<Rc<str>>);

/// The first tune of an answer; an error where there is no music in it, with what was wrong.
fn read(answer: &JsValue) -> Result<Option<Made>, JsValue> {
    let first = Array::from(&Reflect::get(answer, &"tunes".into())?).get(0);
    if first.is_undefined() {
        return Ok(None);
    }
    let list = |name: &str| Reflect::get(&first, &name.into()).map(|list| Array::from(&list));
    let problems = list("problems")?;
    let abc = Reflect::get(&first, &"abc".into())?.as_string().unwrap_or_default();
    if !has_music(&abc) {
        let wrong = problems.get(0);
        return if wrong.is_object() { Err(wrong) } else { Ok(None) };
    }
    let voices: Vec<String> = list("voices")?.iter().filter_map(|it| it.as_string()).collect();
    let mut told: Vec<Rc<str>> = Vec::new();
    if voices.len() > 1 {
        told.push(labels::voices(&voices).into());
    }
    told.extend(problems.iter().map(|problem| Rc::from(said(&problem))));
    Ok(Some((abc, told)))
}

/// Whether anything stands after the head of a tune.
fn has_music(abc: &str) -> bool {
    let after = abc.lines().skip_while(|line| !line.starts_with("K:")).skip(1);
    after.into_iter().any(|line| !line.trim().is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_head_alone_is_no_music() {
        assert!(!has_music("") && !has_music("X:1\nK:\n") && !has_music("X:1\nT:Ebb\nK:D\n\n"));
        assert!(has_music("X:1\nK:D\nDEF|\n"));
    }
}

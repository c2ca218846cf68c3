//! The buttons that save the lesson as a file.

use super::asked::{of_text, options};
use super::tags::{button, of, says, tag, text};
use crate::analysis::Analysis;
use crate::browser::save;
use crate::engine::{Part, said as why};
use crate::labels::lesson as said;
use crate::passages::edited;
use crate::state::State;
use js_sys::Reflect;
use modewright_lesson::walk::Walk;
use wasm_bindgen::JsValue;
use yew::prelude::*;

/// What a lesson can be saved as: its name, the ending of the file, and what browsers call it.
const FILES: [(&str, &str, &str); 8] = [
    ("PDF", "pdf", "application/pdf"),
    ("SVG", "svg", "image/svg+xml"),
    ("HTML", "html", "text/html"),
    ("Markdown", "md", "text/markdown"),
    ("ABC", "abc", "text/vnd.abc"),
    ("MusicXML", "musicxml", "application/vnd.recordare.musicxml+xml"),
    ("MIDI", "mid", "audio/midi"),
    ("WAV", "wav", "audio/wav"),
];

/// The buttons, and what is said of the last one.
pub(super) fn saves(status: &str) -> Html {
    let mut parts = vec![says("legend", "", said::SAVE)];
    for (label, ending, _) in FILES {
        parts.push(button(label, &format!("save {ending}"), true));
    }
    parts.push(tag("p", &["role"], &["status"], vec![text(status)]).into());
    of("fieldset", "saves", parts)
}

/// Makes a file and gives it to the reader; says what came of it.
pub(super) async fn save_as(
    ending: &str,
    analysis: &Analysis,
    state: &State,
    walk: Option<&Walk>,
) -> String {
    let Some((_, ending, kind)) = FILES.into_iter().find(|(_, other, _)| *other == ending) else {
        return String::new();
    };
    let name = format!("{}.{ending}", file_name(analysis));
    match made(ending, analysis, state, walk).await {
        Ok((content, problem)) if save(&name, kind, &content) => {
            format!("{} {problem}", said::saved(&name))
        }
        Ok(_) => said::NOT_SAVED.to_owned(),
        Err(error) => why(&error),
    }
}

/// The content of a file, and what is to be said of it.
async fn made(
    ending: &str,
    analysis: &Analysis,
    state: &State,
    walk: Option<&Walk>,
) -> Result<(JsValue, String), JsValue> {
    let text = analysis.own_text();
    if ending == "abc" && analysis.is_abc() {
        // As it stands: no signs of a tutor's are lost.
        return Ok((JsValue::from_str(&text), String::new()));
    }
    let told = options(&state.lesson, state.given)?;
    if let Some(walk) = walk {
        let words = JsValue::from_str(&edited(walk, state.lesson.edits()).to_markdown());
        if ending == "md" {
            return Ok((words, String::new()));
        }
        Reflect::set(&told, &"words".into(), &words)?;
    }
    let (part, function) = match ending {
        "pdf" => (Part::Print, "sheetPdf"),
        "svg" => (Part::Print, "sheetSvg"),
        "html" => (Part::Print, "sheetHtml"),
        "md" => (Part::Print, "walk"),
        "abc" => (Part::Files, "toAbc"),
        "musicxml" => (Part::Files, "toMusicXml"),
        "mid" => (Part::Files, "toMidi"),
        _ => (Part::Sound, "wav"),
    };
    let told = if matches!(part, Part::Print) { told } else { of_text(state.given)? };
    let answer = part.call(function, vec![JsValue::from_str(&text), told.into()]).await?;
    match ending {
        "pdf" => {
            let problem = Reflect::get(&answer, &"problem".into())?;
            let problem = if problem.is_null() { String::new() } else { why(&problem) };
            Ok((Reflect::get(&answer, &"bytes".into())?, problem))
        }
        "md" => Ok((Reflect::get(&answer, &"markdown".into())?, String::new())),
        _ => Ok((answer, String::new())),
    }
}

/// The name of a file from the title of the tune.
fn file_name(analysis: &Analysis) -> String {
    let title = analysis.reading.tune.header.titles.first().map_or("", String::as_str);
    let mut name = String::new();
    for sign in title.chars().take(60) {
        // Letters of every script; a browser takes care of what a disk does not like.
        if sign.is_ascii_alphanumeric() || !sign.is_ascii() {
            name.push(sign.to_ascii_lowercase());
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    let name = name.trim_end_matches('-');
    if name.is_empty() { "tune".to_owned() } else { name.to_owned() }
}

//! The buttons that save the lesson as a file.

use super::asked::{of_text, options};
use crate::analysis::Analysis;
use crate::browser::save;
use crate::engine::{Part, said as why, set};
use crate::labels::lesson as said;
use crate::parts::tags::{button, of, says, tag, text};
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
    parts.push(tag("p", &["role"], &["status"], vec![text(status)]));
    of("fieldset", "saves", parts)
}

/// Makes a file and gives it to the reader; `told` hears what came of it.
pub(super) fn save_as(
    ending: &str,
    analysis: &Analysis,
    state: &State,
    walk: Option<&Walk>,
    told: impl FnOnce(String) + 'static,
) {
    let Some((_, ending, kind)) = FILES.into_iter().find(|(_, other, _)| *other == ending) else {
        return;
    };
    let name = format!("{}.{ending}", file_name(analysis));
    let text = analysis.own_text();
    let words = walk.map(|walk| edited(walk, state.lesson.edits()).to_markdown());
    // ABC goes out as it stands, so that no sign of a tutor's is lost.
    let own = match ending {
        "abc" => analysis.is_abc().then_some(&text),
        "md" => words.as_ref(),
        _ => None,
    };
    if let Some(own) = own {
        save(&name, kind, &JsValue::from_str(own));
        return told(said::saved(&name));
    }
    let (part, function, field) = match ending {
        "pdf" => (Part::Print, "sheetPdf", "bytes"),
        "svg" => (Part::Print, "sheetSvg", ""),
        "html" => (Part::Print, "sheetHtml", ""),
        "md" => (Part::Print, "walk", "markdown"),
        "abc" => (Part::Files, "toAbc", ""),
        "musicxml" => (Part::Files, "toMusicXml", ""),
        "mid" => (Part::Files, "toMidi", ""),
        _ => (Part::Sound, "wav", ""),
    };
    let asked = if matches!(part, Part::Print) {
        let asked = options(state);
        if let Some(words) = words {
            set(&asked, "words", &words.into());
        }
        asked
    } else {
        of_text(state.given)
    };
    part.ask(function, [text.into(), asked.into()], move |answer| {
        told(match answer {
            Ok(answer) => {
                let of = |name: &str| Reflect::get(&answer, &name.into()).unwrap_or_default();
                let (content, problem) = if field.is_empty() {
                    (answer, JsValue::NULL)
                } else {
                    (of(field), of("problem"))
                };
                save(&name, kind, &content);
                let problem = if problem.is_object() { why(&problem) } else { String::new() };
                format!("{} {problem}", said::saved(&name))
            }
            Err(error) => why(&error),
        });
    });
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

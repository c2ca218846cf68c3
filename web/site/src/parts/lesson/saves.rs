//! The buttons that save the lesson as a file.

use super::asked::{of_text, options};
use crate::analysis::Analysis;
use crate::browser::save;
use crate::engine::{Part, said as why};
use crate::labels::lesson as said;
use crate::passages::edited;
use crate::state::State;
use js_sys::Reflect;
use modewright_lesson::walk::Walk;
use std::rc::Rc;
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

#[derive(Properties)]
pub(super) struct SavesProps {
    pub(super) analysis: Rc<Analysis>,
    pub(super) state: UseReducerHandle<State>,
    pub(super) walk: Option<Rc<Walk>>,
}

impl PartialEq for SavesProps {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.analysis, &other.analysis)
            && self.state == other.state
            && self.walk == other.walk
    }
}

#[component]
pub(super) fn Saves(props: &SavesProps) -> Html {
    let status = use_state(String::new);
    let words = props.walk.as_ref().map(|walk| edited(walk, props.state.lesson.edits()));
    let words = Rc::new(words.map(|walk| walk.to_markdown()));
    html! {
        <fieldset class="saves">
            <legend>{ said::SAVE }</legend>
            { for FILES.into_iter().map(|(label, ending, kind)| {
                let (analysis, state) = (props.analysis.clone(), props.state.clone());
                let (words, status) = (words.clone(), status.setter());
                let onclick = move |_: MouseEvent| {
                    let (analysis, state) = (analysis.clone(), state.clone());
                    let (words, status) = (words.clone(), status.clone());
                    wasm_bindgen_futures::spawn_local(async move {
                        let name = format!("{}.{ending}", file_name(&analysis));
                        status.set(match made(ending, &analysis, &state, words.as_deref()).await {
                            Ok((content, problem)) if save(&name, kind, &content) => {
                                format!("{} {problem}", said::saved(&name))
                            }
                            Ok(_) => said::NOT_SAVED.to_owned(),
                            Err(error) => why(&error),
                        });
                    });
                };
                html! { <button type="button" {onclick}>{ label }</button> }
            }) }
            <p role="status">{ (*status).clone() }</p>
        </fieldset>
    }
}

/// The content of a file, and what is to be said of it.
async fn made(
    ending: &str,
    analysis: &Analysis,
    state: &State,
    words: Option<&str>,
) -> Result<(JsValue, String), JsValue> {
    let text = analysis.own_text();
    if ending == "abc" && analysis.is_abc() {
        // As it stands: no signs of a tutor's are lost.
        return Ok((JsValue::from_str(&text), String::new()));
    }
    let told = options(&state.lesson, state.given)?;
    if let Some(words) = words {
        Reflect::set(&told, &"words".into(), &words.into())?;
        if ending == "md" {
            return Ok((JsValue::from_str(words), String::new()));
        }
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
    let answer = part.call(function, &[JsValue::from_str(&text), told.into()]).await?;
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
        if sign.is_alphanumeric() {
            name.extend(sign.to_lowercase());
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    let name = name.trim_end_matches('-');
    if name.is_empty() { "tune".to_owned() } else { name.to_owned() }
}

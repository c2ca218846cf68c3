//! What reaches outside the page's own data: storage and files.

use crate::browser;
use crate::engine::done;
use crate::kept;
use crate::made;
use crate::state::{Action, LARGEST_FILE, Refused, State};
use crate::words_kept;
pub(crate) use modewright_components::use_width;
use std::rc::Rc;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Document, Element, File, HtmlInputElement, Node, Storage};
use yew::prelude::*;

/// The page's document.
pub(crate) fn document() -> Option<Document> {
    web_sys::window()?.document()
}

/// Storage, where the browser allows it: some refuse to name it at all.
pub(crate) fn storage() -> Option<Storage> {
    web_sys::window()?.local_storage().ok()?
}

/// What an earlier visit left.
fn kept() -> Option<State> {
    kept::read(&storage()?.get_item(kept::PLACE).ok()??)
}

/// What a visit begins with: what the one before left, with the words of all tunes.
pub(crate) fn first() -> State {
    let mut state = kept().unwrap_or_else(State::first_visit);
    state.lesson = state.lesson.with_words(words_kept::all());
    state
}

/// Keeps what matters of the state on the device. Storage that refuses is no error.
#[hook]
pub(crate) fn use_keeping(state: &State) {
    let text = kept::write(state);
    use_effect_with(text, |text| {
        if let Some(storage) = storage() {
            // Full or forbidden: the page works on without.
            let _ = storage.set_item(kept::PLACE, text);
        }
    });
}

/// The byte of the text before which the caret of the field stands.
pub(crate) fn caret(field: &web_sys::HtmlTextAreaElement, text: &str) -> Option<usize> {
    let units = usize::try_from(field.selection_start().ok()??).ok()?;
    let mut seen = 0;
    for (at, character) in text.char_indices() {
        if seen >= units {
            return Some(at);
        }
        seen += character.len_utf16();
    }
    Some(text.len())
}

/// Whether a drag brings a file rather than text of the page.
pub(crate) fn brings_file(event: &DragEvent) -> bool {
    let types = event.data_transfer().map(|data| data.types());
    types.is_some_and(|types| types.includes(&JsValue::from_str("Files"), 0))
}

/// Whether a drag leaves the page, and not one part of it for another.
pub(crate) fn leaves_page(event: &DragEvent) -> bool {
    let to = event.related_target().and_then(|to| to.dyn_into::<Node>().ok());
    let page = event.current_target().and_then(|page| page.dyn_into::<Node>().ok());
    !page.is_some_and(|page| to.is_some() && page.contains(to.as_ref()))
}

/// Opens files.
#[derive(Clone, PartialEq)]
pub(crate) struct Files {
    act: Callback<Action>,
}

impl Files {
    pub(crate) fn new(act: Callback<Action>) -> Self {
        Self { act }
    }

    /// Opens the first file of a drop.
    pub(crate) fn open_dropped(&self, event: &DragEvent) {
        let files = event.data_transfer().and_then(|data| data.files());
        if let Some(file) = files.and_then(|files| files.get(0)) {
            self.open(&file);
        }
    }

    /// Opens the file that was chosen, and makes the input ready to take the same one again.
    pub(crate) fn open_chosen(&self, event: &Event) {
        if let Some(file) = Self::chosen(event) {
            self.open(&file);
        }
    }

    /// The file that was chosen, if any; the input is ready to take the same one again.
    pub(crate) fn chosen(event: &Event) -> Option<File> {
        let input = event.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok())?;
        let file = input.files().and_then(|files| files.get(0));
        input.set_value("");
        file
    }

    fn open(&self, file: &File) {
        let act = self.act.clone();
        let name: Rc<str> = file.name().into();
        #[expect(clippy::cast_precision_loss, reason = "the limit is far below 2^53")]
        let limit = LARGEST_FILE as f64;
        if file.size() > limit {
            act.emit(Action::Refuse(name, Refused::TooLarge));
            return;
        }
        let read = done(move |buffer| match buffer {
            Ok(buffer) => {
                let array = js_sys::Uint8Array::new(&buffer);
                let bytes = array.to_vec();
                if made::is_of_another_program(&bytes) {
                    made::tune(name, &array, act);
                } else {
                    act.emit(Action::Open { name, bytes: bytes.into() });
                }
            }
            Err(_) => act.emit(Action::Refuse(name, Refused::Unreadable)),
        });
        browser::read(file, &read);
    }
}

/// Puts the caret at a byte of the field and shows it.
pub(crate) fn go_to(field: &NodeRef, text: &str, byte: usize) {
    let Some(field) = field.cast::<web_sys::HtmlTextAreaElement>() else { return };
    // Browsers count in UTF-16.
    let before = text.get(..byte).map_or(0, |before| before.encode_utf16().count());
    let at = u32::try_from(before).unwrap_or(u32::MAX);
    // A field that is gone or hidden has no caret to put.
    let _ = field.focus();
    let _ = field.set_selection_range(at, at);
    let mark = field.parent_element().and_then(|frame: Element| {
        frame.query_selector(&format!("[data-at=\"{byte}\"]")).ok().flatten()
    });
    if let Some(mark) = mark {
        mark.scroll_into_view_with_bool(false);
    }
}

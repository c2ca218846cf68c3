//! Keeps the words that the reader changed on the device, each tune's in a place of its own, and
//! hears of what another window keeps.

use crate::browser::use_window_event;
use crate::effects::storage;
use crate::kept::{WORDS, read_words, write_words};
use crate::lesson::{Edit, LessonAction};
use crate::state::Action;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::StorageEvent;
use yew::prelude::*;

/// The words of tunes by the tunes' names.
pub(crate) type All = Vec<(Rc<str>, Rc<[Edit]>)>;

/// The words that earlier visits left.
pub(crate) fn all() -> All {
    let Some(storage) = storage() else { return Vec::new() };
    let names = (0..storage.length().unwrap_or(0)).filter_map(|at| storage.key(at).ok()?);
    let words = names.filter_map(|key| {
        let name = key.strip_prefix(WORDS)?;
        let words = read_words(&storage.get_item(&key).ok()??);
        (!words.is_empty()).then(|| (Rc::from(name), Rc::from(words)))
    });
    words.collect()
}

/// Keeps the words; `false` where the device does not take them.
#[hook]
pub(crate) fn use_words_kept(words: &[(Rc<str>, Rc<[Edit]>)], act: &Callback<Action>) -> bool {
    let is_kept = use_state_eq(|| true);
    let written = use_mut_ref(|| words.to_vec());
    {
        let is_kept = is_kept.setter();
        use_effect_with(words.to_vec(), move |words| {
            let mut written = written.borrow_mut();
            let mut kept = true;
            for (name, _) in written.iter() {
                if let Some(storage) = storage()
                    && !words.iter().any(|(other, _)| other == name)
                {
                    // What cannot be taken away was never there.
                    let _ = storage.remove_item(&format!("{WORDS}{name}"));
                }
            }
            for one @ (name, edits) in words {
                if !written.contains(one) {
                    let put = storage().and_then(|storage| {
                        storage.set_item(&format!("{WORDS}{name}"), &write_words(edits)).ok()
                    });
                    kept &= put.is_some();
                }
            }
            // What was not kept is tried again at the next change.
            if kept {
                written.clone_from(words);
            }
            is_kept.set(kept);
        });
    }
    let act = act.clone();
    use_window_event("storage", move |event| {
        let Ok(event) = event.dyn_into::<StorageEvent>() else { return };
        if let Some(name) = event.key().as_deref().and_then(|key| key.strip_prefix(WORDS)) {
            let words = event.new_value().map(|text| read_words(&text)).unwrap_or_default();
            act.emit(Action::Lesson(LessonAction::Kept(name.into(), words.into())));
        }
    });
    *is_kept
}

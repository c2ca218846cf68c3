//! The parts of the engine that the page loads when they are first needed: programs of their own
//! beside the page's, made from `crates/js`. The answer of a call is a plain object, in the shapes
//! of the answers that every edge gives.

use crate::labels;
use js_sys::{Array, Function, Object, Promise, Reflect};
use std::pin::Pin;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

#[wasm_bindgen]
unsafe extern "C" {
    // Both stand in `static/start.js`: load and start a part once, from the page's own origin; and
    // call a function of it.
    #[wasm_bindgen(catch, js_name = modewrightPart)]
    fn load(name: &str) -> Result<Promise, JsValue>;
    #[wasm_bindgen(js_name = modewrightAsk)]
    fn ask(part: &str, function: &str, values: &Array, done: &Function);
}

/// What an answer is given to, as script calls it: with the answer, or with what went wrong.
/// Boxed, so that the page holds the way there and back once.
pub(crate) fn done(take: impl FnOnce(Result<JsValue, JsValue>) + 'static) -> Function {
    let take: Box<dyn FnOnce(JsValue, JsValue)> = Box::new(move |answer, why: JsValue| {
        take(if why.is_undefined() { Ok(answer) } else { Err(why) });
    });
    Closure::once_into_js(take).unchecked_into()
}

/// Which part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    /// Instruments, heights, fingerings, moving a text.
    Engine,
    /// The walk-through, sheets, PDF.
    Print,
    /// Files of other programs.
    Files,
    /// Tunes as samples.
    Sound,
}

impl Part {
    const fn name(self) -> &'static str {
        match self {
            Self::Engine => "engine",
            Self::Print => "print",
            Self::Files => "files",
            Self::Sound => "sound",
        }
    }

    /// Calls a function of the part, which is loaded where it is not yet there.
    ///
    /// # Errors
    ///
    /// The error that the function threw (it has `message` and `hint`), or that of the browser
    /// where the part could not be loaded: no network at the first use, as a rule.
    #[inline(never)]
    pub(crate) fn call(self, function: &'static str, values: Vec<JsValue>) -> Called {
        Box::pin(async move {
            let module = JsFuture::from(load(self.name())?).await?;
            let called: Function =
                Reflect::get(&module, &JsValue::from_str(function))?.dyn_into()?;
            called.apply(&module, &values.into_iter().collect::<Array>())
        })
    }

    /// The same without a future: `take` is given the answer, or the error. What asks so costs the
    /// page less.
    pub(crate) fn ask(
        self,
        function: &str,
        values: [JsValue; 2],
        take: impl FnOnce(Result<JsValue, JsValue>) + 'static,
    ) {
        let [text, options] = values;
        ask(self.name(), function, &Array::of2(&text, &options), &done(take));
    }
}

/// The answer of a call, one day. Boxed, so that those who ask do not each hold a copy of how.
pub(crate) type Called = Pin<Box<dyn Future<Output = Result<JsValue, JsValue>>>>;

/// A field of an answer by its path, like `words.verdict`; undefined where there is none.
pub(crate) fn field(answer: &JsValue, path: &str) -> JsValue {
    path.split('.').fold(answer.clone(), |at, name| {
        Reflect::get(&at, &JsValue::from_str(name)).unwrap_or(JsValue::UNDEFINED)
    })
}

/// A text of an answer.
pub(crate) fn text(answer: &JsValue, path: &str) -> Option<String> {
    field(answer, path).as_string()
}

/// A list of an answer; empty where there is none.
pub(crate) fn list(answer: &JsValue, path: &str) -> Vec<JsValue> {
    field(answer, path).dyn_into::<Array>().map_or_else(|_| Vec::new(), |list| list.to_vec())
}

/// A list of texts.
pub(crate) fn texts(answer: &JsValue, path: &str) -> Vec<String> {
    list(answer, path).iter().filter_map(JsValue::as_string).collect()
}

/// The options of a call; those that are `None` are left out.
pub(crate) fn options(all: impl IntoIterator<Item = (&'static str, Option<JsValue>)>) -> JsValue {
    let object = JsValue::from(Object::new());
    for (name, value) in all {
        if let Some(value) = value {
            set(&object, name, &value);
        }
    }
    object
}

/// Puts a value into an object of our own, which takes every field.
pub(crate) fn set(object: &JsValue, name: &str, value: &JsValue) {
    let _ = Reflect::set(object, &JsValue::from_str(name), value);
}

/// What an error of a call says to a reader: the engine's own words, or that the part is not here.
pub(crate) fn said(error: &JsValue) -> String {
    let field = |name: &str| Reflect::get(error, &name.into()).ok()?.as_string();
    if field("code").as_deref() == Some("no-such-instrument") {
        // The engine's list of them is a call; the page has its own.
        return labels::instrument::NO_SUCH_INSTRUMENT.to_owned();
    }
    match (field("message"), field("hint")) {
        (Some(message), Some(hint)) if hint.is_empty() => message,
        (Some(message), Some(hint)) => format!("{message}. Please {hint}."),
        _ => labels::NOT_LOADED.to_owned(),
    }
}

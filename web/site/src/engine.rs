//! The parts of the engine that the page loads when they are first needed: programs of their own
//! beside the page's, made from `crates/js`. The answer of a call is a plain object, in the shapes
//! of the answers that every edge gives.

use crate::labels;
use js_sys::{Array, Function, Reflect};
use wasm_bindgen::prelude::*;

#[wasm_bindgen]
unsafe extern "C" {
    // Stands in `static/start.js`: loads and starts a part once, from the page's own origin, and
    // calls a function of it.
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
    #[allow(dead_code, reason = "the place of the instrument asks for it")]
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

    /// Calls a function of the part, which is loaded where it is not yet there. An error is that
    /// which the function threw (it has `message` and `hint`), or that of the browser where the
    /// part could not be loaded: no network at the first use, as a rule.
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

/// What an error of a call says to a reader: the engine's own words, or that the part is not here.
pub(crate) fn said(error: &JsValue) -> String {
    let field = |name: &str| Reflect::get(error, &name.into()).ok()?.as_string();
    match (field("message"), field("hint")) {
        (Some(message), Some(hint)) if hint.is_empty() => message,
        (Some(message), Some(hint)) => format!("{message}. Please {hint}."),
        _ => labels::NOT_LOADED.to_owned(),
    }
}

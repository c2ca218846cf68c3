//! What the script calls.

use crate::app::{App, AppProps};
use crate::host::{Host, Script};
use crate::settings::{Kind, Settings};
use crate::{labels, text};
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{Element, HtmlElement};
use yew::AppHandle;

/// One element under way; freeing it takes down what it shows and stops what sounds.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Mounted {
    app: Option<AppHandle<App>>,
    kind: Kind,
    host: Host,
}

/// Shows an element in a place of its shadow root. `tune` is its own text, `script` what the
/// script does for it.
///
/// # Errors
///
/// A name that is none of the elements'.
#[wasm_bindgen]
pub fn mount(
    place: Element,
    element: HtmlElement,
    tune: &str,
    script: Script,
) -> Result<Mounted, JsError> {
    let name = element.local_name();
    let kind = Kind::named(&name).ok_or_else(|| JsError::new(&labels::unknown(&name)))?;
    let host = Host::new(element, script);
    let props = props(kind, &host, tune);
    let app = yew::Renderer::<App>::with_root_and_props(place, props).render();
    Ok(Mounted { app: Some(app), kind, host })
}

#[wasm_bindgen]
impl Mounted {
    /// Reads the element's attributes and its text again.
    pub fn update(&mut self, tune: &str) {
        let props = props(self.kind, &self.host, tune);
        if let Some(app) = &mut self.app {
            app.update(props);
        }
    }
}

impl Drop for Mounted {
    fn drop(&mut self) {
        if let Some(app) = self.app.take() {
            app.destroy();
        }
    }
}

fn props(kind: Kind, host: &Host, tune: &str) -> AppProps {
    let mut settings = Settings::read(kind, &|name| host.attribute(name));
    if kind.has_tune() && host.holds_markup() {
        settings.mistakes.push(labels::markup());
    }
    AppProps {
        kind,
        settings: Rc::new(settings),
        tune: text::tune(tune).into(),
        host: host.clone(),
    }
}

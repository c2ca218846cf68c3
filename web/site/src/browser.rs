//! What the lesson asks of the browser: files to save, the clipboard, paper, whether a place is
//! near, and links.

use crate::effects::document;
use crate::link::{self, Held, NoLink};
use crate::state::{Action, State};
use crate::{kept, labels};
use js_sys::{Function, Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Element, Event, Window};
use yew::prelude::*;

#[wasm_bindgen]
unsafe extern "C" {
    // All of these stand in `static/start.js`.
    /// Gives a file to the reader.
    #[wasm_bindgen(js_name = modewrightSave)]
    pub(crate) fn save(name: &str, kind: &str, content: &JsValue);
    /// Prints the lesson and nothing else.
    #[wasm_bindgen(js_name = modewrightPrint)]
    pub(crate) fn print_lesson();
    /// Calls once when a place comes near.
    #[wasm_bindgen(js_name = modewrightNear)]
    fn near(place: &Element, heard: &Function);
    #[wasm_bindgen(js_name = modewrightCopy)]
    fn copied(text: &str) -> Promise;
    #[wasm_bindgen(catch, js_name = modewrightPack)]
    fn pack(bytes: &Uint8Array) -> Result<Promise, JsValue>;
    #[wasm_bindgen(catch, js_name = modewrightUnpack)]
    fn unpack(bytes: &Uint8Array, most: u32) -> Result<Promise, JsValue>;
}

/// Whether a place is near what is seen, or was once.
#[hook]
pub(crate) fn use_near(node: &NodeRef) -> bool {
    let is_near = use_state(|| false);
    let (setter, node, now) = (is_near.setter(), node.clone(), *is_near);
    use_effect_with((), move |()| {
        let heard = Closure::<dyn Fn()>::new(move || setter.set(true));
        if let Some(place) = node.cast::<Element>() {
            near(&place, heard.as_ref().unchecked_ref());
        }
        move || drop(heard)
    });
    now
}

/// Listens to an event of the window as long as the component stands.
#[hook]
pub(crate) fn use_window_event(name: &'static str, act: impl Fn(Event) + 'static) {
    use_effect_with((), move |()| {
        let heard = Closure::<dyn Fn(Event)>::new(act);
        let window = web_sys::window();
        if let Some(window) = &window {
            // A window that hears nothing stays as it is.
            let _ = window.add_event_listener_with_callback(name, heard.as_ref().unchecked_ref());
        }
        move || {
            if let Some(window) = window {
                let heard = heard.as_ref().unchecked_ref();
                let _ = window.remove_event_listener_with_callback(name, heard);
            }
        }
    });
}

/// Puts a text on the clipboard; whether the browser allowed it.
pub(crate) async fn copy(text: &str) -> bool {
    JsFuture::from(copied(text)).await.is_ok()
}

/// The address of the page without its fragment.
pub(crate) fn address() -> String {
    let href = web_sys::window().and_then(|window| window.location().href().ok());
    href.unwrap_or_default().split('#').next().unwrap_or_default().to_owned()
}

/// A link to all that the page holds, packed where the browser can.
pub(crate) async fn link_to(state_as_text: &str) -> String {
    let plain = state_as_text.as_bytes();
    let packed = match pack(&Uint8Array::from(plain)) {
        Ok(packed) => JsFuture::from(packed).await.ok(),
        Err(_) => None,
    };
    let held = match packed {
        Some(packed) => Held { bytes: Uint8Array::new(&packed).to_vec(), is_packed: true },
        None => Held { bytes: plain.to_vec(), is_packed: false },
    };
    address() + &link::write(&held)
}

/// Takes what the fragment of the address holds. The fragment goes when it is taken and the device
/// keeps what it held, so that loading the page again does not undo what the reader does next.
pub(crate) fn take_link(act: Callback<Action>) {
    let Some(window) = web_sys::window() else { return };
    let fragment = window.location().hash().unwrap_or_default();
    let held = match link::read(&fragment) {
        Ok(held) => held,
        Err(NoLink::Foreign) => return show(&fragment),
        Err(NoLink::Broken) => return act.emit(Action::BadLink(labels::LINK_BROKEN)),
        Err(NoLink::Newer) => return act.emit(Action::BadLink(labels::LINK_NEWER)),
    };
    wasm_bindgen_futures::spawn_local(async move {
        let state = opened(held).await;
        match state {
            Some(state) => {
                act.emit(Action::Link(Box::new(state)));
                forget_fragment(&window);
            }
            None => act.emit(Action::BadLink(labels::LINK_BROKEN)),
        }
    });
}

async fn opened(held: Held) -> Option<State> {
    let bytes = if held.is_packed {
        let unpacked = unpack(&Uint8Array::from(held.bytes.as_slice()), link::MOST).ok()?;
        Uint8Array::new(&JsFuture::from(unpacked).await.ok()?).to_vec()
    } else {
        held.bytes
    };
    kept::read(&String::from_utf8(bytes).ok()?)
}

fn forget_fragment(window: &Window) {
    if window.local_storage().ok().flatten().is_some()
        && let Ok(history) = window.history()
    {
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&address()));
    }
}

/// Goes to the place of the page that a fragment names: the browser looked for it before it was
/// there.
fn show(fragment: &str) {
    let name = fragment.trim_start_matches('#');
    if let Some(place) = document().and_then(|document| document.get_element_by_id(name)) {
        place.scroll_into_view();
    }
}

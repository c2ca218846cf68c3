//! What the lesson asks of the browser: files to save, the clipboard, paper, whether a place is
//! near, and links.

use crate::effects::document;
use crate::engine::done;
use crate::link::{self, Held, NoLink};
use crate::state::Action;
use crate::{kept, labels};
use js_sys::{Function, Uint8Array};
use wasm_bindgen::prelude::*;
use web_sys::{Element, Event, File, Window};
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
    /// Puts a text on the clipboard.
    #[wasm_bindgen(js_name = modewrightCopy)]
    pub(crate) fn copy(text: &str, done: &Function);
    /// The bytes of a file.
    #[wasm_bindgen(js_name = modewrightRead)]
    pub(crate) fn read(file: &File, done: &Function);
    #[wasm_bindgen(js_name = modewrightPack)]
    fn pack(bytes: &Uint8Array, done: &Function);
    #[wasm_bindgen(js_name = modewrightUnpack)]
    fn unpack(bytes: &Uint8Array, most: u32, done: &Function);
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

/// The address of the page without its fragment.
pub(crate) fn address() -> String {
    let href = web_sys::window().and_then(|window| window.location().href().ok());
    href.unwrap_or_default().split('#').next().unwrap_or_default().to_owned()
}

/// Makes a link to all that the page holds, packed where the browser can.
pub(crate) fn link_to(state_as_text: &str, take: impl FnOnce(String) + 'static) {
    let plain = state_as_text.as_bytes().to_vec();
    let bytes = Uint8Array::from(plain.as_slice());
    let made = done(move |packed| {
        let held = match packed {
            Ok(packed) => Held { bytes: Uint8Array::new(&packed).to_vec(), is_packed: true },
            Err(_) => Held { bytes: plain, is_packed: false },
        };
        take(address() + &link::write(&held));
    });
    pack(&bytes, &made);
}

/// Takes what the fragment of the address holds. The fragment goes when it is taken and the device
/// keeps what it held, so that loading the page again does not undo what the reader does next.
pub(crate) fn take_link(act: &Callback<Action>) {
    let Some(window) = web_sys::window() else { return };
    let fragment = window.location().hash().unwrap_or_default();
    match link::read(&fragment) {
        Ok(Held { bytes, is_packed: false }) => open(act, bytes),
        Ok(Held { bytes, .. }) => {
            let act = act.clone();
            let taken = done(move |bytes| match bytes {
                Ok(bytes) => open(&act, Uint8Array::new(&bytes).to_vec()),
                Err(_) => act.emit(Action::BadLink(labels::LINK_BROKEN)),
            });
            unpack(&Uint8Array::from(bytes.as_slice()), link::MOST, &taken);
        }
        Err(NoLink::Foreign) => show(&fragment),
        Err(NoLink::Broken) => act.emit(Action::BadLink(labels::LINK_BROKEN)),
        Err(NoLink::Newer) => act.emit(Action::BadLink(labels::LINK_NEWER)),
    }
}

fn open(act: &Callback<Action>, bytes: Vec<u8>) {
    let Some(state) = kept::read_link(bytes) else {
        return act.emit(Action::BadLink(labels::LINK_BROKEN));
    };
    act.emit(Action::Link(Box::new(state)));
    if let Some(window) = web_sys::window() {
        forget_fragment(&window);
    }
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

//! What the lesson asks of the browser: files to save, the clipboard, paper, whether a place is
//! near, links, and whether another version of the page has come.

use crate::effects::document;
use crate::link::{self, Held, NoLink};
use crate::state::{Action, State};
use crate::{kept, labels};
use js_sys::{Array, Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, BlobPropertyBag, Element, Event, HtmlAnchorElement, IntersectionObserver,
    IntersectionObserverEntry, IntersectionObserverInit, Url, Window,
};
use yew::prelude::*;

#[wasm_bindgen]
unsafe extern "C" {
    // Both stand in `static/start.js`.
    #[wasm_bindgen(catch, js_name = modewrightPack)]
    fn pack(bytes: &Uint8Array) -> Result<Promise, JsValue>;
    #[wasm_bindgen(catch, js_name = modewrightUnpack)]
    fn unpack(bytes: &Uint8Array, most: u32) -> Result<Promise, JsValue>;
}

/// Whether a place is near what is seen, or was once.
#[hook]
pub(crate) fn use_near(node: &NodeRef) -> bool {
    let near = use_state(|| false);
    let (setter, node, now) = (near.setter(), node.clone(), *near);
    use_effect_with((), move |()| {
        let heard = Closure::<dyn Fn(Array)>::new(move |seen: Array| {
            let entries = seen.iter().filter_map(|one| one.dyn_into().ok());
            if entries.into_iter().any(|one: IntersectionObserverEntry| one.is_intersecting()) {
                setter.set(true);
            }
        });
        let options = IntersectionObserverInit::new();
        options.set_root_margin("400px");
        let heard_by = heard.as_ref().unchecked_ref();
        let observer = IntersectionObserver::new_with_options(heard_by, &options).ok();
        if let (Some(observer), Some(place)) = (&observer, node.cast::<Element>()) {
            observer.observe(&place);
        }
        move || {
            if let Some(observer) = observer {
                observer.disconnect();
            }
            drop(heard);
        }
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

/// Gives a file to the reader; whether the browser took it.
pub(crate) fn save(name: &str, kind: &str, content: &JsValue) -> bool {
    try_save(name, kind, content).is_some()
}

fn try_save(name: &str, kind: &str, content: &JsValue) -> Option<()> {
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let parts = Array::of1(content);
    let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &options).ok()?;
    let address = Url::create_object_url_with_blob(&blob).ok()?;
    let anchor = document()?.create_element("a").ok()?.dyn_into::<HtmlAnchorElement>().ok()?;
    anchor.set_href(&address);
    anchor.set_download(name);
    anchor.click();
    // The browser has the bytes by then; a large file may take its time.
    gloo_timers::callback::Timeout::new(60_000, move || {
        let _ = Url::revoke_object_url(&address);
    })
    .forget();
    Some(())
}

/// Puts a text on the clipboard; whether the browser allowed it.
pub(crate) async fn copy(text: &str) -> bool {
    let Some(window) = web_sys::window() else { return false };
    JsFuture::from(window.navigator().clipboard().write_text(text)).await.is_ok()
}

/// The class of the document while the lesson alone is printed.
const LESSON_ONLY: &str = "lesson-only";

/// Prints the lesson and nothing else.
pub(crate) fn print_lesson() {
    if let (Some(window), Some(root)) = (web_sys::window(), root()) {
        // A class that is there already, and a browser that does not print, are no harm.
        let _ = root.class_list().add_1(LESSON_ONLY);
        let _ = window.print();
    }
}

/// After printing: the whole page again.
pub(crate) fn after_print() {
    if let Some(root) = root() {
        let _ = root.class_list().remove_1(LESSON_ONLY);
    }
}

fn root() -> Option<Element> {
    document()?.document_element()
}

/// The address of the page without its fragment.
pub(crate) fn address() -> String {
    let href = web_sys::window().and_then(|window| window.location().href().ok());
    href.unwrap_or_default().split('#').next().unwrap_or_default().to_owned()
}

/// Loads the page again.
pub(crate) fn reload() {
    if let Some(window) = web_sys::window() {
        let _ = window.location().reload();
    }
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

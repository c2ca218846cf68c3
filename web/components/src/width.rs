//! The room that an element has.

use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, ResizeObserver};
use yew::prelude::*;

/// What a change of width is worth drawing again for, in pixels: more than a scroll bar that comes
/// and goes.
const WORTH: u32 = 20;

/// The width of an element in pixels, kept up with the room for it; 0 before it is laid out.
#[hook]
pub fn use_width(node: &NodeRef) -> u32 {
    let width = use_state_eq(|| 0_u32);
    let (setter, node, now) = (width.setter(), node.clone(), *width);
    use_effect_with((), move |()| {
        let mut last = 0;
        let measure = {
            let node = node.clone();
            move || {
                let wide = node.cast::<Element>().map_or(0, |element| element.client_width());
                let wide = wide.unsigned_abs();
                if wide > 0 && wide.abs_diff(last) >= WORTH {
                    last = wide;
                    setter.set(wide);
                }
            }
        };
        let heard = Closure::<dyn FnMut()>::new(measure);
        // A browser that observes nothing draws nothing: all that run this program do.
        let observer = ResizeObserver::new(heard.as_ref().unchecked_ref()).ok();
        if let (Some(observer), Some(element)) = (&observer, node.cast::<Element>()) {
            observer.observe(&element);
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

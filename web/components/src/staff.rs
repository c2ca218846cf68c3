//! The staff: a finished picture of a tune, whose notes can be pointed at and lit.
//!
//! The picture is made by the engraver, which escapes what it writes; here it is only shown. Every
//! note of it says its index in `data-i`.

use wasm_bindgen::JsCast;
use web_sys::{Element, KeyboardEvent, MouseEvent};
use yew::prelude::*;

/// What the staff is given.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct StaffProps {
    /// The picture, as SVG.
    pub picture: AttrValue,
    /// What it is, in a few words.
    pub label: AttrValue,
    /// The notes that can be pointed at, in order.
    pub notes: std::rc::Rc<[usize]>,
    /// The note that is pointed at.
    #[prop_or_default]
    pub pointed: Option<usize>,
    /// The note that sounds.
    #[prop_or_default]
    pub lit: Option<usize>,
    /// A note was pointed at, or none.
    pub on_point: Callback<Option<usize>>,
}

/// The staff. The arrow keys lead from note to note.
#[component]
pub fn Staff(props: &StaffProps) -> Html {
    let node = use_node_ref();
    {
        let node = node.clone();
        let what = (props.picture.clone(), props.pointed, props.lit);
        use_effect_with(what, move |(_, pointed, lit)| {
            if let Some(frame) = node.cast::<Element>() {
                mark(&frame, "pointed", *pointed);
                mark(&frame, "lit", *lit);
                if lit.is_some() {
                    show_lit(&frame);
                }
            }
        });
    }
    let onclick = {
        let on_point = props.on_point.clone();
        Callback::from(move |event: MouseEvent| {
            let frame = event.current_target().and_then(|t| t.dyn_into::<Element>().ok());
            on_point.emit(frame.and_then(|frame| nearest(&frame, &event)));
        })
    };
    let onkeydown = {
        let (on_point, notes, pointed) =
            (props.on_point.clone(), props.notes.clone(), props.pointed);
        Callback::from(move |event: KeyboardEvent| {
            if let Some(next) = after_key(&event.key(), &notes, pointed) {
                event.prevent_default();
                on_point.emit(next);
            }
        })
    };
    html! {
        <div class="staff" ref={node} tabindex="0" role="group" aria-label={props.label.clone()} {onclick} {onkeydown}>
            { Html::from_html_unchecked(props.picture.clone()) }
        </div>
    }
}

/// The note that a key leads to; `None` for a key that leads nowhere.
///
/// # Examples
///
/// ```
/// use modewright_components::staff::after_key;
///
/// assert_eq!(after_key("ArrowRight", &[0, 1, 3], Some(1)), Some(Some(3)));
/// // From nowhere to the first note; beyond the last one stays there.
/// assert_eq!(after_key("ArrowRight", &[0, 1, 3], None), Some(Some(0)));
/// assert_eq!(after_key("ArrowRight", &[0, 1, 3], Some(3)), Some(Some(3)));
/// assert_eq!(after_key("Escape", &[0, 1, 3], Some(3)), Some(None));
/// ```
#[must_use]
pub fn after_key(key: &str, notes: &[usize], pointed: Option<usize>) -> Option<Option<usize>> {
    let (first, last) = (notes.first().copied(), notes.last().copied());
    match key {
        "Home" => Some(first),
        "End" => Some(last),
        "Escape" => Some(None),
        "ArrowRight" => {
            let next = pointed.map_or(first, |at| notes.iter().copied().find(|n| *n > at).or(last));
            Some(next)
        }
        "ArrowLeft" => {
            let before = |at| notes.iter().rev().copied().find(|n| *n < at).or(first);
            Some(pointed.map_or(last, before))
        }
        _ => None,
    }
}

/// What is left above and below the note that sounds, in pixels: room for its row.
const LEAVE: f64 = 48.0;

/// How far from a note a finger may come down, in pixels.
const REACH: f64 = 24.0;

/// The note at or next to the place of a click.
fn nearest(frame: &Element, event: &MouseEvent) -> Option<usize> {
    let marks = frame.query_selector_all("g[data-i]").ok()?;
    let (x, y) = (f64::from(event.client_x()), f64::from(event.client_y()));
    // Of two that hold the place the smaller one is meant: the first note of a beam holds all of it.
    let mut best: Option<((f64, f64), usize)> = None;
    for at in 0..marks.length() {
        let Some(mark) = marks.item(at).and_then(|n| n.dyn_into::<Element>().ok()) else {
            continue;
        };
        let Some(note) = mark.get_attribute("data-i").and_then(|i| i.parse().ok()) else {
            continue;
        };
        let place = mark.get_bounding_client_rect();
        let across = (place.left() - x).max(x - place.right()).max(0.0);
        let down = (place.top() - y).max(y - place.bottom()).max(0.0);
        let away = across.max(down);
        let order = (away, place.width());
        if away <= REACH && best.is_none_or(|(least, _)| order < least) {
            best = Some((order, note));
        }
    }
    best.map(|(_, note)| note)
}

/// Moves the staff, and not the page, so that the note that sounds can be seen.
fn show_lit(frame: &Element) {
    let Ok(Some(note)) = frame.query_selector("g.lit") else { return };
    let (note, seen) = (note.get_bounding_client_rect(), frame.get_bounding_client_rect());
    let above = note.top() - seen.top() - LEAVE;
    let below = note.bottom() - seen.bottom() + LEAVE;
    let by = if above < 0.0 { above } else { below.max(0.0) };
    #[expect(clippy::cast_possible_truncation, reason = "pixels of a screen")]
    let by = by as i32;
    if by != 0 {
        frame.set_scroll_top(frame.scroll_top().saturating_add(by));
    }
}

/// Puts a class on the marks of one note, and takes it from all others.
fn mark(frame: &Element, class: &str, note: Option<usize>) {
    if let Ok(marked) = frame.query_selector_all(&format!("g.{class}")) {
        for i in 0..marked.length() {
            if let Some(element) = marked.item(i).and_then(|n| n.dyn_into::<Element>().ok()) {
                // A class that cannot be taken away is a picture that is gone.
                let _ = element.class_list().remove_1(class);
            }
        }
    }
    let Some(note) = note else { return };
    let Ok(wanted) = frame.query_selector_all(&format!("g[data-i=\"{note}\"]")) else { return };
    for i in 0..wanted.length() {
        if let Some(element) = wanted.item(i).and_then(|n| n.dyn_into::<Element>().ok()) {
            let _ = element.class_list().add_1(class);
        }
    }
}

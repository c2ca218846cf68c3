//! The wheel as a component: drawing, handles, buttons.

use super::drawing;
use super::grip::{Grip, Part, Turned};
use super::layout::{self, HALF, Layout};
use super::marks::{NoteTime, Role, place_marks};
use super::turn;
use crate::number::hundredths;
use modewright_core::{Key, Signature, Spelling};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlSelectElement, SvgElement};
use yew::prelude::*;

/// Every word that the wheel shows or speaks.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelWords {
    /// Heading of the two orders, and their names.
    pub layout: AttrValue,
    /// The order by pitch.
    pub by_pitch: AttrValue,
    /// The order by fifths.
    pub by_fifths: AttrValue,
    /// What turning the home marker does.
    pub turn_home: AttrValue,
    /// To the home one place back, and one place on.
    pub home_back: AttrValue,
    /// To the home one place on.
    pub home_on: AttrValue,
    /// What turning the ring does.
    pub turn_ring: AttrValue,
    /// One step darker.
    pub darker: AttrValue,
    /// One step brighter.
    pub brighter: AttrValue,
    /// Moving everything to another signature.
    pub signature: AttrValue,
    /// The fifteen signatures in words, from seven flats to seven sharps.
    pub signatures: Rc<[AttrValue]>,
    /// Home, mode and signature of the key shown, as they stand in the hub.
    pub hub: (AttrValue, AttrValue, AttrValue),
    /// The key shown in one sentence, for those who do not see the wheel.
    pub sentence: AttrValue,
    /// The signs of the drawing, told: home, in the mode, changed, from outside, left open.
    pub legend: [AttrValue; 5],
}

/// What the wheel is given.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct WheelProps {
    /// The key to show.
    pub shown: Key,
    /// The key that changes are told against.
    #[prop_or_default]
    pub compared: Option<Key>,
    /// The order of the notes.
    pub layout: Layout,
    /// The notes of the tune.
    pub notes: Rc<[NoteTime]>,
    /// The forms of degrees that the tune leaves open.
    pub open: Rc<[Spelling]>,
    /// Its words.
    pub words: WheelWords,
    /// What stands at its foot: how the key is heard.
    #[prop_or_default]
    pub children: Html,
    /// Told the key that the wheel was turned to.
    pub on_turn: Callback<Key>,
    /// Told the order that was chosen.
    pub on_layout: Callback<Layout>,
}

/// Where a part stands beyond its place while it is held.
#[derive(Clone, Copy, Default, PartialEq)]
struct Held {
    home: Option<f64>,
    ring: Option<f64>,
}

/// The wheel.
#[component]
pub fn Wheel(props: &WheelProps) -> Html {
    let svg = use_node_ref();
    let hand = use_node_ref();
    let grip = use_mut_ref(|| None::<Grip>);
    let held = use_state(Held::default);
    let key = turn::writable(props.shown);
    let layout = props.layout;
    let marks = use_memo(
        (key, props.compared, props.notes.clone(), props.open.clone()),
        |(key, compared, notes, open)| place_marks(*key, *compared, notes, open),
    );
    use_hand_angle(&hand, layout.degrees(key.home.pitch_class()));

    let take = |part: Part| {
        let (svg, grip) = (svg.clone(), grip.clone());
        Callback::from(move |event: PointerEvent| {
            if event.button() != 0 || grip.borrow().is_some() {
                return;
            }
            let Some(at) = in_drawing(&svg, &event) else { return };
            if let Some(svg) = svg.cast::<Element>() {
                // Without capture the turn ends at the edge of the drawing; nothing else is lost.
                let _ = svg.set_pointer_capture(event.pointer_id());
            }
            *grip.borrow_mut() = Some(Grip::take(part, event.pointer_id(), key, layout, at));
        })
    };
    let on_move = {
        let (svg, grip, held, on_turn) =
            (svg.clone(), grip.clone(), held.clone(), props.on_turn.clone());
        Callback::from(move |event: PointerEvent| {
            let mut grip = grip.borrow_mut();
            let Some(grip) = grip.as_mut().filter(|g| g.pointer == event.pointer_id()) else {
                return;
            };
            let Some(Turned { key: now, beyond }) =
                in_drawing(&svg, &event).and_then(|at| grip.follow(at))
            else {
                return;
            };
            held.set(match grip.part {
                Part::Home => Held { home: Some(beyond), ring: None },
                Part::Ring => Held { home: None, ring: Some(beyond) },
            });
            if now != key {
                on_turn.emit(now);
            }
        })
    };
    let on_up = {
        let (grip, held, on_turn) = (grip.clone(), held.clone(), props.on_turn.clone());
        Callback::from(move |event: PointerEvent| {
            let Some(grip) = grip.take_if(|g| g.pointer == event.pointer_id()) else { return };
            held.set(Held::default());
            if let Some(touched) = grip.let_go() {
                on_turn.emit(touched);
            }
        })
    };
    // The browser takes the pointer away when it turns out to scroll the page.
    let on_cancel = {
        let (grip, held, on_turn) = (grip.clone(), held.clone(), props.on_turn.clone());
        Callback::from(move |event: PointerEvent| {
            let Some(grip) = grip.take_if(|g| g.pointer == event.pointer_id()) else { return };
            held.set(Held::default());
            on_turn.emit(grip.key);
        })
    };

    let home_keys = keys(&props.on_turn, move |name| {
        Some(match name {
            "ArrowRight" | "ArrowUp" => turn::home_by(key, layout, 1),
            "ArrowLeft" | "ArrowDown" => turn::home_by(key, layout, -1),
            "Home" => key.parent().ok()?,
            "End" => key.relatives().ok()?.last().copied()?,
            _ => return None,
        })
    });
    let ring_keys = keys(&props.on_turn, move |name| {
        Some(match name {
            "ArrowRight" | "ArrowUp" => turn::ring_by(key, 1),
            "ArrowLeft" | "ArrowDown" => turn::ring_by(key, -1),
            "Home" => turn::ring_by(key, -6),
            "End" => turn::ring_by(key, 6),
            _ => return None,
        })
    });
    let words = &props.words;
    let side = |times: f64| hundredths(times * HALF);
    let view_box = format!("{} {} {} {}", side(-1.0), side(-1.0), side(2.0), side(2.0));
    let holding = match (held.home, held.ring) {
        (None, None) => None,
        (Some(_), _) => Some("holding-home"),
        (None, Some(_)) => Some("holding-ring"),
    };
    let order = match layout {
        Layout::Pitch => "by-pitch",
        Layout::Fifths => "by-fifths",
    };
    html! {
        <div class="wheel">
            { layout_choice(layout, words, &props.on_layout) }
            <svg ref={svg.clone()} class={classes!("wheel-drawing", order, holding)} viewBox={view_box}
                role="group" aria-label={words.sentence.clone()}
                onpointermove={on_move} onpointerup={on_up} onpointercancel={on_cancel}>
                <circle class="rail" r={hundredths(layout::NAMES)} />
                <g class="ring" tabindex="0" role="slider" aria-label={words.turn_ring.clone()}
                    aria-valuemin="0" aria-valuemax="6"
                    aria-valuenow={(6 - key.mode.darkness()).to_string()}
                    aria-valuetext={words.sentence.clone()}
                    onpointerdown={take(Part::Ring)} onkeydown={ring_keys}>
                    <circle class="focus-ring" r={hundredths(layout::RIM.1 + 3.0)} />
                    { for marks.iter().map(|mark| drawing::place(mark, layout, held.ring.unwrap_or(0.0))) }
                </g>
                <g ref={hand} class="hand" tabindex="0" role="slider" aria-label={words.turn_home.clone()}
                    aria-valuemin="1" aria-valuemax="7" aria-valuenow={key.mode.parent_degree().to_string()}
                    aria-valuetext={words.sentence.clone()}
                    onpointerdown={take(Part::Home)} onkeydown={home_keys}>
                    { drawing::home_marker(
                        held.home.unwrap_or(0.0),
                        marks.iter().find(|m| m.role == Role::Home).map_or(0.0, |m| m.share),
                    ) }
                </g>
                { for marks.iter().map(|mark| drawing::home_name(mark, layout)) }
                { drawing::hub(&words.hub.0, &words.hub.1, &words.hub.2) }
            </svg>
            <ul class="legend" aria-hidden="true">
                { for ["home", "in-mode", "changed", "foreign", "open"].iter().zip(&words.legend).map(|(class, word)| html! {
                    <li><svg class={classes!("legend-sign", *class)} viewBox="-12 -12 24 24">{ legend_sign(class) }</svg>{ word.clone() }</li>
                }) }
            </ul>
            <div class="steppers">
                { stepper(&words.turn_home, &words.hub.0, [
                    (&words.home_back, turn::home_by(key, layout, -1)),
                    (&words.home_on, turn::home_by(key, layout, 1)),
                ], key, &props.on_turn) }
                { stepper(&words.turn_ring, &words.hub.1, [
                    (&words.darker, turn::ring_by(key, -1)),
                    (&words.brighter, turn::ring_by(key, 1)),
                ], key, &props.on_turn) }
            </div>
            <div class="wheel-foot">
                { signature_choice(key, words, &props.on_turn) }
                { props.children.clone() }
            </div>
        </div>
    }
}

/// One way to turn, by two buttons with what the wheel shows between them. A button that would
/// change nothing rests.
fn stepper(
    title: &AttrValue,
    now: &AttrValue,
    buttons: [(&AttrValue, Key); 2],
    shown: Key,
    on_turn: &Callback<Key>,
) -> Html {
    let [back, on] = buttons.map(|(word, to)| {
        let on_turn = on_turn.clone();
        html! {
            <button type="button" disabled={to == shown} onclick={move |_| on_turn.emit(to)}>{ word.clone() }</button>
        }
    });
    html! {
        <div class="stepper" role="group" aria-label={title.clone()}>
            <span class="stepper-title">{ title.clone() }</span>
            { back }
            <output>{ now.clone() }</output>
            { on }
        </div>
    }
}

fn legend_sign(class: &str) -> Html {
    match class {
        "home" => html! { <path d="M-8 8V-1L0 -9L8 -1V8Z" /> },
        "in-mode" => html! { <rect x="-10" y="-7" width="20" height="14" rx="2" /> },
        "changed" => html! { <path d="M-9 -2L-4.5 -9L0 -2ZM0 2L4.5 9L9 2Z" /> },
        "foreign" => html! { <><circle class="dashes" r="8" /><circle r="2.5" /></> },
        _ => html! { <circle class="dashes" r="8" /> },
    }
}

/// By pitch or by fifths.
fn layout_choice(layout: Layout, words: &WheelWords, on_layout: &Callback<Layout>) -> Html {
    let now = layout;
    let choice = |layout: Layout, word: &AttrValue| {
        let on_layout = on_layout.clone();
        let chosen = now == layout;
        html! {
            <button type="button" aria-pressed={chosen.to_string()}
                onclick={move |_| on_layout.emit(layout)}>{ word.clone() }</button>
        }
    };
    html! {
        <div class="layout-choice" role="group" aria-label={words.layout.clone()}>
            { choice(Layout::Fifths, &words.by_fifths) }
            { choice(Layout::Pitch, &words.by_pitch) }
        </div>
    }
}

/// The same mode under another signature.
fn signature_choice(key: Key, words: &WheelWords, on_turn: &Callback<Key>) -> Html {
    let now = key.signature().ok();
    let onchange = {
        let on_turn = on_turn.clone();
        Callback::from(move |event: Event| {
            let select = event.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok());
            let chosen = select.and_then(|s| s.value().parse::<i32>().ok());
            if let Some(Ok(signature)) = chosen.map(Signature::new) {
                on_turn.emit(turn::with_signature(key, signature));
            }
        })
    };
    html! {
        <label class="signature-choice">
            <span>{ words.signature.clone() }</span>
            <select {onchange}>
                { for Signature::all().zip(words.signatures.iter()).map(|(signature, word)| html! {
                    <option value={signature.fifths().to_string()} selected={now == Some(signature)}>{ word.clone() }</option>
                }) }
            </select>
        </label>
    }
}

/// Turns the hand to an angle by the shorter way. The angle is a custom property set from code,
/// because the page allows no inline style.
#[hook]
fn use_hand_angle(hand: &NodeRef, degrees: f64) {
    let turned = use_mut_ref(|| degrees);
    let hand = hand.clone();
    #[expect(clippy::cast_possible_truncation, reason = "places are whole degrees below 360")]
    use_effect_with(degrees as i32, move |_| {
        let mut turned = turned.borrow_mut();
        *turned = layout::nearest_turn(*turned, degrees);
        if let Some(hand) = hand.cast::<SvgElement>() {
            // A browser that refuses leaves the hand where it was.
            let _ = hand
                .style()
                .set_property("--modewright-turn", &format!("{}deg", hundredths(*turned)));
        }
    });
}

/// A handler that turns on the keys that `turned` knows and leaves all others to the page.
fn keys(
    on_turn: &Callback<Key>,
    turned: impl Fn(&str) -> Option<Key> + 'static,
) -> Callback<KeyboardEvent> {
    let on_turn = on_turn.clone();
    Callback::from(move |event: KeyboardEvent| {
        if event.ctrl_key() || event.alt_key() || event.meta_key() {
            return;
        }
        if let Some(key) = turned(&event.key()) {
            event.prevent_default();
            on_turn.emit(key);
        }
    })
}

/// Where a pointer is, in units of the drawing.
fn in_drawing(svg: &NodeRef, event: &PointerEvent) -> Option<(f64, f64)> {
    let area = svg.cast::<Element>()?.get_bounding_client_rect();
    let side = area.width().min(area.height());
    let unit = if side > 0.0 { 2.0 * HALF / side } else { return None };
    let x = f64::from(event.client_x()) - area.left() - area.width() / 2.0;
    let y = f64::from(event.client_y()) - area.top() - area.height() / 2.0;
    Some((x * unit, y * unit))
}

/// Taking something out of a shared place if it is the right one.
trait TakeIf<T> {
    fn take_if(&self, right: impl FnOnce(&T) -> bool) -> Option<T>;
}

impl<T> TakeIf<T> for std::cell::RefCell<Option<T>> {
    fn take_if(&self, right: impl FnOnce(&T) -> bool) -> Option<T> {
        let mut place = self.borrow_mut();
        place.take_if(|held| right(held))
    }
}

//! What can be set about the playing.

use super::{PlayerProps, Settings};
use modewright_sound::Voice;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, HtmlSelectElement};
use yew::prelude::*;

/// What is written on the player.
#[derive(Clone, Debug, PartialEq)]
pub struct PlayerWords {
    /// The button, at rest.
    pub play: AttrValue,
    /// The button, while it sounds.
    pub stop: AttrValue,
    /// How loud.
    pub loudness: AttrValue,
    /// Heading of the rest.
    pub how: AttrValue,
    /// How fast; what stands after the number.
    pub speed: AttrValue,
    /// The first bar to play.
    pub first_bar: AttrValue,
    /// The last bar to play.
    pub last_bar: AttrValue,
    /// The button that plays all bars.
    pub all_bars: AttrValue,
    /// Whether it begins again.
    pub again: AttrValue,
    /// How many bars are counted in.
    pub count_in: AttrValue,
    /// Whether the clicks go on.
    pub click: AttrValue,
    /// Whether home sounds below.
    pub drone: AttrValue,
    /// What it is played with, and the two voices.
    pub voice: [AttrValue; 3],
    /// Said where the browser gives no sound.
    pub silent: AttrValue,
    /// Said where it would last too long.
    pub too_long: AttrValue,
    /// Said where there is nothing to play.
    pub nothing: AttrValue,
}

/// The controls; each change is the settings with one thing changed.
pub(super) fn controls(props: &PlayerProps) -> Html {
    let (words, now) = (&props.words, props.settings);
    let set = |change: fn(&mut Settings, u32)| {
        let on_settings = props.on_settings.clone();
        Callback::from(move |event: Event| {
            if let Some(value) = number(&event) {
                let mut next = now;
                change(&mut next, value);
                on_settings.emit(next);
            }
        })
    };
    let loud = {
        let on_settings = props.on_settings.clone();
        Callback::from(move |event: InputEvent| {
            if let Some(value) = number(&event) {
                let loudness = u8::try_from(value.min(100)).unwrap_or(100);
                on_settings.emit(Settings { loudness, ..now });
            }
        })
    };
    let all = {
        let on_settings = props.on_settings.clone();
        Callback::from(move |_: MouseEvent| on_settings.emit(Settings { bars: None, ..now }))
    };
    let last = props.last_bar;
    let bar = |first: bool, name: &AttrValue| {
        let on_settings = props.on_settings.clone();
        let value =
            now.bars.map_or(if first { 1 } else { last }, |(a, b)| if first { a } else { b });
        let onchange = Callback::from(move |event: Event| {
            if let Some(value) = number(&event) {
                let (low, high) = now.bars.unwrap_or((1, last));
                let (value, high) = (value.min(last), high.min(last));
                let bars = if first { (value, high.max(value)) } else { (low.min(value), value) };
                on_settings.emit(Settings { bars: Some(bars), ..now });
            }
        });
        html! {
            <label><span>{ name.clone() }</span>
                <input type="number" min="0" max={last.to_string()} value={value.to_string()} {onchange} />
            </label>
        }
    };
    let (slowest, fastest) = Settings::SPEEDS;
    let tick = |name: &AttrValue, on: bool, onchange: Callback<Event>| {
        html! { <label class="tick"><input type="checkbox" checked={on} {onchange} /><span>{ name.clone() }</span></label> }
    };
    html! {
        <>
            <label class="loudness"><span>{ words.loudness.clone() }</span>
                <input type="range" min="0" max="100" step="5" value={now.loudness.to_string()} oninput={loud} />
            </label>
            <details class="playing">
                <summary>{ words.how.clone() }</summary>
                <div class="playing-controls">
                    <label class="speed"><span>{ format!("{} {} %", words.speed, now.percent) }</span>
                        <input type="range" min={slowest.to_string()} max={fastest.to_string()} step="5" value={now.percent.to_string()}
                            onchange={set(|next, value| next.percent = value)} />
                    </label>
                    <span class="some-bars">
                        { bar(true, &words.first_bar) }
                        { bar(false, &words.last_bar) }
                        <button type="button" disabled={now.bars.is_none()} onclick={all}>{ words.all_bars.clone() }</button>
                    </span>
                    { tick(&words.again, now.again, set(|next, on| next.again = on > 0)) }
                    { tick(&words.click, now.click, set(|next, on| next.click = on > 0)) }
                    { tick(&words.drone, now.drone, set(|next, on| next.drone = on > 0)) }
                    <label><span>{ words.count_in.clone() }</span>
                        <select onchange={set(|next, value| next.count_in = value)}>
                            { for (0..=2_u32).map(|bars| html! {
                                <option value={bars.to_string()} selected={now.count_in == bars}>{ bars }</option>
                            }) }
                        </select>
                    </label>
                    <label><span>{ words.voice[0].clone() }</span>
                        <select onchange={set(|next, value| next.voice = if value > 0 { Voice::Reed } else { Voice::Plucked })}>
                            <option value="0" selected={now.voice == Voice::Plucked}>{ words.voice[1].clone() }</option>
                            <option value="1" selected={now.voice == Voice::Reed}>{ words.voice[2].clone() }</option>
                        </select>
                    </label>
                </div>
            </details>
        </>
    }
}

/// What a control stands at: its number, or 1 and 0 for a box with a tick and without.
fn number(event: &Event) -> Option<u32> {
    let target = event.target()?;
    if let Some(select) = target.dyn_ref::<HtmlSelectElement>() {
        return select.value().parse().ok();
    }
    let input = target.dyn_ref::<HtmlInputElement>()?;
    if input.type_() == "checkbox" {
        return Some(u32::from(input.checked()));
    }
    input.value().parse().ok()
}

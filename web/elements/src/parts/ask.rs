//! A box to ask in: which mode is this?

use super::tune::problems;
use super::verdict::verdict;
use super::wheel::WheelPlace;
use crate::host::Host;
use crate::labels;
use crate::settings::Settings;
use modewright_components::Given;
use modewright_components::analysis::Analysis;
use modewright_formats::Severity;
use std::rc::Rc;
use std::sync::Arc;
use wasm_bindgen::JsCast;
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

#[derive(Clone, Debug, PartialEq, Properties)]
pub(crate) struct AskProps {
    pub(crate) settings: Rc<Settings>,
    pub(crate) host: Host,
}

/// The longest text that the box takes, in UTF-16 units: a long tune many times over.
const LONGEST: u32 = 65_536;

#[component]
pub(crate) fn Ask(props: &AskProps) -> Html {
    let AskProps { settings, host } = props;
    let text = use_state(|| Rc::<str>::from(""));
    let wheel = use_state(|| false);
    let analysis =
        use_memo((*text).clone(), |text| Analysis::of(text, &Arc::from(""), 0, Given::default()));
    let empty = text.trim().is_empty();
    {
        let (host, analysis, empty) = (host.clone(), analysis.clone(), empty);
        use_effect_with((*text).clone(), move |_| {
            if !empty {
                host.tell_verdict(&analysis);
            }
        });
    }
    let oninput = {
        let text = text.setter();
        Callback::from(move |event: InputEvent| {
            let field = event.target().and_then(|t| t.dyn_into::<HtmlTextAreaElement>().ok());
            if let Some(field) = field {
                text.set(field.value().into());
            }
        })
    };
    let on_wheel = {
        let (wheel, next) = (wheel.setter(), !*wheel);
        Callback::from(move |_: MouseEvent| wheel.set(next))
    };
    let found = !empty && analysis.key().is_some();
    html! {
        <div class="ask">
            <label class="ask-box">
                <span>{ labels::ASK }</span>
                <textarea rows="6" {oninput} placeholder={labels::ASK_HINT} maxlength={LONGEST.to_string()}
                    autocomplete="off" autocapitalize="off" autocorrect="off" spellcheck="false" />
            </label>
            if empty {
                <div class="verdict empty" role="status"><p class="verdict-line">{ labels::ASK_EMPTY }</p></div>
            } else {
                { verdict(&analysis, true, true) }
                { problems(&analysis, Severity::Warning) }
            }
            <button type="button" disabled={!found} aria-expanded={(*wheel && found).to_string()} onclick={on_wheel}>
                { if *wheel { labels::HIDE_WHEEL } else { labels::SHOW_WHEEL } }
            </button>
            if *wheel && found {
                <WheelPlace key_given={settings.key} analysis={analysis.clone()} settings={settings.clone()} host={host.clone()} />
            }
        </div>
    }
}

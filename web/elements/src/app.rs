//! What stands in an element. One component for all four, since each one more weighs some thousand
//! bytes; what it does is in the hooks of its parts.

use crate::host::Host;
use crate::labels;
use crate::pace::Pace;
use crate::parts::{
    Asked, ask_box, chances, heading, problems, range_place, show_wheel, staff_place, use_hear,
    use_staff, use_turned, use_walk, verdict, walk_place, wheel_place,
};
use crate::settings::{Kind, Part, Settings};
use modewright_components::Given;
use modewright_components::analysis::Analysis;
use modewright_components::view::told;
use modewright_formats::Severity;
use std::rc::Rc;
use std::sync::Arc;
use yew::prelude::*;

#[derive(Clone, Debug, PartialEq, Properties)]
pub(crate) struct AppProps {
    pub(crate) kind: Kind,
    pub(crate) settings: Rc<Settings>,
    pub(crate) tune: Rc<str>,
    pub(crate) host: Host,
}

#[component]
pub(crate) fn App(props: &AppProps) -> Html {
    let AppProps { kind, settings, tune, host } = props;
    let settings = &**settings;
    let asked = use_state(Asked::default);
    let text = match kind {
        Kind::Wheel => &Rc::from(""),
        Kind::Ask => &asked.text,
        Kind::Tune | Kind::Lesson => tune,
    };
    let analysis =
        use_memo(text.clone(), |text| Analysis::of(text, &Arc::from(""), 0, Given::default()));
    let empty = text.trim().is_empty();
    {
        // The verdict is the tune's; attributes do not change it.
        let (host, analysis, judged) = (host.clone(), analysis.clone(), !empty);
        use_effect_with(text.clone(), move |_| {
            if judged {
                host.tell_verdict(&analysis);
            }
        });
    }
    let has_tune = kind.has_tune() && !empty;
    let notes = has_tune && analysis.reading.tune.soundings().next().is_some();
    let shows = |part| has_tune && settings.shows(part);
    let (staff, walk) = (notes && shows(Part::Staff), notes && shows(Part::Walk));

    let node = use_node_ref();
    let staff = use_staff(&node, &analysis, text, props, staff);
    let walk = use_walk(text, settings.values, host, walk);
    let own = if *kind == Kind::Wheel { Some(settings.key) } else { analysis.key() };
    let turned = use_turned(own, settings.layout, host);
    let of_key = use_hear(host, "ofKey", &turned.key_told(settings.key), Pace::PLAIN);
    let of_tune = use_hear(host, "ofTune", text, settings.pace);
    {
        let (host, stands) = (host.clone(), staff.stands && walk.is_ready());
        use_effect_with(stands, move |stands| {
            if *stands {
                host.ready();
            }
        });
    }

    let level = settings.level;
    let wheel = |analysis: Option<&Analysis>| {
        let sound = settings.sound.then(|| of_key.shown(&labels::OF_KEY));
        wheel_place(&turned, analysis, settings.key, sound.unwrap_or_default())
    };
    let shown = match kind {
        Kind::Wheel => wheel(None),
        Kind::Ask => {
            let found = !empty && analysis.key().is_some();
            html! {
                <div class="ask">
                    { ask_box(&asked) }
                    if empty {
                        <div class="verdict empty" role="status"><p class="verdict-line">{ labels::ASK_EMPTY }</p></div>
                    } else {
                        { verdict(&analysis, true, true) }
                        { problems(&analysis, Severity::Warning) }
                    }
                    { show_wheel(&asked, found) }
                    if asked.wheel && found { { wheel(Some(&analysis)) } }
                </div>
            }
        }
        Kind::Tune | Kind::Lesson if empty => {
            html! { <p class="mistake" role="alert">{ labels::NO_TUNE }</p> }
        }
        Kind::Tune | Kind::Lesson => {
            let title = analysis.reading.tune.header.titles.first();
            let title = title.filter(|_| shows(Part::Title));
            html! {
                <>
                    if let Some(title) = title { { heading(level, title) } }
                    { problems(&analysis, Severity::Error) }
                    if staff.shown {
                        { staff_place(&staff, of_tune.lit(), settings.sound.then(|| of_tune.shown(&labels::OF_TUNE))) }
                    }
                    if shows(Part::Verdict) || shows(Part::Sure) {
                        { verdict(&analysis, shows(Part::Verdict), shows(Part::Sure)) }
                    }
                    if shows(Part::Told) {
                        <div class="told">{ for told(&analysis).into_iter().map(|said| html! { <p>{ said }</p> }) }</div>
                    }
                    <div class="side-by-side">
                        if shows(Part::Range) { { range_place(&analysis, level) } }
                        if shows(Part::Chances) { { chances(&analysis, &turned) } }
                    </div>
                    if shows(Part::Wheel) && own.is_some() { { wheel(Some(&analysis)) } }
                    { walk_place(&walk, level.saturating_add(1).min(6)) }
                </>
            }
        }
    };
    html! {
        <div class={classes!("element", kind.class())} ref={node}>
            { for settings.mistakes.iter().map(|mistake| html! {
                <p class="mistake" role="alert">{ labels::told(mistake) }</p>
            }) }
            { shown }
        </div>
    }
}

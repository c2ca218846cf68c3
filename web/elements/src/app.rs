//! What stands in an element.

use crate::host::Host;
use crate::labels;
use crate::parts::{Ask, Tune, WheelPlace};
use crate::settings::{Kind, Settings};
use std::rc::Rc;
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
    {
        // What holds no tune stands as soon as it is drawn.
        let (host, at_once) = (host.clone(), !kind.has_tune());
        use_effect_with((), move |()| {
            if at_once {
                host.ready();
            }
        });
    }
    let shown = match kind {
        Kind::Wheel => {
            html! { <WheelPlace key_given={settings.key} settings={settings.clone()} host={host.clone()} /> }
        }
        Kind::Ask => html! { <Ask settings={settings.clone()} host={host.clone()} /> },
        Kind::Tune | Kind::Lesson => html! {
            <Tune text={tune.clone()} settings={settings.clone()} host={host.clone()} />
        },
    };
    html! {
        <div class={classes!("element", kind.class())}>
            { for settings.mistakes.iter().map(|mistake| html! {
                <p class="mistake" role="alert">
                    { labels::told(mistake) }
                </p>
            }) }
            { shown }
        </div>
    }
}

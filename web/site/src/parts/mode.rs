//! What the tune is found to be, in sentences; its range; and why.

use crate::labels;
use crate::state::Action;
use crate::view::Page;
use modewright_components::RangePicture;
use yew::prelude::*;

pub(crate) fn mode(page: &Page, act: &Callback<Action>) -> Html {
    html! {
        <>
            if let Some(title) = &page.title { <p class="title">{ title }</p> }
            <div class="told">
                { for page.told.iter().map(|sentence| html! { <p>{ sentence }</p> }) }
            </div>
            if let Some(range) = &page.range {
                <div class="range">
                    <h3>{ labels::RANGE }</h3>
                    <RangePicture range={range.range} home={range.home} words={range.words.clone()} />
                    <dl>
                        { for range.lines.iter().map(|(name, line)| html! {
                            <div><dt>{ *name }</dt><dd>{ line }</dd></div>
                        }) }
                    </dl>
                </div>
            }
            if !page.rivals.is_empty() {
                <div class="reasons">
                    <h3>{ labels::REASONS }</h3>
                    <p class="aside">{ labels::REASONS_HINT }</p>
                    { for page.rivals.iter().map(|rival| html! {
                        <>
                            <h4>{ &rival.title }</h4>
                            <ul>
                                { for rival.reasons.iter().map(|reason| {
                                    let act = act.clone();
                                    let next = (!reason.marked).then_some(reason.at);
                                    let (sign, word) = if reason.speaks_for {
                                        ("+", labels::SPEAKS_FOR)
                                    } else {
                                        ("−", labels::SPEAKS_AGAINST)
                                    };
                                    let side = if reason.speaks_for { "for" } else { "against" };
                                    let said = html! {
                                        <>
                                            <span class="sign" aria-hidden="true">{ sign }</span>
                                            <span class="unseen">{ word }{ ": " }</span>
                                            <span>{ &reason.text }</span>
                                        </>
                                    };
                                    html! {
                                        <li class={side}>
                                            if reason.has_notes {
                                                <button type="button" aria-pressed={reason.marked.to_string()}
                                                    onclick={move |_| act.emit(Action::Reason(next))}>{ said }</button>
                                            } else {
                                                <p>{ said }</p>
                                            }
                                        </li>
                                    }
                                }) }
                            </ul>
                        </>
                    }) }
                </div>
            }
        </>
    }
}

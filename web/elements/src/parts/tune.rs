//! A tune with all that is asked for of it.

use super::heading;
use super::range::range_place;
use super::staff::StaffPlace;
use super::verdict::verdict;
use super::walk::walk_place;
use super::wheel::WheelPlace;
use crate::host::Host;
use crate::labels;
use crate::settings::{Part, Settings};
use modewright_components::Given;
use modewright_components::analysis::Analysis;
use modewright_components::chances::plot;
use modewright_components::labels as shared;
use modewright_components::view::{chance_bars, told};
use modewright_core::Key;
use modewright_formats::Severity;
use modewright_lesson::answer::ProblemAnswer;
use std::rc::Rc;
use std::sync::Arc;
use yew::prelude::*;

#[derive(Clone, Debug, PartialEq, Properties)]
pub(crate) struct TuneProps {
    pub(crate) text: Rc<str>,
    pub(crate) settings: Rc<Settings>,
    pub(crate) host: Host,
}

/// How many problems of the text are told.
const PROBLEMS: usize = 5;
/// How many candidates the plot has.
const CANDIDATES: usize = 5;

#[component]
pub(crate) fn Tune(props: &TuneProps) -> Html {
    let TuneProps { text, settings, host } = props;
    let analysis =
        use_memo(text.clone(), |text| Analysis::of(text, &Arc::from(""), 0, Given::default()));
    let notes = analysis.reading.tune.soundings().next().is_some();
    let shows = |part| settings.shows(part);
    let staff = notes && shows(Part::Staff);
    {
        // The verdict is the tune's; attributes do not change it.
        let (host, analysis, at) = (host.clone(), analysis.clone(), text.clone());
        use_effect_with(at, move |_| host.tell_verdict(&analysis));
    }
    {
        // The staff says itself when it is drawn.
        let host = host.clone();
        use_effect_with(staff, move |staff| {
            if !staff {
                host.ready();
            }
        });
    }
    let wanted = use_state(|| None::<(Key, u32)>);
    let on_choose = {
        let (wanted, host) = (wanted.clone(), host.clone());
        Callback::from(move |key: Key| {
            wanted.set(Some((key, wanted.map_or(0, |(_, times)| times + 1))));
            host.tell_home(key);
        })
    };
    if text.is_empty() {
        return html! { <p class="mistake" role="alert">{ labels::NO_TUNE }</p> };
    }
    let level = settings.level;
    let title = analysis.reading.tune.header.titles.first();
    html! {
        <>
            if shows(Part::Title) {
                if let Some(title) = title { { heading(level, title) } }
            }
            { problems(&analysis, Severity::Error) }
            if staff { <StaffPlace analysis={analysis.clone()} text={text.clone()} settings={settings.clone()} host={host.clone()} /> }
            if shows(Part::Verdict) || shows(Part::Sure) {
                { verdict(&analysis, shows(Part::Verdict), shows(Part::Sure)) }
            }
            if shows(Part::Told) {
                <div class="told">{ for told(&analysis).into_iter().map(|said| html! { <p>{ said }</p> }) }</div>
            }
            <div class="side-by-side">
                if shows(Part::Range) { { range_place(&analysis, level) } }
                if shows(Part::Chances) { { chances(&analysis, &on_choose) } }
            </div>
            if shows(Part::Wheel) && analysis.key().is_some() {
                <WheelPlace key_given={settings.key} analysis={analysis.clone()} wanted={*wanted} settings={settings.clone()} host={host.clone()} />
            }
            if shows(Part::Walk) && notes { { walk_place(&analysis, settings.values, level.saturating_add(1).min(6)) } }
        </>
    }
}

/// What of the text was not understood, from a severity upwards.
pub(super) fn problems(analysis: &Analysis, least: Severity) -> Html {
    let all = analysis.reading.problems.iter().filter(|p| p.kind.severity() >= least);
    let mut told = all.take(PROBLEMS).map(ProblemAnswer::new).peekable();
    if told.peek().is_none() {
        return Html::default();
    }
    html! {
        <ul class="problems">
            { for told.map(|problem| html! {
                <li>
                    <b>{ shared::problem_place(problem.line, problem.column) }{ ": " }</b>
                    { labels::told_of(&problem.message, &problem.hint) }
                </li>
            }) }
        </ul>
    }
}

fn chances(analysis: &Analysis, chosen: &Callback<Key>) -> Html {
    let ranked = &analysis.finding.ranked;
    let shown = ranked.get(..CANDIDATES.min(ranked.len())).unwrap_or_default();
    if analysis.key().is_none() || shown.is_empty() {
        return Html::default();
    }
    let keys: Vec<_> = shown.iter().map(|ranked| ranked.key).collect();
    let chosen = chosen.clone();
    let on_choose = Callback::from(move |at: usize| {
        if let Some(key) = keys.get(at) {
            chosen.emit(*key);
        }
    });
    plot(&chance_bars(shown), &shared::CHANCES_HINT.into(), None, &on_choose)
}

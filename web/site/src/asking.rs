//! Asking the engine's part for instruments: the list of them, a tune on one, a move. Answers that
//! come late for an older text are dropped.

use crate::analysis::Analysis;
use crate::engine::{Part, field, list, options, said, text, texts};
use crate::instrument::{Answer, Chosen, Failure, Height, InstrumentAction, Named};
use crate::labels::instrument as labels;
use crate::state::{Action, Given};
use gloo_timers::callback::Timeout;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;
use yew::prelude::*;

/// How long the text must rest before the engine is asked, in milliseconds: before the staff is
/// drawn, so that it is drawn once.
const PAUSE: u32 = 60;
/// How many heights are shown.
const HEIGHTS: usize = 5;

/// What is asked.
#[derive(Clone, PartialEq)]
struct Ask {
    text: Rc<str>,
    given: Given,
    id: Rc<str>,
    style: Rc<str>,
    own: Rc<str>,
    mine: Vec<Rc<str>>,
    tries: u32,
}

/// Keeps the answers up with the text and with what was chosen, once they are wanted.
#[hook]
pub(crate) fn use_engine(
    analysis: &Rc<Analysis>,
    chosen: &Chosen,
    given: Given,
    act: &Callback<Action>,
) {
    let wanted = chosen.is_wanted();
    let listing = (wanted, chosen.own_text.clone(), chosen.tries);
    {
        let act = act.clone();
        use_effect_with(listing, move |(wanted, own, _)| {
            if *wanted {
                let own = own.clone();
                spawn_local(async move { tell(&act, listed(&own).await) });
            }
        });
    }
    let number = use_mut_ref(|| 0_u32);
    let text: Rc<Rc<str>> =
        use_memo(Rc::as_ptr(analysis) as usize, |_| Rc::from(analysis.own_text()));
    let ask = Ask {
        text: (*text).clone(),
        given,
        id: chosen.id.clone(),
        style: chosen.style.clone(),
        own: chosen.own_text.clone(),
        mine: chosen.known_mine(),
        tries: chosen.tries,
    };
    let act = act.clone();
    use_effect_with((wanted, ask), move |(wanted, ask)| {
        *number.borrow_mut() += 1;
        let (this, ask) = (*number.borrow(), ask.clone());
        let asks = *wanted && !(ask.id.is_empty() && ask.mine.is_empty());
        let pause = asks.then(|| {
            Timeout::new(PAUSE, move || {
                spawn_local(async move {
                    let answer = answered(&ask).await;
                    if *number.borrow() == this {
                        tell(&act, answer);
                    }
                });
            })
        });
        move || drop(pause)
    });
}

fn tell(act: &Callback<Action>, answer: Result<InstrumentAction, JsValue>) {
    let answer = answer.unwrap_or_else(|why| InstrumentAction::Failed(failure(&why)));
    act.emit(Action::Instrument(answer));
}

/// What an error of the engine says; any other is one of loading.
fn failure(why: &JsValue) -> Failure {
    match text(why, "name").as_deref() {
        Some("ModewrightError") => Failure::Refused(said(why).into()),
        _ => Failure::NotLoaded,
    }
}

async fn listed(own: &str) -> Result<InstrumentAction, JsValue> {
    let built_in = named(&Part::Engine.call("instrumentList", vec![]).await?);
    Ok(InstrumentAction::Listed(
        built_in,
        if own.is_empty() { [].into() } else { of_own(own).await? },
    ))
}

async fn of_own(own: &str) -> Result<Rc<[Named]>, JsValue> {
    Ok(named(&Part::Engine.call("checkInstruments", vec![own.into()]).await?))
}

fn named(answer: &JsValue) -> Rc<[Named]> {
    let named = |it: JsValue| {
        let part = |name| text(&it, name).unwrap_or_default();
        Named { id: part("id").into(), name: part("name"), family: part("family") }
    };
    list(answer, "instruments").into_iter().map(named).collect()
}

async fn answered(ask: &Ask) -> Result<InstrumentAction, JsValue> {
    let tune = JsValue::from_str(&ask.text);
    let of_tune = of_tune(&ask.own, ask.given);
    let mut who = None;
    if !ask.mine.is_empty() {
        let mine: js_sys::Array = ask.mine.iter().map(|id| JsValue::from_str(id)).collect();
        let asked = options(of_tune.clone().into_iter().chain([("on", Some(mine.into()))]));
        let answer = Part::Engine.call("whoPlays", vec![tune.clone(), asked]).await?;
        who = text(&answer, "words").map(Rc::from);
    }
    if ask.id.is_empty() {
        return Ok(InstrumentAction::Answered(None, who));
    }
    let on = Some(JsValue::from_str(&ask.id));
    let style = (!ask.style.is_empty()).then(|| JsValue::from_str(&ask.style));
    let asked = |more: &[(&'static str, Option<JsValue>)]| {
        options(of_tune.iter().cloned().chain([("on", on.clone())]).chain(more.iter().cloned()))
    };
    let fit = Part::Engine.call("fit", vec![tune.clone(), asked(&[])]).await?;
    let style = ("style", style);
    let how = asked(std::slice::from_ref(&style));
    let picture = Part::Engine.call("instrumentPicture", vec![tune.clone(), how]).await?;
    let how = asked(&[style, ("harmony", Some(JsValue::TRUE))]);
    let fingering = Part::Engine.call("fingering", vec![tune, how]).await?;
    let answer = of_parts(&field(&fit, "0"), &fingering, &picture);
    Ok(InstrumentAction::Answered(Some(Rc::new(answer)), who))
}

/// What is said of every tune: instruments of one's own, and what letters cannot tell.
fn of_tune(own: &str, given: Given) -> [(&'static str, Option<JsValue>); 3] {
    let told = |text: &str| (!text.is_empty()).then(|| JsValue::from_str(text));
    [("own", told(own)), ("metre", told(given.metre)), ("pickup", told(given.pickup))]
}

fn of_parts(fit: &JsValue, fingering: &JsValue, picture: &JsValue) -> Answer {
    let heights = list(fit, "transpositions");
    let here = |it: &JsValue| field(it, "semitones").as_f64() == Some(0.0);
    let height = |it: JsValue| Height {
        by: text(&it, "interval").unwrap_or_default().into(),
        told: text(&it, "text").unwrap_or_default(),
        here: here(&it),
        folds: field(&it, "foldable").is_truthy(),
    };
    let mut remarks: Vec<String> = text(fit, "words.pitch").into_iter().collect();
    remarks.extend(text(fit, "instrument.standing").map(|standing| labels::layout(&standing)));
    remarks.extend(texts(fit, "instrument.remarks"));
    // A path that costs nothing, or that is not whole, has no sum worth telling.
    let whole =
        list(fingering, "missing").is_empty() && field(fingering, "cost").as_f64() > Some(0.0);
    let mut path: Vec<String> =
        text(fingering, "words.cost").filter(|_| whole).into_iter().collect();
    path.extend(texts(fingering, "words.levers"));
    path.extend(texts(fingering, "words.harmony"));
    let styles = texts(fingering, "styles").into_iter().map(Rc::from);
    let notes = list(fingering, "notes");
    let sign =
        |note: &JsValue| Some((index(note, "index")?, index(note, "joins")?, text(note, "sign")?));
    let airs: Vec<String> = notes.iter().filter_map(|note| text(note, "way.direction")).collect();
    Answer {
        verdict: text(fit, "words.verdict").unwrap_or_default(),
        trouble: texts(fit, "words.as_written"),
        elsewhere: text(fit, "words.elsewhere"),
        heights: heights.into_iter().take(HEIGHTS).map(height).collect(),
        remarks,
        styles: styles.zip(texts(fingering, "words.styles")).collect(),
        path,
        picture: text(picture, "svg").unwrap_or_default().into(),
        title: text(picture, "title").unwrap_or_default(),
        legend: texts(picture, "legend"),
        signs: notes.iter().filter_map(sign).filter(|(.., sign)| !sign.is_empty()).collect(),
        bellows: !airs.is_empty() && !airs.iter().any(|air| air == "blow"),
    }
}

fn index(of: &JsValue, name: &str) -> Option<usize> {
    let number = field(of, name).as_f64()?;
    #[expect(clippy::cast_possible_truncation, reason = "an index among the notes of a tune")]
    #[expect(clippy::cast_sign_loss, reason = "an index is no less than 0")]
    Some(number as usize)
}

/// Takes a file of instruments of one's own; what is wrong with it is told with its place.
pub(crate) async fn take_own(name: &str, own: Rc<str>) -> InstrumentAction {
    match of_own(&own).await {
        Ok(instruments) => InstrumentAction::Own(own, instruments),
        Err(why) => match failure(&why) {
            Failure::Refused(why) => InstrumentAction::Tell(format!("{name}: {why}").into()),
            Failure::NotLoaded => InstrumentAction::Failed(Failure::NotLoaded),
        },
    }
}

/// Moves the tune that is meant, in the text of the field.
pub(crate) async fn moved(
    analysis: &Analysis,
    field_text: Rc<str>,
    chosen: &Chosen,
    by: &str,
    fold: bool,
) -> InstrumentAction {
    let tune = analysis.own_text();
    let start = analysis.inside.tunes.get(analysis.chosen);
    let start = tune.len() - start.map_or(0, |tune| tune.text.len());
    let own = (!chosen.own_text.is_empty()).then(|| JsValue::from_str(&chosen.own_text));
    let asked = options([
        ("by", Some(by.into())),
        ("for", Some(JsValue::from_str(&chosen.id))),
        ("own", own),
        ("fold", Some(fold.into())),
    ]);
    let answer = match Part::Engine.call("transpose", vec![tune.as_str().into(), asked]).await {
        Ok(answer) => answer,
        Err(why) => return InstrumentAction::Failed(failure(&why)),
    };
    let mut told = texts(&answer, "tunes.0.words").join(" ");
    let problem = field(&answer, "tunes.0.problem");
    if problem.is_object() {
        told = format!("{told} {}", said(&problem)).trim_start().to_owned();
    }
    let old = tune.get(start..).unwrap_or_default();
    let new = text(&answer, "text").unwrap_or_default();
    let new = new.get(start..).unwrap_or_default();
    let rest = field_text.get(analysis.start..).and_then(|rest| rest.strip_prefix(old));
    match (rest, field_text.get(..analysis.start)) {
        (Some(rest), Some(before)) if new != old && !new.is_empty() => InstrumentAction::Moved {
            to: format!("{before}{new}{rest}").into(),
            from: field_text,
            told: told.into(),
        },
        _ => InstrumentAction::Tell(told.into()),
    }
}

//! An instrument with the notes of a tune marked where they are played.
//!
//! What is drawn follows from what the instrument's ways say: finger holes, buttons, strings with
//! frets, strings with levers, or else a keyboard.

mod buttons;
mod drawing;
mod holes;
mod keys;
mod strings;
#[cfg(test)]
mod tests;

pub use drawing::{Anchor, Drawing, Part, Role, TuneNotes};

use modewright_core::instrument::{Hole, Instrument};
use yew::prelude::*;

/// What the picture says beside its notes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PictureWords {
    /// The whole picture in a sentence.
    pub sentence: AttrValue,
    /// "left hand".
    pub left: AttrValue,
    /// "right hand".
    pub right: AttrValue,
    /// "row {}", with the row's name in place of the braces.
    pub row: AttrValue,
    /// Under a pipe that is blown harder.
    pub high: AttrValue,
    /// Under a pipe that is blown harder still.
    pub third: AttrValue,
    /// What the signs mean, a line each.
    pub legend: Vec<AttrValue>,
}

impl PictureWords {
    fn row(&self, name: &str) -> String {
        self.row.replace("{}", name)
    }
}

/// What a picture shows, before any browser.
///
/// # Examples
///
/// ```
/// use modewright_components::instrument::{PictureWords, TuneNotes, picture};
/// use modewright_core::instrument::{Instrument, Way};
///
/// let d: modewright_core::Pitch = "D4".parse()?;
/// let pipe = Instrument::default().with_ways([(d, Way::default())]);
/// let tune = TuneNotes { pitches: vec![d], home: None };
/// assert!(!picture(&pipe, &tune, &PictureWords::default()).parts.is_empty());
/// // An instrument without notes has an empty picture.
/// let nothing = picture(&Instrument::default(), &tune, &PictureWords::default());
/// assert!(nothing.parts.is_empty());
/// # Ok::<(), modewright_core::TheoryError>(())
/// ```
#[must_use]
pub fn picture(instrument: &Instrument, tune: &TuneNotes, words: &PictureWords) -> Drawing {
    let ways = || instrument.notes().iter().flat_map(|note| &note.ways);
    if ways().any(|way| !way.holes.is_empty() || way.closed.is_some()) {
        holes::draw(instrument, tune, words)
    } else if ways().any(|way| way.button.is_some()) {
        buttons::draw(instrument, tune, words)
    } else if ways().any(|way| way.lever.is_some()) {
        strings::harp(instrument, tune)
    } else if ways().any(|way| way.string.is_some()) {
        strings::frets(instrument, tune)
    } else {
        keys::draw(instrument, tune)
    }
}

/// What the picture is given.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct InstrumentPictureProps {
    /// The instrument.
    pub instrument: std::rc::Rc<Instrument>,
    /// The notes of the tune.
    pub tune: TuneNotes,
    /// Its words.
    pub words: PictureWords,
}

/// The picture, with its legend.
#[component]
pub fn InstrumentPicture(props: &InstrumentPictureProps) -> Html {
    let drawing = picture(&props.instrument, &props.tune, &props.words);
    if drawing.parts.is_empty() {
        return Html::default();
    }
    html! {
        <figure class="instrument-figure">
            <div class="instrument-scroll" tabindex="0" role="group" aria-label={props.words.sentence.clone()}>
                <svg class="instrument-picture" viewBox={format!("-2 -2 {} {}", drawing.width + 4, drawing.height + 4)}
                    width={drawing.width.to_string()} role="img" aria-label={props.words.sentence.clone()}>
                    { for drawing.parts.iter().map(part) }
                </svg>
            </div>
            <figcaption>
                { for props.words.legend.iter().map(|line| html! { <span>{ line.clone() }</span> }) }
            </figcaption>
        </figure>
    }
}

fn part(part: &Part) -> Html {
    let text = i32::to_string;
    match part {
        Part::Line { from, to, thick } => html! {
            <line class={if *thick { "line thick" } else { "line" }} x1={text(&from.0)} y1={text(&from.1)} x2={text(&to.0)} y2={text(&to.1)} />
        },
        Part::Frame { x, y, width, height, round, dark } => html! {
            <rect class={if *dark { "frame dark" } else { "frame" }} x={text(x)} y={text(y)} width={text(width)} height={text(height)} rx={text(round)} />
        },
        Part::Words { x, y, text: words, anchor } => html! {
            <text class={if *anchor == Anchor::Start { "to-right" } else { "centred" }} x={text(x)} y={text(y)}>{ words }</text>
        },
        Part::Hole { x, y, hole } => {
            let half = format!("M{} {}a6.5 6.5 0 0 0 0 13z", x, f64::from(*y) - 6.5);
            html! {
                <>
                    <circle class={if *hole == Hole::Closed { "hole closed" } else { "hole" }} cx={text(x)} cy={text(y)} r="6.5" />
                    if *hole == Hole::Half { <path class="half" d={half} /> }
                </>
            }
        }
        Part::Note { x, y, width, height, name, role } => {
            let class = match role {
                Role::Home => "spot home",
                Role::Used => "spot used",
                Role::Other => "spot other",
                Role::Idle => "spot idle",
            };
            let (left, top) = (x - width / 2, y - height / 2);
            html! {
                <g {class}>
                    if *role == Role::Home {
                        <path class="body" d={format!("M{left} {}V{}L{x} {}L{} {}V{}Z", top + height, top + 7, top - 3, left + width, top + 7, top + height)} />
                    } else {
                        <rect class="body" x={text(&left)} y={text(&top)} width={text(width)} height={text(height)} rx="5" />
                    }
                    <text class="centred" x={text(x)} y={text(&(y + 6))}>{ name }</text>
                </g>
            }
        }
    }
}

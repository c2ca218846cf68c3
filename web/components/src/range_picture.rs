//! Lowest and highest note on a ladder of notes, with home marked.

use crate::number::hundredths;
use crate::wheel::note_name;
use modewright_core::{Pitch, Range, Spelling};
use yew::prelude::*;

/// What the picture says beside its notes.
#[derive(Clone, Debug, PartialEq)]
pub struct RangeWords {
    /// The whole picture in a sentence.
    pub sentence: AttrValue,
    /// The name of middle C.
    pub middle_c: AttrValue,
    /// The name of the part where the tune spends most of its time.
    pub most: AttrValue,
}

/// A rung of the ladder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rung {
    /// Semitones on the MIDI scale.
    pub midi: i16,
    /// Whether it is a note of the ladder's letters without sign.
    pub plain: bool,
    /// Whether it is home.
    pub home: bool,
    /// Whether it is middle C.
    pub middle_c: bool,
    /// Whether it lies between the lowest and the highest note.
    pub inside: bool,
}

/// The rungs from some below the lowest to some above the highest note; every semitone one, a
/// finite number even for a tune that spans all there is.
#[must_use]
pub fn rungs(range: &Range, home: Option<Spelling>) -> Vec<Rung> {
    let (low, high) = (range.lowest.midi(), range.highest.midi());
    let (from, to) = (low.saturating_sub(3), high.saturating_add(3));
    // Middle C is worth showing where it is near.
    let from = if (0..=8).contains(&(from - 60)) { 60 } else { from };
    let to = if (0..=8).contains(&(60 - to)) { 60 } else { to };
    (from..=to)
        .map(|midi| {
            let class = modewright_core::PitchClass::new(i32::from(midi));
            Rung {
                midi,
                plain: modewright_core::Step::ALL
                    .into_iter()
                    .any(|step| Spelling::natural(step).pitch_class() == class),
                home: home.is_some_and(|home| home.pitch_class() == class),
                middle_c: midi == 60,
                inside: (low..=high).contains(&midi),
            }
        })
        .collect()
}

/// What the picture is given.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct RangePictureProps {
    /// The range to show.
    pub range: Range,
    /// Home, if there is one.
    #[prop_or_default]
    pub home: Option<Spelling>,
    /// Its words.
    pub words: RangeWords,
}

const WIDTH: f64 = 600.0;
const EDGE: f64 = 34.0;
/// How far apart the names under the ladder must be to stand side by side, where they are largest.
const NAMES_APART: f64 = 160.0;

/// The picture: left is low, right is high.
#[component]
pub fn RangePicture(props: &RangePictureProps) -> Html {
    picture(&props.range, props.home, &props.words)
}

/// The same for those who need no component of it.
pub fn picture(range: &Range, home: Option<Spelling>, words: &RangeWords) -> Html {
    let rungs = rungs(range, home);
    let (first, last) = match (rungs.first(), rungs.last()) {
        (Some(first), Some(last)) => (f64::from(first.midi), f64::from(last.midi)),
        _ => return Html::default(),
    };
    let across = (WIDTH - 2.0 * EDGE) / (last - first).max(1.0);
    let x = |midi: i16| EDGE + (f64::from(midi) - first) * across;
    let (low, high) = (x(range.lowest.midi()), x(range.highest.midi()));
    let (most_low, most_high) = (x(range.tessitura.0.midi()), x(range.tessitura.1.midi()));
    let half = (across / 2.0).clamp(4.0, 13.0);
    let name = |pitch: Pitch, class: &'static str, x: f64| {
        html! { <text class={classes!("range-name", class)} x={hundredths(x)} y="36">{ note_name(pitch.spelling()) }</text> }
    };
    let centre = (most_low + most_high) / 2.0;
    // Two names that would stand on each other stand below each other.
    let near = rungs.iter().any(|r| r.middle_c && (x(r.midi) - centre).abs() < NAMES_APART);
    let (view_box, line) = if near { ("0 0 600 156", "140") } else { ("0 0 600 128", "112") };
    html! {
        <div class="range-frame">
        <svg class="range-picture" viewBox={view_box} role="img" aria-label={words.sentence.clone()}>
            <line class="range-rail" x1={hundredths(EDGE)} x2={hundredths(WIDTH - EDGE)} y1="66" y2="66" />
            { for rungs.iter().map(|rung| {
                let at = hundredths(x(rung.midi));
                let (top, bottom) = if rung.plain { ("57", "75") } else { ("62", "70") };
                html! { <line class={classes!("rung", rung.inside.then_some("inside"))} x1={at.clone()} x2={at} y1={top} y2={bottom} /> }
            }) }
            <rect class="range-bar" x={hundredths(low - half)} y="54" rx="12" height="24"
                width={hundredths(high - low + 2.0 * half)} />
            <rect class="range-most" x={hundredths(most_low - half / 2.0)} y="60" rx="6" height="12"
                width={hundredths(most_high - most_low + half)} />
            { for rungs.iter().filter(|r| r.home).map(|rung| html! {
                <path class={classes!("house", (!rung.inside).then_some("beyond"))}
                    d="M-10 11V-1L0 -12L10 -1V11Z" transform={format!("translate({} 66)", hundredths(x(rung.midi)))} />
            }) }
            { for rungs.iter().filter(|r| r.middle_c).map(|rung| html! {
                <g class="middle-c" transform={format!("translate({} 0)", hundredths(x(rung.midi)))}>
                    <line y1="86" y2="96" /><text y="112" class={anchor(x(rung.midi))}>{ words.middle_c.clone() }</text>
                </g>
            }) }
            { name(range.lowest, "lowest", low) }
            if range.lowest != range.highest { { name(range.highest, "highest", high) } }
            if most_high - most_low > 8.0 {
                <g class="most" transform={format!("translate({} 0)", hundredths(centre))}>
                    <path d={format!("M{} 86v5H{}v-5", hundredths((most_low - most_high) / 2.0), hundredths((most_high - most_low) / 2.0))} />
                    <text y={line}>{ words.most.clone() }</text>
                </g>
            }
        </svg>
        </div>
    }
}

/// Words near an edge run towards the middle.
fn anchor(x: f64) -> &'static str {
    if x < 80.0 {
        "to-right"
    } else if x > WIDTH - 80.0 {
        "to-left"
    } else {
        "centred"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn range(low: &str, high: &str) -> Range {
        let (lowest, highest) = (low.parse().unwrap(), high.parse().unwrap());
        Range { lowest, lowest_at: 0, highest, highest_at: 1, tessitura: (lowest, highest) }
    }

    #[test]
    fn rungs_reach_beyond_both_ends_and_mark_every_home() {
        let rungs = rungs(&range("D4", "B5"), Some("E".parse().unwrap()));
        assert_eq!((rungs[0].midi, rungs.last().unwrap().midi), (59, 86));
        let homes: Vec<i16> = rungs.iter().filter(|r| r.home).map(|r| r.midi).collect();
        assert_eq!(homes, [64, 76]);
        assert_eq!(rungs.iter().filter(|r| r.inside).count(), 22);
        assert_eq!(rungs.iter().filter(|r| r.middle_c).count(), 1);
        assert!(!rungs[4].plain && rungs[3].plain, "E flat is signed, D is plain");
    }

    #[test]
    fn middle_c_is_shown_where_it_is_near_and_left_out_where_not() {
        assert_eq!(rungs(&range("A4", "A5"), None)[0].midi, 60);
        assert_eq!(rungs(&range("G5", "A6"), None)[0].midi, 76);
        assert_eq!(rungs(&range("G2", "F3"), None).last().unwrap().midi, 60);
        assert!(!rungs(&range("C4", "C4"), None).is_empty());
    }
}

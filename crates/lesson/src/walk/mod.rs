//! The walk through a tune, in the words of a tutor.
//!
//! A summary to hear before playing, each bar told once, and an order to practise in. The words
//! come from a [`Wording`], one file a language; what is told comes from the count and the
//! patterns of the tune. The result is text that a tutor edits: [`Walk::to_markdown`], and back.

mod bars;
mod markdown;
mod practice;
mod speaker;
mod summary;
mod value;
mod wording;

pub use value::Values;
pub use wording::{Wording, WordingError};

use crate::words::NoteNames;
use modewright_core::count::{BarCount, BarPlace, CountOptions, bar_places, count};
use modewright_core::find::Finding;
use modewright_core::patterns::{Likeness, Patterns};
use modewright_core::{Key, Pitch, Spelling, Tune};
use speaker::Speaker;

/// A walk-through.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Walk {
    /// The tune's title.
    pub title: String,
    /// What is said, in order: the summary, each part, how to practise.
    pub sections: Vec<Section>,
}

/// A heading with what stands under it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Section {
    /// The heading.
    pub heading: String,
    /// Its paragraphs.
    pub paragraphs: Vec<Paragraph>,
}

/// A paragraph, of a bar or of the whole.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Paragraph {
    /// What it is about: "Bars 3–4".
    pub label: Option<String>,
    /// The numbers of the bars that it is about, first and last; `None` for what is about no
    /// numbered bar, and for pickups.
    pub bars: Option<(u32, u32)>,
    /// What is said.
    pub text: String,
    /// Whether it is a step of a numbered list.
    pub is_step: bool,
}

/// How a walk-through is told.
#[derive(Clone, Debug, Default)]
pub struct WalkOptions {
    /// Names of note values.
    pub values: Values,
    /// Names of notes.
    pub names: NoteNames,
    /// How bars are counted.
    pub count: CountOptions,
    /// Notes that are awkward on the learner's instrument: indices into the tune's events, in
    /// ascending order.
    pub awkward: Vec<usize>,
}

/// The walk through a tune.
///
/// Bars that return are told once; a bar that says nothing new has its notes and no sentence. No
/// way of saying a thing is used more than four times; where all are used up, a bar that returns is
/// told by its number alone, and what else could be said is left out.
///
/// # Examples
///
/// ```
/// use modewright_formats::{ReadOptions, read, source::split};
/// use modewright_lesson::{demo, walk};
///
/// let text = split(demo::first().abc).next().unwrap_or_default();
/// let tune = read(&text, &ReadOptions::default()).tune;
/// let finding = modewright_core::find::find(&tune);
/// let walk = walk::walk(&tune, &finding, &walk::Wording::english(), &Default::default());
/// assert!(walk.to_markdown().starts_with("# Ebb at Lantern Quay\n\n## Before you play\n"));
/// assert_eq!(walk::Walk::from_markdown(&walk.to_markdown()), walk);
/// ```
#[must_use]
pub fn walk(tune: &Tune, finding: &Finding, words: &Wording, options: &WalkOptions) -> Walk {
    let facts = Facts {
        tune,
        finding,
        words,
        options,
        places: bar_places(tune),
        counts: count(tune, options.count),
        patterns: Patterns::of(tune, &options.awkward),
        key: finding.best().map(|best| best.key),
    };
    let mut speaker = Speaker::new(words);
    let mut sections = vec![summary::section(&facts)];
    sections.extend(bars::sections(&facts, &mut speaker));
    sections.push(practice::section(&facts));
    sections.retain(|section| !section.paragraphs.is_empty());
    let title = tune.header.titles.first().cloned();
    // White space as a reader of Markdown sees it.
    let title = title.map(|title| title.split_whitespace().collect::<Vec<_>>().join(" "));
    let title = title.filter(|title| !title.is_empty());
    Walk { title: title.unwrap_or_else(|| words.say("title.none", &[])), sections }
}

impl Walk {
    /// Numbers of bars that the words speak of and the tune does not have, each once, ascending.
    /// Edited words may belong to an older state of the tune.
    #[must_use]
    pub fn bars_not_in(&self, tune: &Tune) -> Vec<u32> {
        let last = tune.bars.iter().map(|bar| bar.number).max().unwrap_or(0);
        let told = self.sections.iter().flat_map(|section| &section.paragraphs);
        let ends = told.filter_map(|paragraph| paragraph.bars).flat_map(|(from, to)| [from, to]);
        let mut missing: Vec<u32> = ends.filter(|number| *number > last).collect();
        missing.sort_unstable();
        missing.dedup();
        missing
    }
}

/// Everything that is told from.
struct Facts<'a> {
    tune: &'a Tune,
    finding: &'a Finding,
    words: &'a Wording,
    options: &'a WalkOptions,
    places: Vec<BarPlace>,
    counts: Vec<BarCount>,
    patterns: Patterns,
    key: Option<Key>,
}

impl Facts<'_> {
    fn name(&self, note: Spelling) -> String {
        self.options.names.name(note, self.key)
    }

    fn note(&self, pitch: Pitch) -> String {
        self.name(pitch.spelling())
    }

    /// Bars by their numbers, as a sentence names them.
    fn bars(&self, first: u32, last: u32) -> String {
        let (from, to) = (first.to_string(), last.to_string());
        match (first, last - first) {
            (0, 0) => self.words.say("bar.pickup", &[]),
            (_, 0) => self.words.say("bar.one", &[("number", &from)]),
            (_, 1) => self.words.say("bar.two", &[("from", &from), ("to", &to)]),
            _ => self.words.say("bar.run", &[("from", &from), ("to", &to)]),
        }
    }

    /// The bar that a bar is the same as: the first of them, or itself.
    fn content(&self, bar: usize) -> usize {
        self.patterns.bars.get(bar).copied().and_then(Likeness::same).unwrap_or(bar)
    }

    /// The number of a bar.
    fn number(&self, bar: usize) -> u32 {
        self.tune.bars.get(bar).map_or(0, |bar| bar.number)
    }

    /// Up to three hard bars, the hardest of the tune, each told once, in the order of the page.
    fn hardest(&self) -> Vec<usize> {
        const MOST: usize = 3;
        // What is dotted or tied all through the tune is its habit, and no hard bar.
        const WORTH: u32 = 2;
        let own = |bar: usize| {
            self.content(bar) == bar
                && self.places[bar].fit != modewright_core::count::BarFit::Pickup
        };
        let mut hard: Vec<(u32, usize)> = self
            .patterns
            .hard
            .iter()
            .filter(|hard| own(hard.bar) && hard.weight() >= WORTH)
            .map(|hard| (hard.weight(), hard.bar))
            .collect();
        hard.sort_by_key(|(weight, bar)| (u32::MAX - weight, *bar));
        hard.truncate(MOST);
        let mut bars: Vec<usize> = hard.into_iter().map(|(_, bar)| bar).collect();
        bars.sort_unstable();
        bars.dedup_by_key(|bar| self.number(*bar));
        bars
    }

    /// Several bars by number: "bars 3 and 7", each by itself.
    fn several(&self, bars: &[usize]) -> String {
        let [one] = bars else {
            let named: Vec<String> = bars.iter().map(|bar| self.number(*bar).to_string()).collect();
            return self.words.say("bar.list", &[("bars", &self.words.list(&named))]);
        };
        self.bars(self.number(*one), self.number(*one))
    }
}

//! An order to practise in.

use super::{Facts, Paragraph, Section};
use modewright_core::count::{BarFit, Pace, PaceSource};

pub(super) fn section(facts: &Facts<'_>) -> Section {
    let words = facts.words;
    let mut steps: Vec<String> = Vec::new();
    if let Some(bar) = busiest(facts) {
        steps.push(words.say("practice.clap", &[("bars", &facts.several(&[bar]))]));
    }
    let hard = facts.hardest();
    if !hard.is_empty() {
        steps.push(words.say("practice.hard", &[("bars", &facts.several(&hard))]));
    }
    steps.extend(parts(facts));
    if !facts.patterns.form.strains.is_empty() {
        let (pace, source) = Pace::of(facts.tune);
        let value = facts.options.values.name(words, pace.beat, false);
        let number = pace.per_minute.to_string();
        let bar = facts.tune.metre.bar_length();
        steps.push(match value {
            _ if source == PaceSource::Number && Some(pace.beat) == bar => {
                words.say("practice.whole-bars", &[("pace", &number)])
            }
            Some(value) if source == PaceSource::Number => {
                words.say("practice.whole", &[("value", &value), ("pace", &number)])
            }
            _ => words.say("practice.no-pace", &[]),
        });
    }
    let step = |text| Paragraph { text, is_step: true, ..Paragraph::default() };
    Section {
        heading: words.say("section.practice", &[]),
        paragraphs: steps.into_iter().map(step).collect(),
    }
}

/// The bar with the most different values: the one to clap. `None` where every bar is even.
fn busiest(facts: &Facts<'_>) -> Option<usize> {
    let variety = |bar: usize| {
        let events = facts.tune.events_of(bar);
        let mut lengths: Vec<_> = events.iter().map(|event| event.length).collect();
        lengths.sort_unstable();
        lengths.dedup();
        (lengths.len(), events.len())
    };
    let bars = (0..facts.tune.bars.len()).filter(|&bar| {
        let is_free = facts.tune.bars[bar].metre.is_free();
        !is_free && facts.content(bar) == bar && facts.places[bar].fit != BarFit::Pickup
    });
    // The first of the busiest.
    let mut best: Option<((usize, usize), usize)> = None;
    for bar in bars {
        let found = variety(bar);
        if found.0 > 1 && best.is_none_or(|(busiest, _)| found > busiest) {
            best = Some((found, bar));
        }
    }
    best.map(|(_, bar)| bar)
}

/// One step for each new part.
fn parts(facts: &Facts<'_>) -> Vec<String> {
    // A tune of more parts has its order told by the first of them.
    const MOST: usize = 6;
    let mut told: Vec<char> = Vec::new();
    let mut steps = Vec::new();
    for strain in facts.patterns.form.strains.iter().take(MOST) {
        if told.contains(&strain.letter) {
            continue;
        }
        told.push(strain.letter);
        let letter = strain.letter.to_string();
        let known: Vec<usize> = (strain.first..strain.end)
            .filter(|&bar| facts.content(bar) < strain.first && facts.number(bar) > 0)
            .collect();
        let run = match (known.first(), known.last()) {
            (Some(&first), Some(&last)) if last - first + 1 == known.len() => {
                Some(facts.bars(facts.number(first), facts.number(last)))
            }
            _ => None,
        };
        let key = match (steps.is_empty(), &run) {
            (true, _) => "practice.first",
            (_, Some(_)) => "practice.next-known",
            (_, None) => "practice.next",
        };
        let bars = run.unwrap_or_default();
        steps.push(facts.words.say(key, &[("letter", &letter), ("bars", &bars)]));
    }
    steps
}

//! The bars, each told once.

use super::speaker::{MOST, Speaker};
use super::value::begins_beat;
use super::{Facts, Paragraph, Section};
use modewright_core::Length;
use modewright_core::count::{BarFit, Detail};
use modewright_core::patterns::{Likeness, StrainForm, Value, Why};
use std::collections::HashMap;
use std::ops::Range;

/// How many earlier places of a bar are compared to find the longest run that returns.
const PLACES: usize = 8;
/// A rhythm in more words than this is told by its count alone.
const MOST_WORDS: usize = 9;
/// A bar of more notes is left to the stave.
const MOST_NOTES: usize = 32;

/// A section a part.
pub(super) fn sections(facts: &Facts<'_>, speaker: &mut Speaker<'_>) -> Vec<Section> {
    let mut teller = Teller::new(facts);
    let strains = facts.patterns.form.strains.iter();
    strains.map(|strain| teller.strain(strain, speaker)).collect()
}

struct Teller<'a> {
    facts: &'a Facts<'a>,
    /// The first places of each bar, by its content.
    places: HashMap<usize, Vec<usize>>,
    /// Rhythms that were told.
    rhythms: HashMap<Vec<(bool, Length)>, usize>,
    /// First halves of bars, by the first bar that begins so.
    beginnings: HashMap<Vec<(Option<modewright_core::Pitch>, Length)>, usize>,
}

impl<'a> Teller<'a> {
    fn new(facts: &'a Facts<'a>) -> Self {
        let mut places: HashMap<usize, Vec<usize>> = HashMap::new();
        for bar in 0..facts.tune.bars.len() {
            let known = places.entry(facts.content(bar)).or_default();
            if known.len() < PLACES {
                known.push(bar);
            }
        }
        Self { facts, places, rhythms: HashMap::new(), beginnings: HashMap::new() }
    }

    fn strain(&mut self, strain: &StrainForm, speaker: &mut Speaker<'_>) -> Section {
        let facts = self.facts;
        let letter = strain.letter.to_string();
        let times = facts.words.series("times", usize::try_from(strain.times).unwrap_or(0));
        let key = if strain.times > 1 { "section.part-times" } else { "section.part" };
        let heading = facts.words.say(key, &[("letter", &letter), ("times", &times)]);
        let mut paragraphs = Vec::new();
        let mut bar = strain.first;
        while bar < strain.end {
            let run = self.returning(bar, strain.end);
            let text = match &run {
                Some(from) => self.again(from, speaker),
                None => self.new_bar(bar, strain, speaker),
            };
            let next = bar + run.map_or(1, |run| run.len());
            if let Some(text) = text {
                let (bars, label) = self.label(bar, next - 1);
                paragraphs.push(Paragraph { label: Some(label), bars, text, is_step: false });
            }
            bar = next;
        }
        Section { heading, paragraphs }
    }

    /// Whether the bar is a pickup, with the rest of its strain to come.
    fn is_pickup(&self, bar: usize) -> bool {
        self.facts.places.get(bar).is_some_and(|place| place.fit == BarFit::Pickup)
    }

    /// The longest run of earlier bars that comes again from a bar on.
    fn returning(&self, bar: usize, end: usize) -> Option<Range<usize>> {
        let facts = self.facts;
        if facts.content(bar) == bar || self.is_pickup(bar) {
            return None;
        }
        let length = |from: usize| {
            (0..(end - bar).min(bar - from))
                .take_while(|&i| {
                    let plain = i == 0 || facts.tune.bars[bar + i].ending.is_none();
                    plain
                        && !self.is_pickup(bar + i)
                        && !self.is_pickup(from + i)
                        && facts.content(bar + i) == facts.content(from + i)
                })
                .count()
        };
        let earlier = self.places.get(&facts.content(bar))?.iter().filter(|from| **from < bar);
        let mut best: Option<Range<usize>> = None;
        for &from in earlier {
            let found = from..from + length(from);
            if !found.is_empty() && best.as_ref().is_none_or(|best| found.len() > best.len()) {
                best = Some(found);
            }
        }
        best
    }

    fn again(&self, from: &Range<usize>, speaker: &mut Speaker<'_>) -> Option<String> {
        let facts = self.facts;
        let (first, last) = (facts.number(from.start), facts.number(from.end - 1));
        let bars = facts.bars(first, last.max(first));
        let key = if from.len() == 1 { "again" } else { "again.many" };
        let said = speaker.sentence(key, usize::MAX, &[("bars", &bars)]);
        // A tune that returns without end is told in the plainest way.
        said.or_else(|| Some(crate::words::capital(&format!("{bars}."))))
    }

    fn label(&self, first: usize, last: usize) -> (Option<(u32, u32)>, String) {
        let facts = self.facts;
        if self.is_pickup(first) {
            return (None, facts.words.say("label.pickup", &[]));
        }
        let (from, to) = (facts.number(first), facts.number(last).max(facts.number(first)));
        let number = from.to_string();
        let label = if from == to {
            facts.words.say("label.bar", &[("number", &number)])
        } else {
            facts.words.say("label.bars", &[("from", &number), ("to", &to.to_string())])
        };
        let Some(passes) = facts.tune.bars[first].ending else { return (Some((from, to)), label) };
        let pass = (1..=4).find(|pass| passes.contains(*pass)).unwrap_or(5);
        let ordinal = facts.words.series("ordinal", usize::try_from(pass).unwrap_or(5));
        let with = [("label", label.as_str()), ("ordinal", &ordinal)];
        (Some((from, to)), facts.words.say("label.ending", &with))
    }

    /// A bar that was not there before: its notes, and what is new in it.
    fn new_bar(
        &mut self,
        bar: usize,
        strain: &StrainForm,
        speaker: &mut Speaker<'_>,
    ) -> Option<String> {
        let mut sentences: Vec<String> = self.notes(bar).into_iter().collect();
        if sentences.is_empty() {
            return None;
        }
        let begins = self.begins_like(bar);
        if !self.is_pickup(bar) {
            sentences.extend(self.rhythm(bar, speaker));
            let more = self
                .hard(bar, speaker)
                .or_else(|| self.ending(bar, strain, speaker))
                .or_else(|| self.alike(bar, begins, speaker))
                .or_else(|| self.edge(bar, speaker));
            sentences.extend(more);
        }
        Some(sentences.join(" "))
    }

    /// The notes by name, those of a beat joined; what is held stands in brackets.
    fn notes(&self, bar: usize) -> Option<String> {
        let facts = self.facts;
        let events = facts.tune.events_of(bar);
        if events.is_empty() || events.len() > MOST_NOTES {
            return None;
        }
        let first = facts.tune.bars[bar].first;
        let offset = facts.places[bar].offset;
        let metre = facts.tune.bars[bar].metre;
        let mut row = String::new();
        for (index, event) in (first..).zip(events) {
            if !row.is_empty() {
                let at = offset.plus(event.at).unwrap_or(offset);
                row.push(if metre.is_free() || begins_beat(metre, at) { ' ' } else { '-' });
            }
            match event.sound.pitch() {
                Some(pitch) if self.is_held(index) => {
                    row.push_str(&format!("({})", facts.note(pitch)));
                }
                Some(pitch) => row.push_str(&facts.note(pitch)),
                None => row.push_str(&facts.words.say("rest", &[])),
            }
        }
        row.push('.');
        Some(row)
    }

    /// Whether a note goes on from the one before.
    fn is_held(&self, index: usize) -> bool {
        let events = &self.facts.tune.events;
        index.checked_sub(1).and_then(|before| events.get(before)).is_some_and(|before| {
            before.tied && before.sound.pitch() == events.get(index).and_then(|e| e.sound.pitch())
        })
    }

    /// The rhythm where it is new, with its count.
    fn rhythm(&mut self, bar: usize, speaker: &mut Speaker<'_>) -> Option<String> {
        let facts = self.facts;
        let metre = facts.tune.bars[bar].metre;
        let events = facts.tune.events_of(bar);
        let values: Vec<Value> = events
            .iter()
            .map(|event| Value { length: event.length, rest: event.sound.pitch().is_none() })
            .collect();
        let key = values.iter().map(|value| (value.rest, value.length)).collect();
        if metre.is_free() || self.rhythms.insert(key, bar).is_some() {
            return None;
        }
        // In brackets are only the beats that are held, whatever else is asked for under the
        // stave.
        let counts = facts.counts.get(bar)?;
        let count = if facts.options.count.detail == Detail::Full {
            let beats = counts.events.iter().filter(|c| {
                c.value.is_some()
                    || matches!(c.syllable, modewright_core::count::Syllable::Number(_))
            });
            modewright_core::count::BarCount { events: beats.copied().collect(), ..counts.clone() }
                .text()
        } else {
            counts.text()
        };
        let offset = facts.places[bar].offset;
        let rhythm = facts.options.values.rhythm(facts.words, metre, offset, &values);
        match rhythm.filter(|rhythm| rhythm.split(' ').count() <= MOST_WORDS) {
            Some(rhythm) => {
                let with = [("values", rhythm.as_str()), ("count", &count)];
                speaker.sentence("rhythm.new", usize::MAX, &with)
            }
            None => speaker.sentence("rhythm.count", usize::MAX, &[("count", &count)]),
        }
    }

    /// What a learner may stumble over.
    fn hard(&self, bar: usize, speaker: &mut Speaker<'_>) -> Option<String> {
        let facts = self.facts;
        let found = facts.patterns.hard.binary_search_by_key(&bar, |hard| hard.bar).ok()?;
        let why = &facts.patterns.hard[found].why;
        let end = facts.tune.bars[bar].end;
        let note = |index: usize| {
            let pitch = facts.tune.events.get(index).and_then(|event| event.sound.pitch());
            pitch.map_or_else(String::new, |pitch| facts.note(pitch))
        };
        // A tie into the next bar first: who does not know of it plays a wrong bar.
        let last = end.checked_sub(1).and_then(|last| Some((last, facts.tune.events.get(last)?)));
        if let Some((index, _)) = last.filter(|(i, e)| e.tied && self.is_held(i + 1)) {
            let said = speaker.sentence("tied.over", usize::MAX, &[("note", &note(index))]);
            if said.is_some() {
                return said;
            }
        }
        why.iter().find_map(|why| match *why {
            Why::Leap { interval, to } => {
                let steps = usize::from(interval.steps().unsigned_abs());
                let span = facts.words.series("span", steps);
                let key = if interval.is_down() { "leap.down" } else { "leap.up" };
                speaker.sentence(key, 3, &[("span", &span), ("note", &note(to))])
            }
            Why::Syncopation { index } => {
                speaker.sentence("syncopation", 3, &[("note", &note(index))])
            }
            Why::FirstAccidental { index, .. } => {
                speaker.sentence("accidental", MOST, &[("note", &note(index))])
            }
            Why::Awkward { index } => speaker.sentence("awkward", MOST, &[("note", &note(index))]),
            Why::Fastest { length, .. } => {
                let values = facts.options.values.name(facts.words, length, true)?;
                speaker.sentence("fastest", 1, &[("values", &values)])
            }
            Why::Dotted { .. } => speaker.sentence("dotted", 1, &[]),
            Why::Tied { .. } => None,
        })
    }

    /// How the last bar of a part comes to rest.
    fn ending(&self, bar: usize, strain: &StrainForm, speaker: &mut Speaker<'_>) -> Option<String> {
        let facts = self.facts;
        if bar + 1 != strain.end {
            return None;
        }
        let home = facts.key?.home;
        let last = facts.tune.events_of(bar).iter().rev().find_map(|e| e.sound.pitch())?;
        let is_home = last.pitch_class() == home.pitch_class();
        let key = if is_home { "ending.home" } else { "ending.away" };
        let mut said = speaker.sentence(key, MOST, &[("note", &facts.note(last))])?;
        if facts.places[bar].fit == BarFit::Completes
            && let Some(short) = speaker.sentence("ending.complete", 1, &[])
        {
            said = format!("{said} {short}");
        }
        Some(said)
    }

    /// The first bar whose first half this bar shares, which is at least two notes.
    fn begins_like(&mut self, bar: usize) -> Option<usize> {
        let facts = self.facts;
        let half = facts.tune.bars[bar].metre.bar_length()?.times(1, 2).ok()?;
        let events = facts.tune.events_of(bar);
        let first: Vec<_> = events
            .iter()
            .take_while(|event| event.at < half)
            .map(|event| (event.sound.pitch(), event.length))
            .collect();
        if first.len() < 2 || first.len() == events.len() || self.is_pickup(bar) {
            return None;
        }
        let known = *self.beginnings.entry(first).or_insert(bar);
        (known < bar).then_some(known)
    }

    /// What it has of an earlier bar.
    fn alike(
        &self,
        bar: usize,
        begins: Option<usize>,
        speaker: &mut Speaker<'_>,
    ) -> Option<String> {
        let facts = self.facts;
        let name = |bar: usize| facts.bars(facts.number(bar), facts.number(bar));
        let (key, like) = match facts.patterns.bars.get(bar) {
            Some(Likeness::Moved { bar, steps: 1 }) => ("moved.up", *bar),
            Some(Likeness::Moved { bar, steps: -1 }) => ("moved.down", *bar),
            _ => ("begins", begins?),
        };
        speaker.sentence(key, usize::MAX, &[("bar", &name(like))])
    }

    /// The first time that the tune reaches its highest or its lowest note.
    fn edge(&self, bar: usize, speaker: &mut Speaker<'_>) -> Option<String> {
        let facts = self.facts;
        let range = facts.finding.range?;
        let own = facts.tune.bars[bar].first..facts.tune.bars[bar].end;
        let (key, pitch) = if own.contains(&range.highest_at) {
            ("highest", range.highest)
        } else if own.contains(&range.lowest_at) {
            ("lowest", range.lowest)
        } else {
            return None;
        };
        speaker.sentence(key, 1, &[("note", &facts.note(pitch))])
    }
}

//! What to know before playing.

use super::{Facts, Paragraph, Section};
use crate::words::about_middle_c;
use crate::words::capital;
use modewright_core::count::{BarFit, tune_count_in};
use modewright_core::find::Verdict;
use modewright_core::{Key, Length, MetreKind, Mode, Pitch};

/// A finding is told without "most likely" from this chance on.
const SURE: u16 = 9_500;
/// A part on its own is short: it is told only where it is surer than a guess.
const SURE_OF_STRAIN: u16 = 8_000;
/// Parts that are told to be something else.
const MOST_STRAINS: usize = 3;

pub(super) fn section(facts: &Facts<'_>) -> Section {
    let paragraph = |sentences: Vec<String>| {
        let text: Vec<String> = sentences.iter().map(|sentence| capital(sentence)).collect();
        Paragraph { text: text.join(" "), ..Paragraph::default() }
    };
    let mut paragraphs = vec![
        paragraph([home(facts)].into_iter().chain(strains(facts)).chain(range(facts)).collect()),
        paragraph([metre(facts)].into_iter().chain(counting_in(facts)).collect()),
        paragraph([form(facts), watch(facts), steps(facts)].into_iter().flatten().collect()),
    ];
    paragraphs.retain(|paragraph| !paragraph.text.is_empty());
    Section { heading: facts.words.say("section.before", &[]), paragraphs }
}

fn mode_name(facts: &Facts<'_>, mode: Mode) -> String {
    facts.words.say(&format!("mode.{}", mode.name()), &[])
}

fn story(facts: &Facts<'_>, key: Key) -> String {
    let home = facts.name(key.home);
    match (key.mode, key.parent()) {
        (Mode::Ionian, _) | (_, Err(_)) => facts.words.say("story.major", &[("home", &home)]),
        (_, Ok(parent)) => {
            let (mode, parent) = (mode_name(facts, parent.mode), facts.name(parent.home));
            let parent = facts.words.say("key", &[("home", &parent), ("mode", &mode)]);
            facts.words.say("story.parent", &[("parent", &parent), ("home", &home)])
        }
    }
}

fn home(facts: &Facts<'_>) -> String {
    let Some(best) = facts.finding.best() else { return facts.words.say("home.none", &[]) };
    let key = match facts.finding.verdict {
        Verdict::Open if facts.finding.open.iter().all(|open| open.sounds == 0) => {
            "home.open.silent"
        }
        Verdict::Open => "home.open",
        Verdict::Doubtful => "home.doubtful",
        _ if best.chance.ten_thousandths() >= SURE => "home.clear",
        _ => "home.likely",
    };
    let (home, mode) = (facts.name(best.key.home), mode_name(facts, best.key.mode));
    let story = story(facts, best.key);
    facts.words.say(key, &[("home", &home), ("mode", &mode), ("story", &story)])
}

/// Parts that on their own are surely something else than the whole.
fn strains(facts: &Facts<'_>) -> Vec<String> {
    let Some(whole) = facts.finding.best() else { return Vec::new() };
    let found = facts.finding.strains(facts.tune);
    let own = found.iter().zip(&facts.patterns.form.strains);
    let differs = own.filter(|(found, _)| {
        found.best.key != whole.key && found.best.chance.ten_thousandths() >= SURE_OF_STRAIN
    });
    let told = differs.map(|(found, strain)| {
        let (home, mode) = (facts.name(found.best.key.home), mode_name(facts, found.best.key.mode));
        let key = facts.words.say("key", &[("home", &home), ("mode", &mode)]);
        facts.words.say("home.strain", &[("letter", &strain.letter.to_string()), ("key", &key)])
    });
    told.take(MOST_STRAINS).collect()
}

/// Where a pitch lies, for somebody who knows middle C.
fn pitch(facts: &Facts<'_>, pitch: Pitch) -> String {
    let (away, above, is_c) = about_middle_c(pitch);
    let key = match (away, above, is_c) {
        (0, ..) => "pitch.middle".to_owned(),
        (1, true, true) => "pitch.octave-above".to_owned(),
        (1, false, true) => "pitch.octave-below".to_owned(),
        (away @ 1..=3, true, _) => format!("pitch.above-{away}"),
        (away @ 1..=2, false, _) => format!("pitch.below-{away}"),
        (_, true, _) => "pitch.above-many".to_owned(),
        (_, false, _) => "pitch.below-many".to_owned(),
    };
    facts.words.say(&key, &[("note", &facts.note(pitch))])
}

fn range(facts: &Facts<'_>) -> Option<String> {
    let range = facts.finding.range?;
    let low = pitch(facts, range.lowest);
    let steps = range.span().steps().unsigned_abs();
    if steps == 0 {
        return Some(facts.words.say("range.one", &[("low", &low)]));
    }
    let span = facts.words.series("span", usize::from(steps));
    let high = facts.note(range.highest);
    Some(facts.words.say("range.two", &[("low", &low), ("high", &high), ("span", &span)]))
}

fn metre(facts: &Facts<'_>) -> String {
    let (metre, words, values) = (facts.tune.metre, facts.words, facts.options.values);
    let number = |count: u32| words.number(usize::try_from(count).unwrap_or(0));
    let name = |length: Option<Length>, many| {
        length.and_then(|length| values.name(words, length, many)).unwrap_or_default()
    };
    let beats = metre.beats();
    let written = metre.to_string();
    match metre.kind() {
        MetreKind::Free => words.say("metre.free", &[]),
        MetreKind::Simple => {
            let with = [
                ("metre", written.as_str()),
                ("beats", &number(metre.upper())),
                ("value", &name(metre.unit(), false)),
            ];
            words.say("metre.simple", &with)
        }
        MetreKind::Compound => {
            let beats = u32::try_from(beats.len()).unwrap_or(0);
            let parts = format!("{} {}", number(3), name(metre.unit(), true));
            let with = [("metre", written.as_str()), ("beats", &number(beats)), ("parts", &parts)];
            words.say("metre.compound", &with)
        }
        MetreKind::Irregular => {
            let groups: Vec<String> = beats.iter().map(|parts| number(*parts)).collect();
            let with = [
                ("metre", written.as_str()),
                ("groups", &words.list(&groups)),
                ("values", &name(metre.unit(), true)),
            ];
            words.say("metre.uneven", &with)
        }
    }
}

fn counting_in(facts: &Facts<'_>) -> Option<String> {
    let is_pickup = facts.places.first()?.fit == BarFit::Pickup;
    let found = tune_count_in(facts.tune, 1, facts.options.count.system)?;
    let (count, on) = (found.text(), found.first_note.to_string());
    let key = if is_pickup { "count.pickup" } else { "count.full" };
    Some(facts.words.say(key, &[("count", &count), ("on", &on)]))
}

fn form(facts: &Facts<'_>) -> Option<String> {
    // Longer orders of parts are for the page to print.
    const LONGEST: usize = 12;
    let form = &facts.patterns.form;
    match form.strains.as_slice() {
        [] => None,
        [only] => {
            let times = facts.words.series("times", usize::try_from(only.times).unwrap_or(0));
            Some(facts.words.say("form.one", &[("times", &times)]))
        }
        _ => {
            let played = form.played.chars().count() <= LONGEST;
            played.then(|| facts.words.say("form.many", &[("played", &form.played)]))
        }
    }
}

fn watch(facts: &Facts<'_>) -> Option<String> {
    let hard = facts.hardest();
    let bars = facts.several(&hard);
    (!hard.is_empty()).then(|| facts.words.say("watch.one", &[("bars", &bars)]))
}

fn steps(facts: &Facts<'_>) -> Option<String> {
    let moves = facts.patterns.moves;
    // More than six moves in ten, of a tune that has some.
    let mostly = moves.all >= 8 && moves.steps * 10 > moves.all * 6;
    let key = if facts.hardest().is_empty() { "steps.only" } else { "steps" };
    mostly.then(|| facts.words.say(key, &[]))
}

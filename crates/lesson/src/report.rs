//! A whole answer as lines of text under headings, for a terminal or a plain page.

mod count;
mod instrument;

pub use count::count;
pub use instrument::{fingering, instrument, instruments};

use crate::answer::{FindAnswer, FitAnswer, ProblemAnswer};
use crate::words;
use modewright_core::find::{Evidence, Finding};
use modewright_core::{Key, TheoryError, Tune};
use modewright_formats::Problem;

/// A report: a title, the verdict, and sections.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// The tune's title with its number, or the key.
    pub title: String,
    /// The verdict in one line.
    pub verdict: String,
    /// What follows, in order.
    pub sections: Vec<Section>,
}

/// Lines under a heading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Section {
    /// A word or three.
    pub heading: &'static str,
    /// At least one line.
    pub lines: Vec<String>,
}

/// What a finding says, in the order in which a learner asks.
#[must_use]
pub fn find(tune: &Tune, finding: &Finding, problems: &[Problem]) -> Report {
    let answer = FindAnswer::new("", tune, finding, problems);
    let mut report = Report { title: title(tune), ..Report::default() };
    report.verdict.clone_from(&answer.words.verdict);
    let mut add = |heading, lines: Vec<String>| {
        if !lines.is_empty() {
            report.sections.push(Section { heading, lines });
        }
    };
    if let Some(best) = finding.best() {
        add("how sure", answer.words.sure.into_iter().collect());
        let mut notes: Vec<String> = scale_line(best.key).into_iter().collect();
        notes.extend(answer.words.compared.map(sentence));
        add("its notes", notes);
    }
    add("lowest", place(answer.lowest, answer.words.lowest));
    add("highest", place(answer.highest, answer.words.highest));
    let span = answer.span.map(|s| match &answer.words.position {
        Some(position) => format!("{}: {position}", s.name),
        None => s.name,
    });
    add("in all", span.into_iter().collect());
    add("left open", answer.words.open);
    add("two forms", answer.words.variants);
    add("strains", answer.words.strains.into_iter().collect());
    add("on the page", answer.words.agrees.into_iter().collect());
    if finding.best().is_some() {
        add("why", reasons(tune, finding));
        let others = finding.ranked.iter().skip(1).filter(|r| r.chance.ten_thousandths() >= 50);
        let others: Vec<String> = others
            .take(3)
            .map(|r| format!("{} ({})", words::key_name(r.key), words::in_hundred(r.chance)))
            .collect();
        let line = format!("Next in line: {}.", words::list(&others));
        add("or else", if others.is_empty() { Vec::new() } else { vec![line] });
    }
    add("the text", told(&answer.problems));
    report
}

/// What was odd about the text, cut where it is much.
fn told(problems: &[ProblemAnswer]) -> Vec<String> {
    let told = problems.iter().map(|p| {
        let hint = if p.hint.is_empty() { String::new() } else { format!("; {}", p.hint) };
        format!("line {}, column {}: {}{hint}", p.line, p.column, p.message)
    });
    shortened(told.collect())
}

/// Where a tune lies on an instrument, in the order in which a player asks.
#[must_use]
pub fn fit(tune: &Tune, answer: &FitAnswer) -> Report {
    let title = format!("{} on {}", title(tune), words::called(&answer.instrument.name));
    let mut report = Report { title, ..Report::default() };
    report.verdict.clone_from(&answer.words.verdict);
    let mut add = |heading, lines: Vec<String>| {
        if !lines.is_empty() {
            report.sections.push(Section { heading, lines });
        }
    };
    let words = &answer.words;
    add("as it stands", words.as_written.iter().map(|line| format!("{line}.")).collect());
    add("best heights", words.heights.iter().map(|line| format!("{line}.")).collect());
    let near = words.folding.iter().filter(|_| answer.folded.is_some());
    add("nearest", near.map(|line| sentence(line.clone())).collect());
    add("elsewhere", words.elsewhere.iter().cloned().collect());
    let own = (tune.sounding_shift != 0).then(|| {
        "The page states a shift of its sound; here the instrument's own counts.".to_owned()
    });
    add("pitch", std::iter::once(words.pitch.clone()).chain(own).collect());
    report
}

/// Which of several instruments play a tune where it stands, as a line.
#[must_use]
pub fn where_it_stands(tune: &Tune, answers: &[FitAnswer]) -> Report {
    let (plays, not): (Vec<&FitAnswer>, Vec<&FitAnswer>) =
        answers.iter().partition(|answer| answer.verdict == "as_written");
    let names = |answers: &[&FitAnswer]| -> Vec<String> {
        answers.iter().map(|answer| words::called(&answer.instrument.name)).collect()
    };
    let verdict = if plays.is_empty() {
        "None of these instruments plays it where it stands.".to_owned()
    } else {
        format!("Where it stands it is played by {}.", words::list(&names(&plays)))
    };
    let mut sections = Vec::new();
    if !plays.is_empty() && !not.is_empty() {
        let lines = vec![format!("{}.", words::list(&names(&not)))];
        sections.push(Section { heading: "not by", lines });
    }
    Report { title: title(tune), verdict, sections }
}

/// What there is to say of a key.
///
/// # Errors
///
/// [`TheoryError::SignatureTooLarge`] for a key that cannot be written.
pub fn scale(key: Key) -> Result<Report, TheoryError> {
    let notes = key.scale()?;
    let names: Vec<String> = notes.iter().map(|n| words::note(*n)).collect();
    let mut report = Report {
        title: words::key_name(key),
        verdict: sentence(words::story(key)),
        ..Report::default()
    };
    let mut add = |heading, lines| report.sections.push(Section { heading, lines });
    let degrees: Vec<String> = key
        .mode
        .degrees()
        .iter()
        .zip(&names)
        .map(|(degree, name)| {
            format!("{name} ({})", degree.to_string().replace('b', "♭").replace('#', "♯"))
        })
        .collect();
    add("its notes", vec![degrees.join("  ")]);
    add("signature", vec![words::signature(key.signature()?)]);
    if let Some(compared) = words::compared(key) {
        add("sounds", vec![compared]);
    }
    let relatives = key.relatives()?;
    add(
        "same notes",
        relatives
            .into_iter()
            .map(|other| {
                let degree = words::ordinal(other.mode.parent_degree());
                format!("{:<14} starts on the {degree}", words::key_name(other))
            })
            .collect(),
    );
    add(
        "same home",
        key.parallels()
            .iter()
            .map(|other| {
                let name = words::key_name(other.key);
                if other.key.signature().is_err() {
                    return format!("{name:<14} needs more than seven sharps or flats");
                }
                let changes: Vec<String> = words::changed(key, other.key)
                    .into_iter()
                    .map(|(mine, theirs)| {
                        format!("{} for {}", words::note(theirs), words::note(mine))
                    })
                    .collect();
                if changes.is_empty() {
                    format!("{name:<14} this one")
                } else {
                    format!("{name:<14} {}", words::list(&changes))
                }
            })
            .collect(),
    );
    Ok(report)
}

/// The reasons, by the candidate that the answer is compared with: those for it first.
fn reasons(tune: &Tune, finding: &Finding) -> Vec<String> {
    const FOR: usize = 4;
    // What speaks against an answer that the user gave is what they ask about.
    let against = if finding.given.is_nothing() { 1 } else { FOR };
    // Hundredths of a natural logarithm of odds: below that, a reason against only confuses.
    const WORTH_TELLING: u32 = 50;
    let Some(best) = finding.best() else { return Vec::new() };
    let evidence = finding.evidence(tune);
    let mut lines = Vec::new();
    let mut rivals: Vec<Key> = Vec::new();
    for e in &evidence {
        let rival = if e.favours == best.key { e.over } else { e.favours };
        if !rivals.contains(&rival) {
            rivals.push(rival);
        }
    }
    for rival in rivals {
        let about = |e: &&Evidence| e.favours == rival || e.over == rival;
        let (mine, theirs): (Vec<_>, Vec<_>) =
            evidence.iter().filter(about).partition(|e| e.favours == best.key);
        lines.push(format!("Rather than {}:", words::key_name(rival)));
        lines.extend(mine.iter().take(FOR).map(|e| format!("+ {}", words::evidence(e))));
        lines.extend(
            theirs
                .iter()
                .filter(|e| e.weight >= WORTH_TELLING)
                .take(against)
                .map(|e| format!("- {}", words::evidence(e))),
        );
    }
    lines
}

fn title(tune: &Tune) -> String {
    let title = tune.header.titles.first().map_or("A tune without a title", String::as_str);
    match &tune.header.number {
        Some(number) => format!("{number}. {title}"),
        None => title.to_owned(),
    }
}

fn scale_line(key: Key) -> Option<String> {
    let notes = key.scale().ok()?;
    let names: Vec<String> = notes.iter().map(|n| words::note(*n)).collect();
    Some(format!("{}, {}", names.join(" "), words::signature(key.signature().ok()?)))
}

fn place(place: Option<crate::answer::PlaceAnswer>, words: Option<String>) -> Vec<String> {
    let (Some(place), Some(words)) = (place, words) else { return Vec::new() };
    let pitch = place.pitch.replace('#', "♯").replace('b', "♭");
    let bar = if place.bar == 0 {
        "in the pickup".to_owned()
    } else {
        format!("first in bar {}", place.bar)
    };
    vec![format!("{pitch}, {words}; {bar}")]
}

fn sentence(mut words: String) -> String {
    if let Some(first) = words.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    words.push('.');
    words
}

/// A long list of problems, cut with a count.
fn shortened(mut lines: Vec<String>) -> Vec<String> {
    const SHOWN: usize = 8;
    let more = lines.len().saturating_sub(SHOWN);
    if more > 0 {
        lines.truncate(SHOWN);
        lines.push(format!("and {more} more; --json lists all"));
    }
    lines
}

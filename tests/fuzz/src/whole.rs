//! All that is asked of a tune, from finding to sheet and sound.

use crate::{Seen, laws, valid};
use modewright_core::count::{CountOptions, Detail};
use modewright_core::find::{Verdict, find};
use modewright_core::fingering::{Options, plan};
use modewright_core::instrument::Instrument;
use modewright_core::patterns::Patterns;
use modewright_core::tune::{MarkKind, TuneBuilder};
use modewright_core::{Interval, Tune};
use modewright_formats::instrument::builtin;
use modewright_formats::source::{Kind, TuneText};
use modewright_formats::{Problem, Reading, Severity};
use modewright_lesson::answer::{
    CountAnswer, FindAnswer, FingeredTune, FingeringAnswer, FitAnswer, SCHEMA,
};
use modewright_lesson::walk::{Walk, WalkOptions, Wording, walk};
use modewright_sheet::{MarkedNote, Paper, Part, Played, Request, RowKind, engrave, html, svg};
use modewright_sound::{PerformOptions, Performance, Voice, render};

/// The most problems that a reading tells: a thousand, one that says so, and one of the whole.
const MOST_PROBLEMS: usize = 1002;

/// Notes and bars of a long tune.
const LONG: usize = 10_000;

/// Checks a reading and adds to what was seen.
pub(crate) fn reading(
    reading: &Reading,
    text: &TuneText,
    thorough: bool,
    seen: &mut Seen,
) -> Result<(), String> {
    // Places in a file that is no text are its own affair.
    if reading.problems.len() > MOST_PROBLEMS + text.problems.len() {
        return Err(format!("{} problems", reading.problems.len()));
    }
    problems(&reading.problems, (text.kind != Kind::Midi).then_some(&text.text))?;
    seen.signs.extend(reading.problems.iter().map(|problem| problem.kind.code()));
    let exact = text.kind == Kind::Abc;
    tune(&reading.tune, &reading.problems, exact, thorough, seen)
}

fn problems(problems: &[Problem], text: Option<&String>) -> Result<(), String> {
    for problem in problems {
        if problem.line == 0 || problem.column == 0 {
            return Err(format!("a problem without a place: {problem:?}"));
        }
        let (start, end) = (problem.span.start as usize, problem.span.end as usize);
        if text.is_some_and(|text| text.get(start..end).is_none()) {
            return Err(format!("a problem outside the text: {problem:?}"));
        }
        // A warning or an error that a person cannot do anything about is none.
        let words = modewright_lesson::words::problem(&problem.kind);
        let serious = problem.kind.severity() == Severity::Error;
        if words.message.is_empty() || (serious && words.hint.is_empty()) {
            return Err(format!("a problem without words: {problem:?}"));
        }
    }
    Ok(())
}

fn tune(
    tune: &Tune,
    problems: &[Problem],
    exact: bool,
    thorough: bool,
    seen: &mut Seen,
) -> Result<(), String> {
    limits(tune)?;
    let finding = find(tune);
    seen.work += tune.events.len() + 4 * tune.bars.len() + tune.marks.len();
    seen.signs.push(match finding.verdict {
        Verdict::Clear => "clear",
        Verdict::Open => "open",
        Verdict::Doubtful => "doubtful",
        Verdict::None => "none",
    });
    seen.signs.extend(tune.marks.iter().map(|mark| sign(&mark.kind)));
    let answer = FindAnswer::new("x", tune, &finding, problems);
    if answer.home.is_none() != (answer.verdict == "none") {
        return Err(format!("home and verdict disagree: {:?} {:?}", answer.home, answer.verdict));
    }
    // Very long tunes take seconds: they have all checks now and then.
    let long = tune.events.len() + tune.bars.len() > LONG;
    if long && !(thorough && tune.events.len().is_multiple_of(8)) {
        return Ok(());
    }
    seen.law(laws::abc_again(tune, exact));
    seen.law(laws::moves_along(tune));
    seen.law(laws::score_again(tune));
    seen.law(laws::midi_again(tune));
    // To hold an answer against its schema takes longer than all of the above.
    if !thorough {
        return Ok(());
    }
    if valid("find.json", &answer)?["schema"] != SCHEMA {
        return Err("an answer of another schema".to_owned());
    }
    let played = tune.play_order();
    seen.work += 2 * played.len();
    if played.len() > Tune::MAX_PLAYED_BARS {
        return Err(format!("{} bars are played", played.len()));
    }
    let options = CountOptions { detail: Detail::Full, ..CountOptions::default() };
    valid("count.json", &CountAnswer::new("x", tune, options, problems))?;
    let patterns = Patterns::of(tune, &[]);
    if patterns.bars.len() != tune.bars.len() {
        return Err("a bar without its likeness".to_owned());
    }
    // One instrument after the other, as the number of notes has it.
    let all = builtin::all();
    if let Some(it) = all.get(tune.events.len() % all.len().max(1)) {
        on(tune, it, problems)?;
    }
    let told = walk(tune, &finding, &Wording::english(), &WalkOptions::default());
    let page = told.to_markdown();
    // Read back and written again, a page stays what it is, but for blanks at the ends.
    let again = Walk::from_markdown(&page);
    let page = again.to_markdown();
    if Walk::from_markdown(&page) != again || again.sections.len() != told.sections.len() {
        seen.law(Err(format!("a walk that does not read back: {page}")));
    }
    on_paper(tune, finding.best().map(|best| best.key), &told)?;
    if let Ok(played) = Performance::of(tune, &PerformOptions::default()) {
        if played.length > Performance::LONGEST + 600_000_000_000 {
            return Err(format!("{} nanoseconds of sound", played.length));
        }
        if played.length < 4_000_000_000 {
            let samples = render(&played, Voice::Reed);
            // Notes of a few milliseconds ring on in each other; a file cuts them off.
            let brief = played.notes.iter().any(|note| note.length < 60_000_000);
            let most = if brief { 64.0 } else { 1.0 };
            if !samples.iter().all(|sample| sample.abs() <= most) {
                return Err("a sample beyond one".to_owned());
            }
        }
    }
    Ok(())
}

/// What hangs on a note, in a word.
const fn sign(mark: &MarkKind) -> &'static str {
    match mark {
        MarkKind::Grace { .. } => "grace",
        MarkKind::Sign(_) => "sign",
        MarkKind::ChordSign(_) => "chord sign",
        MarkKind::Text { .. } => "text",
        MarkKind::ChordNote(_) => "chord",
        MarkKind::SlurStart | MarkKind::SlurEnd => "slur",
        MarkKind::Tuplet { .. } => "tuplet",
        MarkKind::Lyric { .. } => "lyric",
        MarkKind::Key(_) => "key",
        MarkKind::Metre(_) => "metre",
        MarkKind::Tempo(_) => "tempo",
        MarkKind::Part(_) => "part",
        MarkKind::LineEnd => "line",
    }
}

fn limits(tune: &Tune) -> Result<(), String> {
    if tune.events.len() > TuneBuilder::MAX_EVENTS {
        return Err(format!("{} notes", tune.events.len()));
    }
    // Bars are parts of the row of notes, one after the other.
    let mut at = 0;
    for bar in &tune.bars {
        if bar.first != at || bar.end < bar.first {
            return Err(format!("a bar out of its row: {bar:?}"));
        }
        at = bar.end;
    }
    if at == tune.events.len() || tune.bars.is_empty() {
        Ok(())
    } else {
        Err(format!("{at} of {} notes are in bars", tune.events.len()))
    }
}

/// All that is asked of a tune and an instrument.
pub(crate) fn on(tune: &Tune, it: &Instrument, problems: &[Problem]) -> Result<(), String> {
    let finding = find(tune);
    let fit = FitAnswer::new("x", tune, &finding, it, &[]);
    valid("fit.json", &fit)?;
    let options = Options { style: 0, unconfirmed: true };
    let plan = plan(tune, it, options);
    let of = FingeredTune {
        tune,
        instrument: it,
        options,
        plan: &plan,
        harmony: &[],
        home: finding.best().map(|best| best.key),
        moved: Interval::UNISON,
    };
    valid("fingering.json", &FingeringAnswer::new("x", &of, problems))?;
    Ok(())
}

fn on_paper(tune: &Tune, key: Option<modewright_core::Key>, told: &Walk) -> Result<(), String> {
    let whistle = builtin::find("tin-whistle-d").map_err(|_| "no whistle".to_owned())?;
    let way = plan(tune, whistle, Options::default());
    let request = Request {
        paper: Paper::PHONE,
        rows: vec![RowKind::Count, RowKind::Degree, RowKind::Fingering, RowKind::Words],
        marked: vec![MarkedNote::Home, MarkedNote::Lowest, MarkedNote::Highest],
        key,
        played: Some(Played::of(whistle, &way)),
        ..Request::default()
    };
    let sheet = engrave(tune, &request.options(tune));
    let picture = svg(&sheet);
    roxmltree::Document::parse(&picture).map_err(|error| format!("a picture: {error}"))?;
    let parts: Vec<Part> = told.sections.iter().map(Part::from).collect();
    let page = html(&sheet, &parts);
    if page.contains("<script") || picture.contains("<script") {
        return Err("a script in a page".to_owned());
    }
    Ok(())
}

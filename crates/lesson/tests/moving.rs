//! Fit and transposing: the shape of the answers, and every word of them.

use modewright_core::find::find;
use modewright_core::transpose::{AimError, TransposeError};
use modewright_core::{Interval, Key};
use modewright_formats::abc::RewriteError;
use modewright_formats::instrument::builtin;
use modewright_formats::{ReadOptions, read, source::TuneText, source::split};
use modewright_lesson::answer::FitAnswer;
use modewright_lesson::moving::{Aim, Unmoved, Wish, move_text};
use modewright_lesson::{demo, report, words};
use modewright_tests::{golden, json};
use std::fmt::Write;

/// Texts about which there is something to say that the demo tunes do not show.
const MORE: [&str; 6] = [
    "",
    "X:1\nK:C\nz4|\n",
    "X:1\nT:Two and a half octaves\nM:4/4\nL:1/4\nK:C\nC,E,G,C|EGce|gc'e'z|\n",
    "X:1\nT:Beyond\nL:1/4\nK:C\nC,,,,c''''|\n",
    "D E F# G A B c# d",
    "X:1\nT:Half holes\nM:4/4\nL:1/4\nK:Dm\nDEFG|A_BAF|GFED|\n",
];

fn texts() -> impl Iterator<Item = &'static str> {
    demo::TUNES.iter().map(|demo| demo.abc).chain(MORE)
}

fn answer(text: &str, instrument: &str) -> (FitAnswer, report::Report) {
    let text = split(text).next().unwrap_or_default();
    let tune = read(&text, &ReadOptions::default()).tune;
    let it = builtin::find(instrument).expect("a built-in instrument");
    let answer = FitAnswer::new("test", &tune, &find(&tune), it, builtin::all());
    let page = report::fit(&tune, &answer);
    (answer, page)
}

#[test]
fn answers_have_the_shape_that_the_schema_says() {
    let mut schemas = boon::Schemas::new();
    let mut compiler = boon::Compiler::new();
    compiler.add_resource("fit.json", json("schema/fit.json")).unwrap();
    let schema = compiler.compile("fit.json", &mut schemas).unwrap();
    for it in builtin::all() {
        for text in texts() {
            let (answer, _) = answer(text, &it.id);
            let value = serde_json::to_value(&answer).unwrap();
            if let Err(error) = schemas.validate(&value, schema) {
                panic!("{} {text:?}\n{error:#}", it.id);
            }
            let costs: Vec<u32> = answer.transpositions.iter().map(|t| t.cost).collect();
            assert!(costs.is_sorted());
            for there in &answer.transpositions {
                assert_eq!(there.reasons.iter().map(|r| r.cost).sum::<u32>(), there.cost);
            }
        }
    }
}

#[test]
fn reports_read_as_they_did() {
    let mut text = String::new();
    for instrument in ["tin-whistle-d", "anglo-20-c-g", "highland-pipes", "harmonica-c"] {
        for tune in texts() {
            let (_, page) = answer(tune, instrument);
            writeln!(text, "{}\n{}", page.title, page.verdict).unwrap();
            for section in &page.sections {
                writeln!(text, "[{}]", section.heading).unwrap();
                for line in &section.lines {
                    writeln!(text, "  {line}").unwrap();
                }
            }
            text.push('\n');
        }
    }
    golden("fit-reports.txt", &text);
}

#[test]
fn moves_are_told() {
    let whistle = builtin::find("tin-whistle-d").unwrap();
    let mut text = String::new();
    for (aim, instrument, fold) in [
        (Aim::Home("G".parse().unwrap(), None), None, false),
        (Aim::Semitones(-12), None, false),
        (Aim::Semitones(0), Some(whistle), true),
        (Aim::Best, Some(whistle), false),
        (Aim::Best, Some(whistle), true),
    ] {
        for tune in texts() {
            let wish = Wish { aim, instrument, fold };
            let tune = split(tune).next().unwrap_or_default();
            match move_text(&tune, &ReadOptions::default(), &wish) {
                Ok(moved) => {
                    writeln!(text, "{}", words::moved(&moved).join(" ")).unwrap();
                    let there = moved.there.as_ref().filter(|there| !there.is_whole());
                    if let (Some(there), Some(it)) = (there, instrument) {
                        let advice = words::not_all_there(&moved, there, it, fold);
                        writeln!(text, "  {}\n  hint: {}", advice.message, advice.hint).unwrap();
                    }
                }
                Err(why) => {
                    let advice = words::unmoved(&why);
                    writeln!(text, "{}\n  hint: {}", advice.message, advice.hint).unwrap();
                }
            }
        }
        text.push('\n');
    }
    golden("moves.txt", &text);
}

#[test]
fn why_a_tune_is_not_moved() {
    let key = |name: &str| name.parse::<Key>().unwrap();
    let beyond = TransposeError::BeyondMidi { pitch: "G9".parse().unwrap(), midi: 130 };
    let mut text = String::new();
    for why in [
        Unmoved::NoNotes,
        Unmoved::Aim(AimError::NoHome),
        Unmoved::Aim(AimError::OtherMode { asked: key("D ionian"), tune: key("E dorian") }),
        Unmoved::Aim(AimError::Unwritable { key: key("G# ionian") }),
        Unmoved::Text(RewriteError::Transpose(beyond)),
        Unmoved::Text(RewriteError::Transpose(TransposeError::KeyUnwritable { semitones: 2 })),
        Unmoved::Text(RewriteError::NotExact { line: 7 }),
        Unmoved::Nowhere,
    ] {
        let advice = words::unmoved(&why);
        assert!(!advice.message.ends_with('.') && !advice.hint.is_empty());
        writeln!(text, "{}\n  {}\n  hint: {}", why.code(), advice.message, advice.hint).unwrap();
    }
    golden("unmoved.txt", &text);
}

#[test]
fn ways_are_told_in_words() {
    let mut text = String::new();
    for semitones in -25..=25 {
        let by = Interval::from_semitones(semitones);
        writeln!(text, "{semitones}: {}", words::way_up(by)).unwrap();
    }
    for name in ["A4", "d5", "-A1", "A8", "d2", "AA4", "P22", "-P29"] {
        writeln!(text, "{name}: {}", words::way_up(name.parse().unwrap())).unwrap();
    }
    golden("ways.txt", &text);
}

#[test]
fn a_moved_text_is_the_tune_moved() {
    for demo in demo::TUNES {
        let text = TuneText::abc(demo.abc);
        let old = read(&text, &ReadOptions::default()).tune;
        let before = find(&old);
        for semitones in -5..=6 {
            let wish = Wish { aim: Aim::Semitones(semitones), instrument: None, fold: false };
            let moved = move_text(&text, &ReadOptions::default(), &wish).unwrap();
            assert!(moved.reading.problems.is_empty(), "{}", demo.id);
            let after = find(&moved.reading.tune);
            assert_eq!(after.verdict, before.verdict, "{} by {semitones}", demo.id);
            let keys = before.best().map(|b| b.key).zip(after.best().map(|b| b.key));
            let (old, new) = keys.unwrap();
            assert_eq!(new.mode, old.mode);
            let up = old.home.pitch_class().up(i32::from(semitones));
            assert_eq!(new.home.pitch_class(), up, "{} by {semitones}", demo.id);
        }
    }
}

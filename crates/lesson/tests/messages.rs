//! Every message that a learner may meet, kept in `tests/golden`.

use modewright_core::find::{Chance, Given, Ranked, Unsaid};
use modewright_core::tune::FormError;
use modewright_core::{Key, Length, Step, TheoryError};
use modewright_formats::ProblemKind as P;
use modewright_formats::midi::MidiProblem as M;
use modewright_formats::musicxml::MusicXmlProblem as X;
use modewright_lesson::words;
use modewright_tests::golden;
use std::fmt::Write;

/// One of each kind. That none is missing is checked against the source of the kinds.
fn every_kind() -> Vec<P> {
    let found = || "xyz".to_owned();
    let length = |n, d| Length::new(n, d).expect("a length");
    vec![
        P::NoNotes,
        P::Latin1,
        P::NotText,
        P::OtherFileType { seems: "a MIDI file" },
        P::TuneTooLong { limit: 8 << 20 },
        P::NotANote { found: found() },
        P::LetterH { found: "H".to_owned() },
        P::OctavesInferred,
        P::LengthsUnknown { taken: Length::CROTCHET },
        P::DashAsRest,
        P::KeyNotApplied { plain: vec![Step::F, Step::C] },
        P::TooManyProblems { limit: 1000 },
        P::TooManyNotes { limit: 1_000_000 },
        P::BarBeyondCounting,
        P::NotUnderstood { found: found() },
        P::StrayNumber { found: "12".to_owned() },
        P::ReservedCharacter { found: '*' },
        P::CurlyMark { found: '\u{201c}' },
        P::NumberTooLarge { found: "1234567".to_owned(), limit: 999_999 },
        P::ZeroLength { found: "0".to_owned() },
        P::PitchOutOfRange { found: "C,,,,,,,,,".to_owned() },
        P::AccidentalWithoutNote { found: "^".to_owned() },
        P::OddAccidental { found: "^_".to_owned() },
        P::TextNotClosed,
        P::GraceNotClosed,
        P::ChordNotClosed,
        P::EmptyChord,
        P::ChordTooLarge { limit: 64 },
        P::ChordTopNote { count: 3 },
        P::FieldNotClosed,
        P::FieldNotInline { field: 'T' },
        P::FieldAfterKey { field: 'C' },
        P::UnknownField { field: 'J' },
        P::MissingNumber,
        P::NoKey,
        P::KeyNotUnderstood { found: found() },
        P::ModeNotUnderstood { found: found() },
        P::KeyBeyondSeven { key: "G# ionian".parse().expect("a key") },
        P::KeyPartIgnored { found: found() },
        P::KeyBySmallLetter { found: "em".to_owned() },
        P::KeyMinorByCapitalM { home: "A".to_owned() },
        P::ClefUnknown { found: found() },
        P::ShiftChanges,
        P::MetreNotUnderstood { found: found() },
        P::MetrePartIgnored { found: found() },
        P::UnitNotUnderstood { found: found() },
        P::TempoNotUnderstood { found: found() },
        P::TempoOldStyle,
        P::PartsNotUnderstood { found: found() },
        P::PartsTooLong { limit: 10_000 },
        P::SymbolNotUnderstood { found: found() },
        P::UndefinedSymbol { found: 'h' },
        P::MacroLeftOut { found: found() },
        P::SeveralVoices { names: vec!["1".to_owned(), "2".to_owned()], read: "1".to_owned() },
        P::NoSuchVoice { asked: "3".to_owned(), names: vec!["1".to_owned(), "2".to_owned()] },
        P::NoSuchVoice { asked: "3".to_owned(), names: vec![] },
        P::OverlayLeftOut,
        P::TieBetweenDifferentPitches,
        P::TieWithoutNote,
        P::TieDetached,
        P::SlurNotOpened,
        P::SlurNotClosed { count: 2 },
        P::BrokenRhythmUnequal,
        P::BrokenRhythmWithoutNote,
        P::TupletNotUnderstood { found: "(0".to_owned() },
        P::TupletCutShort { missing: 1 },
        P::EndingNotUnderstood { found: "[0".to_owned() },
        P::EndingDetached,
        P::OddBarLine { found: "|[|".to_owned() },
        P::BarLineMissing { count: 4 },
        P::MailRemains { found: "=20".to_owned() },
        P::BarLength { number: 3, length: length(5, 8), expected: length(3, 4) },
        P::BarLength { number: 4, length: length(7, 8), expected: length(3, 4) },
        P::FormNotUnfolded { why: FormError::SeveralJumps(8, 16) },
        P::FormNotUnfolded { why: FormError::NoSegno },
        P::FormNotUnfolded { why: FormError::NoFine },
        P::FormNotUnfolded { why: FormError::NoCoda },
        P::FormNotUnfolded { why: FormError::InsideBar(9) },
        P::LyricsTooMany { count: 2 },
        P::ContinuationEmpty,
        P::EmptyLine,
        P::TextAfterEnd,
        P::SecondTune,
    ]
}

/// One of each kind that only files of other programs have.
fn every_file_kind() -> Vec<P> {
    let found = || "xyz".to_owned();
    let names = || vec!["Whistle".to_owned(), "Fiddle".to_owned()];
    let scores = [
        X::NotWellFormed { why: "unexpected end of stream".to_owned() },
        X::NotAScore { root: "html".to_owned() },
        X::Entities,
        X::BadPackage,
        X::EmptyPackage,
        X::TooLarge { limit: 32 << 20 },
        X::TooManyElements { limit: 4_000_000 },
        X::Version { found: "9.0".to_owned() },
        X::SeveralParts { names: names(), read: "Whistle".to_owned() },
        X::NoSuchPart { asked: "Harp".to_owned(), names: names() },
        X::Divisions { found: "0".to_owned() },
        X::NoDuration { count: 2 },
        X::DurationDiffers { count: 2 },
        X::Pitch { found: "H4".to_owned() },
        X::Microtones { count: 2 },
        X::Unpitched { count: 2 },
        X::TieDrawnOnly { count: 2 },
        X::NestedTuplets { count: 1 },
        X::NestedTuplets { count: 2 },
        X::Fifths { found: "9".to_owned() },
        X::Mode { found: found() },
        X::Metre { found: "3/5".to_owned() },
        X::Backup,
        X::Ending { found: "0".to_owned() },
    ];
    let files = [
        M::NotReadable { why: "not a midi file".to_owned() },
        M::Truncated,
        M::Ticks { found: 0 },
        M::Timecode,
        M::SeveralTracks { names: names(), read: "Whistle".to_owned() },
        M::NoSuchTrack { asked: "Harp".to_owned(), names: names() },
        M::Moved { count: 12, most: 62 },
        M::Overlaps { count: 3 },
        M::NeverEnds { count: 2 },
        M::Metre { beats: 0, power: 2 },
        M::Key { fifths: 9 },
        M::TooLong,
    ];
    scores.into_iter().map(P::from).chain(files.into_iter().map(P::from)).collect()
}

#[test]
fn problems_and_their_ways_out() {
    let sources = [
        include_str!("../../formats/src/problem/code.rs"),
        include_str!("../../formats/src/musicxml/problem.rs"),
        include_str!("../../formats/src/midi/problem.rs"),
    ];
    let lines = sources.iter().flat_map(|source| source.lines());
    let codes: Vec<&str> =
        lines.filter_map(|line| line.split_once("=> \"")?.1.strip_suffix("\",")).collect();
    assert!(codes.len() > 100);
    let mut kinds = every_kind();
    kinds.extend(every_file_kind());
    for code in &codes {
        assert!(kinds.iter().any(|k| k.code() == *code), "{code} has no message here");
    }
    let mut text = String::new();
    for kind in kinds {
        let advice = words::problem(&kind);
        writeln!(text, "{} ({:?})\n  {}", kind.code(), kind.severity(), advice.message).unwrap();
        if !advice.hint.is_empty() {
            writeln!(text, "  hint: {}", advice.hint).unwrap();
        }
        assert!(!advice.message.ends_with('.'), "{}", advice.message);
    }
    golden("problems.txt", &text);
}

#[test]
fn impossible_theory() {
    let not_a = |wanted| TheoryError::NotA { wanted, found: "xyz".to_owned() };
    let key: Key = "Fb dorian".parse().unwrap();
    let mut text = String::new();
    for error in [
        key.signature().unwrap_err(),
        TheoryError::FifthsOutOfRange { fifths: 9 },
        TheoryError::AlterTooLarge { semitones: 8 },
        TheoryError::OctaveOutOfRange { octave: 99 },
        TheoryError::LengthOutOfRange,
        TheoryError::BadMetre { beats: 4, value: 3 },
        not_a("mode"),
        not_a("key"),
        not_a("note name"),
        not_a("pitch"),
        not_a("length"),
        not_a("metre"),
        not_a("interval"),
        not_a("fret"),
    ] {
        let advice = words::theory_error(&error);
        writeln!(
            text,
            "{}\n  {error}\n  {}\n  hint: {}",
            error.code(),
            advice.message,
            advice.hint
        )
        .unwrap();
    }
    golden("theory-errors.txt", &text);
}

#[test]
fn how_sure_and_why_not() {
    let mut text = String::new();
    for parts in [10_000, 9_999, 9_912, 9_600, 8_700, 7_300, 5_100, 3_000, 20] {
        let words = words::how_sure(Chance::from_ten_thousandths(parts));
        writeln!(text, "{parts}: {words}").unwrap();
    }
    let key: Key = "F# dorian".parse().unwrap();
    let best = Ranked { key, chance: Chance::from_ten_thousandths(8_700) };
    for (home, mode) in [(true, false), (false, true), (true, true)] {
        let given = Given { home: home.then_some(key.home), mode: mode.then_some(key.mode) };
        writeln!(text, "home {home}, mode {mode}: {}", words::sure_of(best, given)).unwrap();
    }
    for why in [Unsaid::NoNotes, Unsaid::OneNote, Unsaid::TwoNotes, Unsaid::NoCentre] {
        writeln!(text, "{why:?}: {}", words::unsaid(why)).unwrap();
    }
    golden("how-sure.txt", &text);
}

/// All 105 keys that can be written, as a learner is told of them.
#[test]
fn every_key_has_its_story() {
    let mut text = String::new();
    for place in -14..=14 {
        let home = modewright_core::Spelling::from_fifths(place).unwrap();
        for mode in modewright_core::Mode::ALL {
            let key = Key::new(home, mode);
            if key.signature().is_err() {
                continue;
            }
            let compared = words::compared(key).map_or(String::new(), |c| format!("; {c}"));
            writeln!(text, "{}{compared}", words::story(key)).unwrap();
        }
    }
    assert_eq!(text.lines().count(), 105);
    golden("stories.txt", &text);
}

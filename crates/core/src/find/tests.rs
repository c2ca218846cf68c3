//! Laws of the finder.

use super::asked::evidence_with;
use super::evidence::EvidenceKind;
use super::features::{BLOCKS, Features, PARENT_BLOCKS, TABLE_LEN};
use super::model::{Given, Model};
use super::verdict::find_with;
use super::view::View;
use super::*;
use crate::tune::{BarLine, BarStyle, Sound, Span, TuneBuilder, WrittenKey};
use crate::{Interval, Key, Length, Metre, Mode, Pitch, Tune};
use proptest::prelude::*;

/// A tune in 4/4 of crotchets, with a repeat sign after each strain.
fn tune(strains: &[&str], key: Option<&str>) -> Tune {
    let mut builder = TuneBuilder::new();
    builder.metre(Metre::FOUR_FOUR);
    if let Some(key) = key {
        builder.key(WrittenKey::from_key(key.parse().unwrap()));
    }
    for strain in strains {
        let names: Vec<&str> = strain.split_whitespace().collect();
        for bar in names.chunks(4) {
            for name in bar {
                let sound =
                    if *name == "z" { Sound::Rest } else { Sound::Note(name.parse().unwrap()) };
                builder.event(sound, Length::CROTCHET, Span::default()).unwrap();
            }
            builder.bar_line(
                BarLine { style: BarStyle::Single, ..BarLine::default() },
                Span::default(),
            );
        }
        let repeat = BarLine { style: BarStyle::Final, repeat_back: 1, repeat_on: 0 };
        builder.bar_line(repeat, Span::default());
    }
    builder.finish()
}

const DORIAN: &[&str] = &[
    "E4 G4 B4 B4 C#5 B4 A4 F#4 E4 G4 B4 D5 B4 A4 F#4 D4 E4 G4 B4 B4 C#5 B4 A4 F#4 G4 F#4 E4 D4 E4 E4 E4 z",
    "E5 E5 D5 B4 C#5 D5 B4 A4 E5 F#5 E5 D5 B4 A4 F#4 D4 E5 E5 D5 B4 C#5 D5 B4 A4 G4 F#4 E4 D4 E4 E4 E4 z",
];

#[test]
fn a_plain_dorian_tune() {
    let finding = find(&tune(DORIAN, Some("E dorian")));
    assert_eq!(finding.best().unwrap().key.to_string(), "E dorian");
    assert_eq!(finding.verdict, Verdict::Clear);
    assert_eq!(finding.agrees, Some(Agreement::Yes));
    assert_eq!(finding.pattern, Some(NotePattern::SevenNote));
    assert!(finding.open.is_empty() && finding.variants.is_empty());
    assert_eq!(finding.range.unwrap().span().in_words(), "octave and a major third");
    assert_eq!(finding.position, Some(crate::Position::Authentic));
    assert_eq!(finding.strains(&tune(DORIAN, Some("E dorian"))).len(), 2);
    let shares: u32 = finding.notes.iter().map(|n| u32::from(n.share)).sum();
    assert!((9_990..=10_010).contains(&shares), "{shares}");
}

#[test]
fn the_written_home_is_no_evidence() {
    // Seven modes share the signature of two sharps: whichever is written, the answer stays.
    let parent: Key = "D ionian".parse().unwrap();
    let answers: Vec<Vec<Ranked>> = parent
        .relatives()
        .unwrap()
        .iter()
        .map(|key| find(&tune(DORIAN, Some(&key.to_string()))).ranked)
        .collect();
    assert!(answers.windows(2).all(|w| w[0] == w[1]));
    let other = find(&tune(DORIAN, Some("D ionian")));
    assert_eq!(other.agrees, Some(Agreement::SameNotes));
}

#[test]
fn a_signature_is_no_wall() {
    // Written in E minor, with every C sharpened: the notes win, and the page is said to differ.
    let finding = find(&tune(DORIAN, Some("E aeolian")));
    assert_eq!(finding.best().unwrap().key.to_string(), "E dorian");
    assert_eq!(finding.agrees, Some(Agreement::No));
}

#[test]
fn nothing_is_said_of_nothing() {
    let said = |strains: &[&str]| {
        let finding = find(&tune(strains, None));
        assert_eq!(finding.best(), None);
        assert_eq!(finding.verdict, Verdict::None);
        finding.unsaid.unwrap()
    };
    assert_eq!(said(&[]), Unsaid::NoNotes);
    assert_eq!(said(&["z z z z"]), Unsaid::NoNotes);
    assert_eq!(said(&["D4 D4 D5 D4"]), Unsaid::OneNote);
    assert_eq!(said(&["D4 A4 D4 A4"]), Unsaid::TwoNotes);
    let chromatic = "C4 C#4 D4 D#4 E4 F4 F#4 G4 G#4 A4 A#4 B4";
    assert_eq!(said(&[chromatic]), Unsaid::NoCentre);
}

#[test]
fn a_missing_degree_leaves_the_mode_open() {
    let without_sixth: Vec<String> = DORIAN.iter().map(|s| s.replace("C#5", "B4")).collect();
    let strains: Vec<&str> = without_sixth.iter().map(String::as_str).collect();
    let finding = find(&tune(&strains, None));
    assert_eq!(finding.best().unwrap().key.home.to_string(), "E");
    assert_eq!(finding.verdict, Verdict::Open);
    let open = Open { degree: 6, modes: vec![Mode::Dorian, Mode::Aeolian], sounds: 0 };
    assert_eq!(finding.open, [open]);
    assert_eq!(finding.pattern, Some(NotePattern::SixNote));
}

#[test]
fn a_degree_in_two_forms_is_told_with_its_bars() {
    let raised = DORIAN[1].replacen("E5 E5 D5", "E5 E5 D#5", 1);
    let finding = find(&tune(&[DORIAN[0], &raised], None));
    let variant = &finding.variants[0];
    assert_eq!((variant.degree, finding.variants.len()), (7, 1));
    let forms: Vec<String> = variant.forms.iter().map(ToString::to_string).collect();
    assert_eq!(forms, ["D", "D#"]);
    assert_eq!(variant.bars[1], [9]);
}

#[test]
fn what_is_given_is_kept() {
    let dorian = tune(DORIAN, None);
    for home in ["D", "E", "F#", "Bb"] {
        let given = Given { home: Some(home.parse().unwrap()), mode: None };
        let best = find_given(&dorian, given).best().unwrap();
        let wanted: crate::Spelling = home.parse().unwrap();
        assert_eq!(best.key.home.pitch_class(), wanted.pitch_class());
    }
    for mode in Mode::ALL {
        let given = Given { home: None, mode: Some(mode) };
        assert_eq!(find_given(&dorian, given).best().unwrap().key.mode, mode);
    }
    let both = Given { home: Some("D".parse().unwrap()), mode: Some(Mode::Ionian) };
    let finding = find_given(&dorian, both);
    assert_eq!(finding.best().unwrap().chance, Chance::ONE);
    assert!(finding.evidence(&dorian).iter().any(|e| e.over.to_string() == "D ionian"));
}

#[test]
fn contributions_add_up_to_the_score() {
    for signature in [None, Some(2), Some(-3)] {
        let features = Features::of(&View::of(&tune(DORIAN, None)), signature);
        let scores = Model::fitted().scores(&features);
        for (index, score) in scores.iter().enumerate() {
            let parts = Model::fitted().contributions(&features, index);
            assert_eq!(parts.iter().sum::<i64>(), *score);
        }
    }
}

/// The fitted table without one kind of evidence.
fn without(kind: EvidenceKind) -> [[i16; TABLE_LEN]; 7] {
    let mut weights = *Model::fitted().weights();
    let at = BLOCKS.len() * 12;
    for weights in &mut weights {
        for (i, block) in BLOCKS.iter().enumerate() {
            if block.kind == kind {
                weights[i * 12..(i + 1) * 12].fill(0);
            }
        }
        for (i, block) in PARENT_BLOCKS.iter().enumerate() {
            if block.kind == kind {
                weights[at + i] = 0;
            }
        }
        let signature = at + PARENT_BLOCKS.len();
        if kind == EvidenceKind::Signature {
            let own = weights[signature];
            weights[signature..signature + 12].fill(own);
        }
        if kind == EvidenceKind::Usual {
            let own = weights[signature];
            weights[signature..signature + 12].iter_mut().for_each(|w| *w -= own);
            weights[TABLE_LEN - 2..].fill(0);
        }
    }
    weights
}

#[test]
fn without_a_feature_there_is_no_sentence() {
    let dorian = tune(DORIAN, Some("E dorian"));
    assert!(find(&dorian).evidence(&dorian).len() > 4);
    for kind in EvidenceKind::ALL {
        let weights = without(kind);
        let model = Model::new(&weights, super::weights::DIVISOR);
        let finding = find_with(&model, &dorian, Given::default());
        let evidence = evidence_with(&model, &dorian, &finding);
        assert!(evidence.iter().all(|e| e.kind != kind), "{kind:?}");
    }
}

#[test]
fn evidence_points_at_notes_of_the_tune() {
    let dorian = tune(DORIAN, None);
    for e in find(&dorian).evidence(&dorian) {
        assert!(e.weight > 0);
        for event in e.events {
            assert!(dorian.events[event].sound.pitch().is_some(), "{:?}", e.kind);
        }
    }
}

fn any_tune() -> impl Strategy<Value = Vec<Vec<(i32, i32)>>> {
    let note = (-3..9_i32, prop::sample::select(vec![0, 0, 0, 0, 0, 1, -1]));
    let strain = prop::collection::vec(note, 8..40);
    prop::collection::vec(strain, 1..4)
}

fn made(strains: &[Vec<(i32, i32)>]) -> Tune {
    let lines: Vec<String> = strains
        .iter()
        .map(|notes| {
            let pitches = notes.iter().map(|&(degree, alter)| {
                let step = crate::Step::from_index(1 + degree);
                let alter = crate::Alter::new(alter).unwrap();
                let octave = 4 + (1 + degree).div_euclid(7);
                Pitch::new(crate::Spelling::new(step, alter), octave).unwrap().to_string()
            });
            pitches.collect::<Vec<_>>().join(" ")
        })
        .collect();
    tune(&lines.iter().map(String::as_str).collect::<Vec<_>>(), None)
}

#[test]
fn a_long_note_without_metre_is_as_much_work_as_a_short_one() {
    let of = |semibreves: u32| {
        let mut builder = TuneBuilder::new();
        builder.metre(Metre::FREE);
        for name in "D4 F4 A4 G4 F4 E4 D4".split(' ') {
            let long = Length::SEMIBREVE.times(semibreves, 1).unwrap();
            builder.event(Sound::Note(name.parse().unwrap()), long, Span::default()).unwrap();
        }
        builder.finish()
    };
    let (short, long) = (of(20), of(20_000));
    // A piece for each note, and one for what is left of it.
    assert_eq!(View::of(&long).bars.len(), View::of(&short).bars.len());
    assert!(View::of(&long).bars.len() <= 14);
    assert_eq!(find(&long).ranked, find(&short).ranked);
}

fn transposed(tune: &Tune, by: Interval) -> Tune {
    let mut other = tune.clone();
    for event in &mut other.events {
        if let Sound::Note(pitch) = event.sound {
            event.sound = Sound::Note(pitch.transpose(by).unwrap());
        }
    }
    other
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn transposing_the_tune_transposes_the_finding(strains in any_tune(), by in -7..8_i16) {
        let tune = made(&strains);
        let interval = Interval::from_semitones(by);
        let (here, there) = (find(&tune), find(&transposed(&tune, interval)));
        prop_assert_eq!(here.verdict, there.verdict);
        prop_assert_eq!(here.open, there.open);
        prop_assert_eq!(here.position, there.position);
        prop_assert_eq!(here.ranked.len(), there.ranked.len());
        for (a, b) in here.ranked.iter().zip(&there.ranked) {
            prop_assert_eq!(a.chance, b.chance);
            let moved = a.key.home.pitch_class().up(i32::from(by));
            prop_assert_eq!((moved, a.key.mode), (b.key.home.pitch_class(), b.key.mode));
        }
    }

    #[test]
    fn chances_are_chances(strains in any_tune()) {
        let finding = find(&made(&strains));
        let sum: u32 = finding.ranked.iter().map(|r| u32::from(r.chance.ten_thousandths())).sum();
        prop_assert!(sum <= 10_005);
        prop_assert!(finding.ranked.windows(2).all(|w| w[0].chance >= w[1].chance));
        if finding.verdict != Verdict::None {
            prop_assert!(finding.ranked.len() >= 3);
        }
    }

    #[test]
    fn unfolding_changes_no_note(strains in any_tune()) {
        let tune = made(&strains);
        let mut notes: Vec<_> = tune.soundings().map(|s| s.pitch).collect();
        let mut played: Vec<_> = tune
            .play_order()
            .into_iter()
            .flat_map(|bar| tune.events_of(bar))
            .filter_map(|e| e.sound.pitch())
            .collect();
        notes.sort();
        notes.dedup();
        played.sort();
        played.dedup();
        prop_assert_eq!(notes, played);
    }
}

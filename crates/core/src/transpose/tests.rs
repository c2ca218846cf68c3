//! Laws of moving tunes, on every key and interval and on random tunes.

use super::*;
use crate::tune::{KeyForm, Span, TuneBuilder};
use crate::{Length, Mode, PitchClass, Signature};
use proptest::prelude::*;

/// A tune of all degrees of a key, from its home in octave 4 up, with a sharpened fourth, a grace
/// note, a chord note and a chord sign.
fn scale_tune(key: Key) -> Tune {
    let mut builder = TuneBuilder::new();
    builder.key(WrittenKey::from_key(key));
    let home = Pitch::new(key.home, 4).unwrap();
    for degree in 0..7_i32 {
        let above = i16::from(key.mode.semitones()[usize::try_from(degree).unwrap()]);
        let up = Interval::new(i16::try_from(degree).unwrap(), above);
        let pitch = home.transpose(up).unwrap();
        builder.mark(
            MarkKind::Grace { notes: vec![(pitch, Length::QUAVER)], slashed: false },
            Span::default(),
        );
        builder.mark(MarkKind::ChordSign(format!("{}m", pitch.spelling())), Span::default());
        builder.mark(MarkKind::ChordNote(home), Span::default());
        builder.event(Sound::Note(pitch), Length::CROTCHET, Span::default()).unwrap();
    }
    let raised = home.transpose(Interval::new(3, 6)).unwrap();
    builder.event(Sound::Note(raised), Length::CROTCHET, Span::default()).unwrap();
    builder.finish()
}

fn writable_keys() -> impl Iterator<Item = Key> {
    (-14..=14)
        .flat_map(|place| Mode::ALL.map(|m| Key::new(Spelling::from_fifths(place).unwrap(), m)))
        .filter(|key| key.signature().is_ok())
}

fn pitches(tune: &Tune) -> Vec<Pitch> {
    tune.events.iter().filter_map(|e| e.sound.pitch()).collect()
}

#[test]
fn every_key_by_every_number_of_semitones_keeps_mode_and_degrees() {
    let mut count = 0;
    for key in writable_keys() {
        let tune = scale_tune(key);
        for semitones in -12..=12 {
            let moved = Transposition::by_semitones(&tune, semitones).apply(&tune).unwrap();
            let new = moved.key().unwrap();
            let new_key = new.key().unwrap();
            assert_eq!((new_key.mode, new.form), (key.mode, KeyForm::Standard));
            assert_eq!(new.alters, new_key.signature().unwrap().alters());
            // No other name of the same key has fewer sharps or flats.
            let fifths = new_key.fifths();
            assert!(fifths.abs() <= 6, "{key} by {semitones}: {new_key}");
            assert!(fifths.abs() <= (fifths - 12).abs().min((fifths + 12).abs()));
            for (from, to) in pitches(&tune).into_iter().zip(pitches(&moved)) {
                assert_eq!(to.midi(), from.midi() + semitones, "{key} by {semitones}");
                let degree = key.degree_of(from.spelling().step);
                assert_eq!(new_key.degree_of(to.spelling().step), degree);
                // What the old key altered, the new one alters by as much.
                let over = |k: Key, p: Pitch| {
                    p.spelling().alter.semitones()
                        - k.signature().unwrap().alter(p.spelling().step).semitones()
                };
                assert_eq!(over(new_key, to), over(key, from));
            }
            count += 1;
        }
    }
    assert_eq!(count, 105 * 25);
}

#[test]
fn every_key_there_and_back_by_every_plain_interval_is_where_it_was() {
    let mut whole = 0;
    for key in writable_keys() {
        let tune = scale_tune(key);
        for semitones in -13..=13 {
            for by in spellings(semitones) {
                let Ok(there) = Transposition::by_interval(by).apply(&tune) else { continue };
                if there.key().unwrap().home != key.home.transpose(by).ok() {
                    continue;
                }
                let back = Transposition::by_interval(-by).apply(&there).unwrap();
                let plain = there
                    .events
                    .iter()
                    .chain(&tune.events)
                    .all(|e| e.sound.pitch().unwrap().spelling().alter.semitones().abs() < 2);
                if plain {
                    assert_eq!(pitches(&back), pitches(&tune), "{key} by {by}");
                    assert_eq!(back.keys, tune.keys);
                    whole += 1;
                }
            }
        }
    }
    assert!(whole > 2000, "{whole}");
}

#[test]
fn home_goes_the_shorter_way_to_every_other() {
    for from in (-14..=14).map(|f| Spelling::from_fifths(f).unwrap()) {
        for to in (-14..=14).map(|f| Spelling::from_fifths(f).unwrap()) {
            let by = Transposition::to_home(from, to).by();
            assert_eq!(from.transpose(by), Ok(to));
            assert!((-5..=6).contains(&by.semitones()), "{from} to {to}: {by:?}");
        }
    }
    // The same sound under another name moves nothing but the letter.
    let by = Transposition::to_home("Cb".parse().unwrap(), "B".parse().unwrap()).by();
    assert_eq!((by.steps(), by.semitones()), (-1, 0));
}

#[test]
fn only_a_key_that_cannot_be_written_takes_the_other_name() {
    // From D major an augmented fourth leads to G sharp major, which needs eight sharps.
    let tune = scale_tune("D ionian".parse().unwrap());
    let moved = Transposition::by_interval("A4".parse().unwrap()).apply(&tune).unwrap();
    assert_eq!(moved.key().unwrap().key(), Some("Ab ionian".parse().unwrap()));
    let mut builder = TuneBuilder::new();
    for key in ["C ionian", "D ionian", "C ionian"] {
        builder.key(WrittenKey::from_key(key.parse().unwrap()));
        let note = Sound::Note("D4".parse().unwrap());
        builder.event(note, Length::CROTCHET, Span::default()).unwrap();
        builder.event(note, Length::CROTCHET, Span::default()).unwrap();
        builder.tie_last();
    }
    let moved = Transposition::by_interval("A4".parse().unwrap()).apply(&builder.finish()).unwrap();
    let names: Vec<String> = pitches(&moved).iter().map(ToString::to_string).collect();
    // A tie carries the name over the change of key.
    assert_eq!(names.join(" "), "G#4 G#4 G#4 Ab4 Ab4 G#4");
    let homes: Vec<String> = moved.keys.iter().map(|k| k.home.unwrap().to_string()).collect();
    assert_eq!(homes, ["F#", "Ab", "F#"]);
}

#[test]
fn keys_of_every_form_move() {
    let key = |form, home: Option<&str>, alters: [i32; 7]| WrittenKey {
        form,
        home: home.map(|h| h.parse().unwrap()),
        mode: None,
        alters: alters.map(|a| Alter::new(a).unwrap()),
        span: Span::default(),
    };
    let up: Interval = "M2".parse().unwrap();
    let none = key(KeyForm::None, None, [0; 7]);
    assert_eq!(moved_key(&none, up), Some(none));
    // E flat, B flat and F sharp on D become F, C and G sharp on E.
    let explicit = key(KeyForm::Explicit, Some("D"), [0, 0, -1, 1, 0, 0, -1]);
    assert_eq!(
        moved_key(&explicit, up),
        Some(key(KeyForm::Explicit, Some("E"), [0, 0, 0, 0, 1, 0, 0]))
    );
    let pipes = key(KeyForm::PipesBare, None, [1, 0, 0, 1, 0, 0, 0]);
    assert_eq!(moved_key(&pipes, Interval::OCTAVE), Some(pipes));
    let fourth = moved_key(&pipes, "P4".parse().unwrap()).unwrap();
    assert_eq!((fourth.form, fourth.signature()), (KeyForm::Explicit, Signature::new(1).ok()));
    let wild = key(KeyForm::Explicit, None, [2, 0, 0, 2, 0, 0, -2]);
    assert_eq!(moved_key(&wild, "A4".parse().unwrap()), None);
}

#[test]
fn notes_beyond_midi_are_refused() {
    let mut builder = TuneBuilder::new();
    for name in ["G4", "C-1", "G9"] {
        let note = Sound::Note(name.parse().unwrap());
        builder.event(note, Length::CROTCHET, Span::default()).unwrap();
    }
    let tune = builder.finish();
    let there = |semitones| Transposition::by_semitones(&tune, semitones).apply(&tune);
    assert!(there(0).is_ok());
    let pitch = |name: &str| name.parse::<Pitch>().unwrap();
    assert_eq!(there(1), Err(TransposeError::BeyondMidi { pitch: pitch("G9"), midi: 128 }));
    assert_eq!(there(-1), Err(TransposeError::BeyondMidi { pitch: pitch("C-1"), midi: -1 }));
    for semitones in [i16::MIN, i16::MAX] {
        assert!(there(semitones).is_err());
    }
}

#[test]
fn a_name_with_three_signs_takes_the_next_letter() {
    let up: Interval = "A1".parse().unwrap();
    let name = |from: &str, by| moved_pitch(from.parse().unwrap(), by).unwrap().to_string();
    assert_eq!(name("F##4", up), "G#4");
    assert_eq!(name("B##4", up), "C##5");
    assert_eq!(name("Cbb5", -up), "Bbb4");
}

/// A random tune in a random key.
fn any_tune() -> impl Strategy<Value = Tune> {
    let note = (30..90_i32, any::<bool>());
    (0..12_i32, 0..7_usize, proptest::collection::vec(note, 1..40)).prop_map(
        |(home, mode, notes)| {
            let key = Key::written(PitchClass::new(home), Mode::ALL[mode]);
            let mut builder = TuneBuilder::new();
            builder.key(WrittenKey::from_key(key));
            for (midi, tied) in notes {
                let spelling = Spelling::near(PitchClass::new(midi), key.fifths() + 2);
                let natural = Pitch::new(spelling, midi / 12 - 1).unwrap();
                // A name across the octave's edge belongs to the other octave.
                let off = (midi - i32::from(natural.midi())) / 12;
                let pitch = Pitch::new(spelling, midi / 12 - 1 + off).unwrap();
                builder.event(Sound::Note(pitch), Length::QUAVER, Span::default()).unwrap();
                if tied {
                    builder.tie_last();
                }
            }
            builder.finish()
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn there_and_back_is_where_it_was(tune in any_tune(), semitones in -11..=11_i16) {
        let there = Transposition::by_semitones(&tune, semitones);
        let moved = there.apply(&tune).unwrap();
        let back = Transposition::by_interval(-there.by()).apply(&moved).unwrap();
        let plain = |tune: &Tune| pitches(tune).iter().all(|p| {
            p.spelling().alter.semitones().abs() <= 1
        });
        prop_assume!(plain(&moved));
        prop_assert_eq!(back, tune);
    }

    #[test]
    fn the_finding_moves_too(tune in any_tune(), semitones in -6..=6_i16) {
        let moved = Transposition::by_semitones(&tune, semitones).apply(&tune).unwrap();
        let (before, after) = (crate::find::find(&tune), crate::find::find(&moved));
        prop_assert_eq!(before.verdict, after.verdict);
        for (a, b) in before.ranked.iter().zip(&after.ranked) {
            prop_assert_eq!(a.key.mode, b.key.mode);
            prop_assert_eq!(a.chance, b.chance);
            let up = a.key.home.pitch_class().up(i32::from(semitones));
            prop_assert_eq!(up, b.key.home.pitch_class());
        }
    }

    #[test]
    fn folding_brings_every_note_within_an_octave_or_more_of_reach(
        tune in any_tune(),
        low in 40..70_i32,
        size in 11..30_i32,
    ) {
        let reach: Reach = (low..=low + size).collect();
        let moved = Transposition::by_semitones(&tune, 0).folded(reach).apply(&tune).unwrap();
        for (from, to) in pitches(&tune).into_iter().zip(pitches(&moved)) {
            prop_assert!(reach.contains(i32::from(to.midi())));
            prop_assert_eq!(from.spelling(), to.spelling());
            if reach.contains(i32::from(from.midi())) {
                prop_assert_eq!(from, to);
            }
        }
    }
}

//! Every built-in instrument, with every note it has and with none of them.

use super::*;
use modewright_core::Pitch;
use modewright_formats::instrument::builtin;

fn words() -> PictureWords {
    PictureWords { row: "row {}".into(), high: "up".into(), ..PictureWords::default() }
}

fn notes(instrument: &Instrument) -> Vec<Pitch> {
    instrument.notes().iter().map(|note| note.written).collect()
}

#[test]
fn every_note_of_a_tune_is_marked_once_on_every_instrument() {
    for instrument in builtin::all() {
        let all = notes(instrument);
        let home = all.first().map(|pitch| pitch.spelling());
        let tune = TuneNotes { pitches: all.clone(), home };
        let drawing = picture(instrument, &tune, &words());
        let marked = drawing
            .parts
            .iter()
            .filter(|part| matches!(part, Part::Note { role: Role::Home | Role::Used, .. }))
            .count();
        let bent = |note: &&modewright_core::instrument::Playable| {
            note.ways.get(drawing::usual(&note.ways)).is_some_and(|way| way.bend > 0)
        };
        let bent = instrument.notes().iter().filter(bent).count();
        assert_eq!(marked + bent, all.len(), "{}", instrument.id);
    }
}

#[test]
fn nothing_lies_outside_the_picture_and_no_two_places_overlap() {
    for instrument in builtin::all() {
        let tune = TuneNotes { pitches: notes(instrument), home: None };
        let drawing = picture(instrument, &tune, &words());
        let mut boxes: Vec<(i32, i32, i32, i32)> = Vec::new();
        for part in &drawing.parts {
            if let Part::Note { x, y, width, height, name, role } = part {
                let (left, right) = (x - width / 2, x + width / 2);
                let (top, bottom) = (y - height / 2, y + height / 2);
                assert!(left >= 0 && top >= 0, "{} {name}", instrument.id);
                assert!(right <= drawing.width && bottom <= drawing.height, "{}", instrument.id);
                if *role != Role::Other {
                    boxes.push((left, right, top, bottom));
                }
            }
        }
        for (at, one) in boxes.iter().enumerate() {
            for other in &boxes[at + 1..] {
                let apart =
                    one.1 <= other.0 || other.1 <= one.0 || one.3 <= other.2 || other.3 <= one.2;
                assert!(apart, "{}: {one:?} {other:?}", instrument.id);
            }
        }
    }
}

#[test]
fn a_tune_without_notes_marks_nothing() {
    for instrument in builtin::all() {
        let drawing = picture(instrument, &TuneNotes::default(), &words());
        let marked = drawing
            .parts
            .iter()
            .any(|p| matches!(p, Part::Note { role, .. } if *role != Role::Idle));
        assert!(!marked, "{}", instrument.id);
    }
}

#[test]
fn notes_are_named_as_the_tune_spells_them() {
    let whistle = builtin::find("tin-whistle-d").unwrap();
    let tune = TuneNotes { pitches: vec!["Eb4".parse().unwrap()], home: None };
    let drawing = picture(whistle, &tune, &words());
    let named = |part: &Part| matches!(part, Part::Note { name, .. } if name == "E♭");
    assert!(drawing.parts.iter().any(named), "{drawing:?}");
}

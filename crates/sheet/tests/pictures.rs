//! Pictures of instruments: every built-in one with every note it has and with none; pictures that
//! are kept; names that mean harm.

use modewright_core::fingering::{Options, plan};
use modewright_core::instrument::Instrument;
use modewright_core::tune::{Sound, Span, TuneBuilder};
use modewright_core::{Length, Pitch, Tune};
use modewright_formats::instrument::builtin;
use modewright_formats::{ReadOptions, read, source::split};
use modewright_lesson::demo;
use modewright_sheet::picture::{Drawing, Part, Role, file, picture, svg};
use modewright_tests::golden;

fn of_pitches(pitches: impl IntoIterator<Item = Pitch>) -> Tune {
    let mut builder = TuneBuilder::new();
    for pitch in pitches {
        builder.event(Sound::Note(pitch), Length::CROTCHET, Span::default()).expect("short");
    }
    builder.finish()
}

fn every_note(instrument: &Instrument) -> Tune {
    of_pitches(instrument.notes().iter().map(|note| note.written))
}

fn drawn(instrument: &Instrument, tune: &Tune) -> Drawing {
    let home = tune.soundings().next().map(|note| note.pitch.spelling());
    picture(instrument, &plan(tune, instrument, Options::default()), home)
}

fn spots(drawing: &Drawing) -> impl Iterator<Item = (&(i32, i32), &(i32, i32), &str, Role)> {
    drawing.parts.iter().filter_map(|part| match part {
        Part::Spot { at, size, name, role } => Some((at, size, name.as_str(), *role)),
        _ => None,
    })
}

#[test]
fn every_note_of_a_tune_is_marked_where_it_is_played_on_every_instrument() {
    for instrument in builtin::all() {
        let tune = every_note(instrument);
        let path = plan(&tune, instrument, Options::default());
        let played = path.notes.iter().filter(|note| note.way.is_some()).count();
        let drawing = drawn(instrument, &tune);
        let marked =
            spots(&drawing).filter(|(.., role)| matches!(role, Role::Home | Role::Used)).count();
        assert_eq!(marked, played, "{}", instrument.id);
        assert!(spots(&drawing).any(|(.., role)| role == Role::Home), "{}", instrument.id);
    }
}

#[test]
fn nothing_lies_outside_the_picture_and_no_two_places_overlap() {
    for instrument in builtin::all() {
        for tune in [every_note(instrument), Tune::default()] {
            let drawing = drawn(instrument, &tune);
            let mut boxes: Vec<[i32; 4]> = Vec::new();
            for ((x, y), (w, h), name, _) in spots(&drawing) {
                let found = [x - w / 2, y - h / 2, x + w / 2, y + h / 2];
                let [left, top, right, bottom] = found;
                assert!(left >= 0 && top >= 0, "{} {name}", instrument.id);
                let inside = right <= drawing.width && bottom <= drawing.height;
                assert!(inside, "{} {name} {found:?}", instrument.id);
                boxes.push(found);
            }
            for (at, one) in boxes.iter().enumerate() {
                for other in &boxes[at + 1..] {
                    let apart = one[2] <= other[0]
                        || other[2] <= one[0]
                        || one[3] <= other[1]
                        || other[3] <= one[1];
                    assert!(apart, "{}: {one:?} {other:?}", instrument.id);
                }
            }
        }
    }
}

#[test]
fn a_tune_without_notes_marks_nothing() {
    for instrument in builtin::all() {
        let drawing = drawn(instrument, &Tune::default());
        assert!(spots(&drawing).all(|(.., role)| role == Role::Idle), "{}", instrument.id);
        assert!(!drawing.parts.is_empty(), "{}", instrument.id);
    }
}

#[test]
fn the_legend_tells_every_sign_that_is_there_and_no_other() {
    for instrument in builtin::all() {
        let drawing = drawn(instrument, &every_note(instrument));
        let told = |part: &str| drawing.legend.iter().any(|line| line.contains(part));
        let has = |wanted| spots(&drawing).any(|(.., role)| role == wanted);
        assert_eq!(told("Outlined"), has(Role::Other), "{}", instrument.id);
        assert_eq!(told("Dashed"), has(Role::Idle), "{}", instrument.id);
        let plus = drawing.parts.iter();
        let mut plus = plus.filter(|p| matches!(p, Part::Words { text, .. } if text == "+"));
        assert_eq!(told("upper register"), plus.next().is_some(), "{}", instrument.id);
    }
}

#[test]
fn notes_are_named_as_the_tune_spells_them() {
    let whistle = builtin::find("tin-whistle-d").unwrap();
    let tune = of_pitches(["Eb4".parse().unwrap(), "D#5".parse().unwrap()]);
    let drawing = drawn(whistle, &tune);
    let names: Vec<&str> = spots(&drawing).map(|(_, _, name, _)| name).collect();
    assert_eq!(names, ["E♭", "D♯"]);
}

#[test]
fn pictures_of_every_kind_are_kept() {
    let tune = read(&split(demo::first().abc).next().unwrap(), &ReadOptions::default()).tune;
    for id in ["tin-whistle-d", "melodeon-d-g", "fiddle", "lever-harp-34", "voice-alto"] {
        let instrument = builtin::find(id).unwrap_or_else(|_| panic!("{id}"));
        golden(&format!("picture-{id}.svg"), &file(&drawn(instrument, &tune)));
    }
}

#[test]
fn names_in_a_file_of_ones_own_stay_text() {
    let bad = "<script>\"&'";
    let own = r#"{"format": 1, "id": "quay-box", "name": "NAME", "rows": [{"place": "NAME"},
        {"place": "b"}], "buttons": [{"row": 0, "button": 1, "push": "D4", "draw": "E4"}]}"#
        .replace("NAME", "<script>\\\"&'");
    let own = modewright_formats::instrument::read(&own).unwrap();
    assert!(own[0].name == bad);
    let tune = of_pitches(["D4".parse().unwrap()]);
    for picture in [svg(&drawn(&own[0], &tune)), file(&drawn(&own[0], &tune))] {
        assert!(!picture.contains("<script") && picture.contains("&lt;script&gt;&quot;&amp;&#39;"));
    }
}

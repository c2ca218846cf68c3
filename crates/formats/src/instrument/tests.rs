use super::*;
use proptest::prelude::*;

#[test]
fn every_built_in_file_is_read() {
    let mut ids: Vec<&str> = Vec::new();
    for (name, text) in builtin::FILES {
        let read = read(text).unwrap_or_else(|error| panic!("{name}.json: {error}"));
        assert!(!read.is_empty());
    }
    for it in builtin::all() {
        assert!(!ids.contains(&it.id.as_str()), "{} twice", it.id);
        ids.push(&it.id);
        assert!(!it.source.is_empty(), "{} has no source", it.id);
        assert!(!it.notes().is_empty() && !it.styles.is_empty());
        assert!(it.notes().iter().all(|note| !note.ways.is_empty()));
        let (low, high) = it.comfortable.expect("a comfortable span");
        for note in [low, high] {
            assert!(it.ease(note.midi()).is_some(), "{}: {note} is not there", it.id);
        }
    }
}

#[test]
fn instruments_are_found_by_their_names_and_near_misses_offered() {
    for it in builtin::all() {
        assert_eq!(builtin::find(&it.id).map(|it| &it.id), Ok(&it.id));
        assert_eq!(builtin::find(&it.name.to_uppercase()).map(|it| &it.id), Ok(&it.id));
    }
    for (name, id) in [("harmonica low", "harmonica-low-f"), ("DAd", "dulcimer-dad")] {
        assert_eq!(builtin::find(name).map(|it| it.id.as_str()), Ok(id));
    }
    for (name, near) in [
        ("whistle", "tin-whistle-d"),
        ("tin whistel", "tin-whistle-d"),
        ("low whistle", "low-whistle-d"),
        ("fidle", "fiddle"),
        ("concertina", "english-concertina-48"),
        ("anglo", "anglo-20-c-g"),
    ] {
        let found = builtin::find(name).unwrap_err();
        assert!(found.contains(&near), "{name}: {found:?}");
        assert!(found.len() <= 5);
    }
    // What is like none of them brings none.
    for name in ["", "nix", "geige", &"x".repeat(100_000)] {
        assert_eq!(builtin::find(name).unwrap_err(), [""; 0], "{name:.9}");
    }
}

/// Every instrument, by every step of a semitone up to an octave, and back.
#[test]
fn a_shift_there_and_back_changes_nothing() {
    for it in builtin::all() {
        for semitones in -12..=12 {
            let by = modewright_core::Interval::from_semitones(semitones);
            let moved = it.shifted(by).unwrap();
            for (note, other) in it.notes().iter().zip(moved.notes()) {
                assert_eq!(other.written - note.written, by, "{}", it.id);
                assert_eq!(other.ways, note.ways);
            }
            let back = moved.shifted(-by).unwrap();
            assert_eq!((back.notes(), &back.strings), (it.notes(), &it.strings));
            assert_eq!((&back.rows, back.comfortable), (&it.rows, it.comfortable));
        }
    }
}

#[test]
fn manners_of_playing_have_ids_of_their_own() {
    let file = |styles: &str| {
        format!(
            r#"{{ "format": 1, "id": "a", "name": "a", "range": ["A3", "D5"], "styles": [{styles}] }}"#
        )
    };
    let style = |id: &str| format!(r#"{{ "id": "{id}", "costs": {{}} }}"#);
    for (styles, told) in [
        (style("Plain"), "line 1, column 82: styles[0].id: `Plain` is not an id"),
        (
            format!("{}, {}", style("x"), style("x")),
            "line 1, column 110: styles[1].id: the id `x` stands twice",
        ),
    ] {
        assert_eq!(read(&file(&styles)).unwrap_err().to_string(), told);
    }
    // None at all are the usual one.
    assert_eq!(read(&file("")).unwrap()[0].styles.len(), 1);
}

proptest! {
    /// Whatever is done to a file, it is read or refused with a place in it.
    #[test]
    fn damaged_files_are_refused_with_a_place(
        file in 0..builtin::FILES.len(),
        at in any::<prop::sample::Index>(),
        length in 0..40_usize,
        with in ".{0,3}",
    ) {
        let text = builtin::FILES[file].1;
        let start = text.floor_char_boundary(at.index(text.len()));
        let end = text.ceil_char_boundary((start + length).min(text.len()));
        let damaged = format!("{}{with}{}", &text[..start], &text[end..]);
        if let Err(error) = read(&damaged) {
            let lines: Vec<&str> = damaged.split('\n').collect();
            let line = lines.get(error.line as usize - 1);
            prop_assert!(line.is_some(), "{}", error);
            prop_assert!(error.column as usize <= line.unwrap().chars().count() + 1, "{}", error);
        }
    }
}

//! What each action does to the state.

use super::past::PAST;
use super::*;

const BOOK: &str = "M:6/8\n\nX:1\nT:Ebb\nK:D\nDEF|\n\nX:2\nT:Flood\nK:G\nGAB|\n";

fn open(state: &State, bytes: &[u8]) -> State {
    state.after(Action::Open { name: "quay.abc".into(), bytes: bytes.into() })
}

#[test]
fn nothing_typed_is_lost() {
    let typed = State::empty().after(Action::Type("D E F# my own".into()));
    for action in [
        Action::Demo("five-oars"),
        Action::Clear,
        Action::Open { name: "a.abc".into(), bytes: BOOK.as_bytes().into() },
        Action::Open { name: "a.txt".into(), bytes: b"G A B".as_slice().into() },
        Action::Type("pasted over it".into()),
    ] {
        let after = typed.after(action.clone());
        assert_ne!(after.text, typed.text, "{action:?}");
        let back = after.after(Action::Undo);
        assert_eq!(back.text, typed.text, "{action:?}");
        assert_eq!(back.after(Action::Redo).text, after.text, "{action:?}");
    }
}

#[test]
fn typing_a_line_is_one_step_back() {
    let mut state = State::empty();
    for end in 1..=5 {
        state = state.after(Action::Type("D E F"[..end].into()));
    }
    state = state.after(Action::Undo);
    assert_eq!(&*state.text, "");
    assert!(!state.can_undo() && state.can_redo());
}

#[test]
fn one_key_is_one_character_within_a_line() {
    for (old, new, one) in [
        ("ab", "aéb", true),
        ("aéb", "ab", true),
        ("aab", "aaab", true),
        ("abc", "axc", true),
        ("ab", "a\nb", false),
        ("a\nb", "ab", false),
        ("ab", "axyb", false),
        ("ab", "ba", false),
        ("", "x", true),
    ] {
        assert_eq!(is_one_key(old, new), one, "{old:?} {new:?}");
    }
}

#[test]
fn a_file_with_many_tunes_opens_as_a_list() {
    let state = open(&State::empty(), BOOK.as_bytes());
    assert_eq!(state.book.as_ref().map(|b| b.tunes.len()), Some(2));
    assert!(state.text.starts_with("X:1"));
    assert_eq!(&*state.defaults, "M:6/8\n");
    let second = state.after(Action::Choose(1));
    assert!(second.text.starts_with("X:2"));
    let beyond = second.after(Action::Choose(7));
    assert_eq!(beyond.text, second.text);
    assert!(second.after(Action::CloseBook).text.starts_with("X:2"));
}

#[test]
fn tunes_typed_one_after_the_other_stay_in_the_field() {
    let state = State::empty().after(Action::Type(BOOK.into()));
    assert!(state.book.is_none());
    assert_eq!(&*state.text, BOOK);
    assert_eq!(state.after(Action::Choose(1)).chosen, 1);
}

#[test]
fn a_whole_book_that_is_pasted_becomes_a_list() {
    let many: String = (0..3000).map(|i| format!("X:{i}\nK:D\nDEFG ABcd|\n\n")).collect();
    let state = State::first_visit().after(Action::Type(many));
    assert_eq!(state.book.as_ref().map(|b| b.tunes.len()), Some(3000));
    assert!(state.text.len() < 100);
}

#[test]
fn what_is_no_tune_is_refused_and_the_text_stays() {
    let state = State::first_visit();
    for (bytes, code) in [(b"MThd\0\0\0\x06".as_slice(), "other-file-type"), (b"a\0b", "not-text")]
    {
        let after = open(&state, bytes);
        assert_eq!(after.text, state.text);
        let Some((_, Refused::NotTunes(kind))) = after.refused else { panic!("{code}") };
        assert_eq!(kind.code(), code);
    }
    let large = open(&state, &vec![b'A'; LARGEST_FILE + 1]);
    assert_eq!(large.refused.map(|r| r.1), Some(Refused::TooLarge));
}

#[test]
fn line_ends_of_every_kind_become_plain() {
    let state = open(&State::empty(), b"X:1\r\nK:D\rDEF|\n");
    assert_eq!(&*state.text, "X:1\nK:D\nDEF|\n");
}

#[test]
fn a_new_text_brings_the_wheel_back_to_the_answer_and_typing_leaves_it() {
    let key = "E lydian".parse().unwrap();
    let turned = State::first_visit().after(Action::Turn(key));
    assert_eq!(turned.turned, Some(key));
    assert_eq!(turned.after(Action::Type("D E".into())).turned, Some(key));
    assert_eq!(turned.after(Action::Demo("five-oars")).turned, None);
    assert_eq!(turned.after(Action::Follow).turned, None);
}

#[test]
fn a_pointed_note_is_forgotten_with_the_text() {
    let state = State::first_visit().after(Action::Point(Some(3)));
    assert_eq!(state.after(Action::Type("D E".into())).pointed, None);
    assert_eq!(state.after(Action::Reason(Some(0))).pointed, None);
    assert_eq!(state.after(Action::Point(None)).pointed, None);
}

fn wrote(state: &State, now: &str) -> State {
    let edit = crate::lesson::Edit { place: "A/".into(), was: "x".into(), now: now.into() };
    state.after(Action::Lesson(LessonAction::Write(edit)))
}

#[test]
fn a_link_is_opened_and_what_was_typed_can_be_gone_back_to() {
    let mine = wrote(&State::empty().after(Action::Type("X:1\nT:Mine\nK:D\nD|\n".into())), "m");
    let mut held = State::empty().after(Action::Type("X:1\nT:Theirs\nK:G\nG|\n".into()));
    held = wrote(&held, "t").after(Action::Metre("6/8"));
    let opened = mine.after(Action::Link(Box::new(held.clone())));
    assert_eq!((&opened.text, opened.given), (&held.text, held.given));
    assert_eq!(opened.lesson.edits(), held.lesson.edits());
    let back = opened.after(Action::Undo);
    assert_eq!((&back.text, back.lesson.edits()), (&mine.text, mine.lesson.edits()));
    let told = mine.after(Action::BadLink("cut"));
    assert_eq!((&told.text, told.told.len()), (&mine.text, 1));
}

#[test]
fn words_go_with_their_tune_through_typing_pasting_and_going_back() {
    let ebb = wrote(&State::empty().after(Action::Type("X:1\nT:Ebb\nK:D\nD|\n".into())), "e");
    let typed = ebb.after(Action::Type("X:1\nT:Ebbs\nK:D\nD|\n".into()));
    assert_eq!(typed.lesson.edits(), ebb.lesson.edits(), "another title, letter by letter");
    let longer = ebb.after(Action::Type("X:1\nT:Ebb\nK:D\nD|E F G A|\n".into()));
    assert_eq!(longer.lesson.edits(), ebb.lesson.edits(), "a paste into the tune");
    let other = ebb.after(Action::Type("X:1\nT:Flood\nK:G\nG|\n".into()));
    assert!(other.lesson.edits().is_empty(), "another tune");
    assert_eq!(other.after(Action::Undo).lesson.edits(), ebb.lesson.edits());
    let letters = wrote(&State::empty().after(Action::Type("D E F".into())), "l");
    let more = letters.after(Action::Type("D E F G A B".into()));
    assert_eq!(more.lesson.edits(), letters.lesson.edits(), "letters have no title");
}

#[test]
fn what_is_said_of_letters_goes_with_their_text() {
    let letters = State::empty().after(Action::Type("D E F".into())).after(Action::Metre("6/8"));
    assert_eq!(letters.after(Action::Type("D E F G".into())).given.metre, "6/8");
    let demo = letters.after(Action::Demo("five-oars"));
    assert_eq!(demo.given, Given::default());
    assert_eq!(demo.after(Action::Undo).given.metre, "6/8");
    assert_eq!(letters.after(Action::Metre("99/1")).given.metre, "");
}

#[test]
fn a_file_of_another_program_is_one_step_and_says_what_was_odd() {
    let told: Rc<[Rc<str>]> = Rc::from([Rc::from("rounded")]);
    let action = Action::Made { name: "q.mid".into(), abc: "X:1\nK:D\nD|\n".into(), told };
    let made = State::first_visit().after(action);
    assert_eq!((made.told.len(), &made.origin), (1, &Origin::File("q.mid".into())));
    assert!(made.after(Action::Type("X:1\nK:D\nDE|\n".into())).told.is_empty());
    assert_eq!(made.after(Action::Undo).text, State::first_visit().text);
}

#[test]
fn a_move_changes_the_text_and_goes_back() {
    let state = State::first_visit();
    let moved = |from: &str| {
        let action = InstrumentAction::Moved {
            from: from.into(),
            to: "X:1\nK:G\nGAB|\n".into(),
            told: "Moved.".into(),
        };
        state.after(Action::Instrument(action))
    };
    let after = moved(&state.text);
    assert_eq!((&*after.text, &after.origin), ("X:1\nK:G\nGAB|\n", &Origin::Typed));
    assert_eq!(after.instrument.told.as_deref(), Some("Moved."));
    let back = after.after(Action::Undo);
    assert_eq!((&back.text, &back.instrument.told), (&state.text, &None));
    // What was moved is no longer there.
    assert_eq!(moved("D E F").text, state.text);
}

#[test]
fn with_a_first_instrument_its_row_is_shown() {
    let choose = |id: &str| Action::Instrument(InstrumentAction::Choose(id.into()));
    let state = State::first_visit().after(choose("fiddle"));
    assert!(state.rows.has(RowKind::Fingering));
    let without = state.after(Action::Row(RowKind::Fingering, false));
    assert!(!without.after(choose("voice-alto")).rows.has(RowKind::Fingering));
}

#[test]
fn the_past_is_bounded() {
    let mut state = State::empty();
    for i in 0..300 {
        state = state.after(Action::Type("x\n".repeat(i * 2 % 97)));
    }
    assert!(state.past.len() <= PAST);
}

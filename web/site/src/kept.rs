//! What is kept on the device from one visit to the next, and what a link holds.

use crate::lesson::{self, Edit};
use crate::state::{Origin, Rows, State};
use modewright_components::player::Settings;
use modewright_components::wheel::Layout;

/// Where it is kept.
pub const PLACE: &str = "modewright";

/// Before the name of a tune: where the words are kept that were changed in its lesson. Each tune
/// has a place of its own, so that two windows with two tunes do not write over each other.
pub const WORDS: &str = "modewright words ";

/// The first line of what is kept; another form gets another number.
const FORM: &str = "modewright 1";

/// The text to keep: a few named lines, an empty line, then the header of the book and the tune.
#[must_use]
pub fn write(state: &State) -> String {
    let origin = match &state.origin {
        Origin::File(name) => format!("file {}\n", name.replace(['\n', '\r'], " ")),
        _ => String::new(),
    };
    written(state, &(origin + &state.instrument.kept()), &state.instrument.own_text, "")
}

/// The text of a link: the same with the changed words of the lesson, and without the name of a
/// file.
#[must_use]
pub fn write_link(state: &State) -> String {
    written(state, "", "", &write_words(state.lesson.edits()))
}

fn written(state: &State, device: &str, own: &str, words: &str) -> String {
    let layout = match state.layout {
        Layout::Fifths => "fifths",
        Layout::Pitch => "pitch",
    };
    let demo = match &state.origin {
        Origin::Demo(id) => format!("demo {id}\n"),
        _ => String::new(),
    };
    let (metre, pickup) = (state.given.metre, state.given.pickup);
    let (chosen, defaults, text) = (state.chosen, &state.defaults, &state.text);
    let (length, rows, lesson) = (defaults.len(), state.rows.number(), state.lesson.choices());
    let sound = state.sound.line();
    let words_length = words.len();
    format!(
        "{FORM}\nlayout {layout}\nchosen {chosen}\nrows {rows}\nsound {sound}\n{device}{demo}metre {metre}\npickup {pickup}\nlesson {lesson}\n\
         header {length}\nwords {words_length}\n\n{own}{defaults}{words}{text}"
    )
}

/// Changed words as text: three lines a passage.
#[must_use]
pub fn write_words(edits: &[Edit]) -> String {
    let mut out = String::new();
    for line in edits.iter().flat_map(|edit| [&edit.place, &edit.was, &edit.now]) {
        for sign in line.chars() {
            match sign {
                '\\' => out.push_str("\\\\"),
                '\n' => out.push_str("\\n"),
                other => out.push(other),
            }
        }
        out.push('\n');
    }
    out
}

/// Words from such text; what is not whole is left out.
#[must_use]
pub fn read_words(text: &str) -> Vec<Edit> {
    let mut lines = text.split_terminator('\n').map(|line| {
        let mut out = String::with_capacity(line.len());
        let mut signs = line.chars();
        while let Some(sign) = signs.next() {
            match sign {
                '\\' => out.extend(signs.next().map(|sign| if sign == 'n' { '\n' } else { sign })),
                other => out.push(other),
            }
        }
        out
    });
    std::iter::from_fn(|| {
        Some(Edit { place: lines.next()?, was: lines.next()?, now: lines.next()? })
    })
    .collect()
}

/// The state that a link holds; `None` for bytes that were not written by [`write_link`].
#[must_use]
pub fn read_link(bytes: Vec<u8>) -> Option<State> {
    String::from_utf8(bytes).ok().and_then(|text| read(&text))
}

/// The state that was kept; `None` for anything that was not written by [`write()`].
#[must_use]
pub fn read(kept: &str) -> Option<State> {
    let (head, body) = kept.split_once("\n\n")?;
    let mut lines = head.lines();
    if lines.next() != Some(FORM) {
        return None;
    }
    let mut state = State::empty();
    let (mut length, mut words, mut own) = (0, 0, 0);
    for line in lines {
        let (name, value) = line.split_once(' ')?;
        match name {
            "layout" if value == "pitch" => state.layout = Layout::Pitch,
            "chosen" => state.chosen = value.parse().ok()?,
            "rows" => state.rows = Rows::from_number(value.parse().ok()?),
            "sound" => state.sound = Settings::from_line(value)?,
            "instrument" => state.instrument.id = value.into(),
            "style" => state.instrument.style = value.into(),
            "mine" => state.instrument.mine.push(value.into()),
            "own" => own = value.parse().ok()?,
            "header" => length = value.parse().ok()?,
            "words" => words = value.parse().ok()?,
            "lesson" => state.lesson.choose(value),
            "metre" => state.given.set_metre(value),
            "pickup" => state.given.set_pickup(value),
            "file" => state.origin = Origin::File(value.into()),
            "demo" => {
                let demo = modewright_lesson::demo::TUNES.iter().find(|demo| demo.id == value);
                state.origin = demo.map_or(Origin::Typed, |demo| Origin::Demo(demo.id));
            }
            _ => {}
        }
    }
    state.instrument.own_text = body.get(..own)?.into();
    let body = body.get(own..)?;
    state.defaults = body.get(..length)?.into();
    let (words, text) = body.get(length..)?.split_at_checked(words)?;
    state.text = text.into();
    let name = lesson::name(text, state.chosen);
    state.lesson = state.lesson.with_words(vec![(name.clone(), read_words(words).into())]);
    state.lesson.turned_to(name);
    Some(state)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Choice, LessonAction};
    use crate::state::Action;
    use proptest::prelude::*;

    fn lived_in() -> State {
        let mut state = State::first_visit();
        state.text = "X:1\nT:Mine\nK:D\nD E F# \"quoted\" \\ <b>\u{1F41F}\n".into();
        state.defaults = "M:6/8\n".into();
        state.layout = Layout::Pitch;
        state.rows = Rows::from_number(5);
        state.sound = Settings { percent: 60, loudness: 35, ..Settings::default() };
        state.instrument.id = "fiddle".into();
        state.instrument.style = "plain".into();
        state.instrument.mine = vec!["fiddle".into(), "low-whistle-d".into()];
        state.instrument.own_text = "{\n\n\"id\": 1}".into();
        state.given.set_metre("6/8");
        state.given.set_pickup("1/8");
        state.lesson.turned_to(lesson::name(&state.text, 0));
        let edit = Edit { place: "A/Bar 1".into(), was: "x\\n".into(), now: "In,\nout.\n".into() };
        state
            .after(Action::Lesson(LessonAction::Choose(Choice::Values, 1)))
            .after(Action::Lesson(LessonAction::Write(edit)))
    }

    #[test]
    fn what_is_kept_comes_back() {
        let mut state = lived_in();
        let back = read(&write(&state)).unwrap();
        assert_eq!(
            (&back.text, &back.defaults, back.layout, back.given),
            (&state.text, &state.defaults, state.layout, state.given)
        );
        assert_eq!(back.sound, state.sound);
        assert_eq!(back.instrument, state.instrument);
        assert_eq!((&back.origin, back.rows), (&state.origin, state.rows));
        assert_eq!(back.lesson.choices(), state.lesson.choices());
        state.origin = Origin::File("odd\n\nname.abc".into());
        let back = read(&write(&state)).unwrap();
        assert_eq!(back.origin, Origin::File("odd  name.abc".into()));
        assert_eq!(back.text, state.text);
    }

    #[test]
    fn a_link_holds_the_words_and_no_name_of_a_file() {
        let mut state = lived_in();
        let back = read(&write_link(&state)).unwrap();
        assert_eq!(back.lesson.edits(), state.lesson.edits());
        assert_eq!((&back.text, back.lesson.choices()), (&state.text, state.lesson.choices()));
        state.origin = Origin::File("private-name.abc".into());
        assert!(!write_link(&state).contains("private"));
    }

    #[test]
    fn what_others_wrote_is_left_alone() {
        for odd in [
            "",
            "null",
            "{}",
            "modewright 2\n\nX",
            "modewright 1\nheader 9\n\nX",
            "modewright 1\nwords 9\n\nX",
            "modewright 1\nheader 1\n\né",
            "\u{0}\n\n",
        ] {
            assert!(read(odd).is_none(), "{odd}");
        }
    }

    proptest! {
        #[test]
        fn words_come_back_whatever_they_are(all in prop::collection::vec(("(?s).{0,9}", "(?s).{0,9}", "(?s).{0,9}"), 0..5)) {
            let edits: Vec<Edit> =
                all.into_iter().map(|(place, was, now)| Edit { place, was, now }).collect();
            prop_assert_eq!(read_words(&write_words(&edits)), edits);
        }

        #[test]
        fn no_text_breaks_the_reader(head in "(?s).{0,40}", body in "(?s).{0,40}") {
            let _ = read_words(&body);
            let _ = read(&format!("{FORM}\n{head}\n\n{body}"));
        }
    }
}

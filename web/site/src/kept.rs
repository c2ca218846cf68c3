//! What is kept on the device from one visit to the next.

use crate::state::{Origin, Rows, State};
use modewright_components::player::Settings;
use modewright_components::wheel::Layout;

/// Where it is kept.
pub const PLACE: &str = "modewright";

/// The first line of what is kept; another form gets another number.
const FORM: &str = "modewright 1";

/// The text to keep: a few named lines, an empty line, then the header of the book and the tune.
#[must_use]
pub fn write(state: &State) -> String {
    let layout = match state.layout {
        Layout::Fifths => "fifths",
        Layout::Pitch => "pitch",
    };
    let origin = match &state.origin {
        Origin::Typed => String::new(),
        Origin::Demo(id) => format!("demo {id}\n"),
        Origin::File(name) => format!("file {}\n", name.replace(['\n', '\r'], " ")),
    };
    let (chosen, defaults, text) = (state.chosen, &state.defaults, &state.text);
    let (length, rows, sound) = (defaults.len(), state.rows.number(), state.sound.line());
    format!(
        "{FORM}\nlayout {layout}\nchosen {chosen}\nrows {rows}\nsound {sound}\n{origin}header {length}\n\n{defaults}{text}"
    )
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
    let mut length = 0;
    for line in lines {
        let (name, value) = line.split_once(' ')?;
        match name {
            "layout" if value == "pitch" => state.layout = Layout::Pitch,
            "chosen" => state.chosen = value.parse().ok()?,
            "rows" => state.rows = Rows::from_number(value.parse().ok()?),
            "sound" => state.sound = Settings::from_line(value)?,
            "header" => length = value.parse().ok()?,
            "file" => state.origin = Origin::File(value.into()),
            "demo" => {
                let demo = modewright_lesson::demo::TUNES.iter().find(|demo| demo.id == value);
                state.origin = demo.map_or(Origin::Typed, |demo| Origin::Demo(demo.id));
            }
            _ => {}
        }
    }
    state.defaults = body.get(..length)?.into();
    state.text = body.get(length..)?.into();
    Some(state)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_kept_comes_back() {
        let mut state = State::first_visit();
        state.text = "D E F# \"quoted\" \\ <b>\u{1F41F}\n".into();
        state.defaults = "M:6/8\n".into();
        state.layout = Layout::Pitch;
        state.rows = Rows::from_number(5);
        state.sound = Settings { percent: 60, loudness: 35, ..Settings::default() };
        let back = read(&write(&state)).unwrap();
        assert_eq!(
            (&back.text, &back.defaults, back.layout),
            (&state.text, &state.defaults, state.layout)
        );
        assert_eq!(back.sound, state.sound);
        assert_eq!((back.origin, back.rows), (state.origin.clone(), state.rows));
        state.origin = Origin::File("odd\n\nname.abc".into());
        let back = read(&write(&state)).unwrap();
        assert_eq!(back.origin, Origin::File("odd  name.abc".into()));
        assert_eq!(back.text, state.text);
    }

    #[test]
    fn what_others_wrote_is_left_alone() {
        for odd in
            ["", "null", "{}", "modewright 2\n\nX", "modewright 1\nheader 9\n\nX", "\u{0}\n\n"]
        {
            assert!(read(odd).is_none(), "{odd}");
        }
    }
}

//! What is kept on the device from one visit to the next.

use crate::state::{Origin, State};
use modewright_components::wheel::Layout;
use serde::{Deserialize, Serialize};

/// Where it is kept.
pub const PLACE: &str = "modewright";

#[derive(Serialize, Deserialize)]
struct Kept {
    version: u32,
    text: String,
    defaults: String,
    chosen: usize,
    layout: String,
    demo: Option<String>,
    file: Option<String>,
}

/// The text to keep.
#[must_use]
pub fn write(state: &State) -> String {
    let kept = Kept {
        version: 1,
        text: state.text.to_string(),
        defaults: state.defaults.to_string(),
        chosen: state.chosen,
        layout: match state.layout {
            Layout::Fifths => "fifths",
            Layout::Pitch => "pitch",
        }
        .to_owned(),
        demo: match &state.origin {
            Origin::Demo(id) => Some((*id).to_owned()),
            _ => None,
        },
        file: match &state.origin {
            Origin::File(name) => Some(name.to_string()),
            _ => None,
        },
    };
    serde_json::to_string(&kept).unwrap_or_default()
}

/// The state that was kept; `None` for anything that was not written by [`write()`].
#[must_use]
pub fn read(kept: &str) -> Option<State> {
    let kept: Kept = serde_json::from_str(kept).ok()?;
    if kept.version != 1 {
        return None;
    }
    let demo = |id: &String| modewright_lesson::demo::TUNES.iter().find(|d| d.id == id);
    let origin = match (kept.demo.as_ref().and_then(demo), kept.file) {
        (Some(demo), _) => Origin::Demo(demo.id),
        (None, Some(name)) => Origin::File(name.into()),
        (None, None) => Origin::Typed,
    };
    let mut state = State::empty();
    state.text = kept.text.into();
    state.defaults = kept.defaults.into();
    state.chosen = kept.chosen;
    state.layout = if kept.layout == "pitch" { Layout::Pitch } else { Layout::Fifths };
    state.origin = origin;
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
        let back = read(&write(&state)).unwrap();
        assert_eq!(
            (&back.text, &back.defaults, back.layout),
            (&state.text, &state.defaults, state.layout)
        );
        assert_eq!(back.origin, state.origin);
    }

    #[test]
    fn what_others_wrote_is_left_alone() {
        for odd in ["", "null", "{}", "{\"version\":2}", "[1]", "\u{0}"] {
            assert!(read(odd).is_none(), "{odd}");
        }
    }
}

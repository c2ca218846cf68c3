//! Labels of the elements that the page does not have.

use crate::sound;
use modewright_components::labels as shared;
use modewright_lesson::words::Advice;

/// Name of the box to ask in.
pub const ASK: &str = "A tune, as ABC or as plain letters";
/// What the empty box shows.
pub const ASK_HINT: &str = "Letters: D E F# G A B c# d\nor a whole tune in ABC.";
/// The verdict on an empty box.
pub const ASK_EMPTY: &str = "Write or paste a tune, and its home and mode stand here.";
/// The button that brings the wheel.
pub const SHOW_WHEEL: &str = "Show it on the wheel";
/// The button that puts it away.
pub const HIDE_WHEEL: &str = "Put the wheel away";
/// A part that did not come.
pub const NOT_LOADED: &str = "A part of this could not be loaded. It comes from where this page comes from: is there a network?";
/// An element without a tune.
pub const NO_TUNE: &str = "There is no tune in this element. Its own text is the tune, in ABC.";

/// The button that turns the wheel back.
#[must_use]
pub fn back_to(key: &str) -> String {
    format!("Back to {key}")
}

/// A tag that no element has.
#[must_use]
pub fn unknown(name: &str) -> String {
    format!(
        "<{name}> is none of the elements: modewright-wheel, modewright-tune, modewright-ask, modewright-lesson"
    )
}

/// An attribute with a value that it does not take.
#[must_use]
pub fn not_allowed(attribute: &str, value: &str, allowed: &[&str]) -> Advice {
    let hint = match allowed {
        [others @ .., last] if !others.is_empty() => format!("{} or {last}", others.join(", ")),
        all => all.join(", "),
    };
    Advice {
        message: format!("`{value}` is not understood in the attribute {attribute}"),
        hint: format!("write {hint}"),
    }
}

/// Signs of ABC that the page took for tags.
#[must_use]
pub fn markup() -> Advice {
    Advice {
        message: "part of this tune was taken for tags of the page".to_owned(),
        hint: "write &lt; for < and &amp; for & in the tune".to_owned(),
    }
}

/// What was found and the way out, as sentences.
#[must_use]
pub fn told(advice: &Advice) -> String {
    told_of(&advice.message, &advice.hint)
}

/// The same of two texts; the way out may be empty.
#[must_use]
pub fn told_of(message: &str, hint: &str) -> String {
    use modewright_components::view::sentence;
    if hint.is_empty() {
        sentence(message)
    } else {
        format!("{} {}", sentence(message), sentence(hint))
    }
}

/// What a part says that could not do what it was asked; or that there is no part.
#[must_use]
pub fn not_loaded(why: &Advice) -> String {
    if why.hint.is_empty() { NOT_LOADED.to_owned() } else { told(why) }
}

/// What stands at a button that lets something sound.
#[derive(Clone, Copy, Debug)]
pub struct HearWords {
    /// The button, at rest.
    pub play: &'static str,
    /// The button, while it sounds.
    pub stop: &'static str,
    /// Name of the control of loudness.
    pub loudness: &'static str,
    /// Name of the choice of speeds, where there is one.
    pub pace: Option<&'static str>,
}

/// At the wheel.
pub const OF_KEY: HearWords =
    HearWords { play: shared::HEAR, stop: shared::QUIET, loudness: shared::LOUDNESS, pace: None };
/// Under a staff.
pub const OF_TUNE: HearWords = HearWords { play: "Play the tune", pace: Some("Speed"), ..OF_KEY };

impl HearWords {
    /// What is said of a sound that is told in the numbers of [`sound`].
    #[must_use]
    pub const fn said(&self, told: i32) -> &'static str {
        match told {
            sound::LOADS => "One moment: what makes the sound is on its way.",
            sound::SILENT => shared::SILENT,
            sound::ABSENT => NOT_LOADED,
            sound::LONG => "It would sound for more than a quarter of an hour.",
            _ => "",
        }
    }
}

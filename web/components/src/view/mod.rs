//! From what the engine found to what the components are given. Plain data, no browser; the page
//! and the elements show the same.

mod chances;
mod range;
mod staff;
mod wheel;

pub use chances::{chance_bars, told};
pub use range::{RangeView, range};
pub use staff::{can_be_shown, note_told, staff_picture};
pub use wheel::{WheelView, wheel_of_key, wheel_of_tune};

/// Words as a sentence: a capital and a full stop.
///
/// # Examples
///
/// ```
/// use modewright_components::view::sentence;
///
/// assert_eq!(sentence("an octave"), "An octave.");
/// assert_eq!(sentence("It is done."), "It is done.");
/// ```
#[must_use]
pub fn sentence(words: &str) -> String {
    let stop = if words.ends_with('.') { "" } else { "." };
    let mut sentence = format!("{words}{stop}");
    if let Some(first) = sentence.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    sentence
}

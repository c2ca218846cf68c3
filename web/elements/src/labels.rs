//! Labels of the elements that the page does not have.

use modewright_lesson::words::Advice;

/// Name of the box to ask in.
pub const ASK: &str = "A tune, as ABC or as plain letters";
/// What the empty box shows.
pub const ASK_HINT: &str = "Write letters: D E F# G A B c# d\nor paste a tune in ABC.";
/// The verdict on an empty box.
pub const ASK_EMPTY: &str = "Write or paste a tune, and its home and mode stand here.";
/// The button that brings the wheel.
pub const SHOW_WHEEL: &str = "Show it on the wheel";
/// The button that puts it away.
pub const HIDE_WHEEL: &str = "Put the wheel away";
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

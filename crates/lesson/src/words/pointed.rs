//! One note of a tune in words.

use super::{pitch, pitch_name, role};
use crate::walk::{Values, Wording};
use modewright_core::count::BarCount;
use modewright_core::{Key, Tune};

/// A note that somebody points at: its name, where it lies, what it is in the key, its length and
/// its count. `None` for an index at which no note or rest stands.
///
/// # Examples
///
/// ```
/// use modewright_core::count::{CountOptions, count};
/// use modewright_formats::{ReadOptions, read, source::split};
/// use modewright_lesson::walk::{Values, Wording};
/// use modewright_lesson::words::pointed;
///
/// let text = split("X:1\nM:4/4\nL:1/8\nK:Edor\nE3F z4|").next().unwrap();
/// let tune = read(&text, &ReadOptions::default()).tune;
/// let counts = count(&tune, CountOptions::default());
/// let told = |at| {
///     let key = "E dorian".parse().ok();
///     pointed(&tune, at, key, &counts, Values::British, &Wording::english())
/// };
/// assert_eq!(
///     told(0).unwrap(),
///     "E4: the E just above middle C, home; dotted crotchet; bar 1, count 1 (2)."
/// );
/// assert_eq!(told(2).unwrap(), "Rest: minim; bar 1, count (3) (4).");
/// // Behind the last note there is nothing to tell.
/// assert_eq!(told(3), None);
/// ```
#[must_use]
pub fn pointed(
    tune: &Tune,
    index: usize,
    key: Option<Key>,
    counts: &[BarCount],
    values: Values,
    wording: &Wording,
) -> Option<String> {
    let event = tune.events.get(index)?;
    let mut told = match event.sound.pitch() {
        Some(at) => {
            let role = key.map(|key| format!(", {}", role(at.spelling(), key)));
            format!("{}: {}{}", pitch_name(at), pitch(at), role.unwrap_or_default())
        }
        None => "Rest".to_owned(),
    };
    let mut parts: Vec<String> = Vec::new();
    parts.extend(values.name(wording, event.length, false));
    let bar = tune.bar_number(event);
    let counts = counts.iter().flat_map(|bar| &bar.events).filter(|count| count.index == index);
    let counts: Vec<String> = counts
        .map(|count| match count.struck {
            true => count.syllable.to_string(),
            false => format!("({})", count.syllable),
        })
        .collect();
    let place = if bar == 0 { "pickup".to_owned() } else { format!("bar {bar}") };
    parts.push(match counts.as_slice() {
        [] => place,
        counts => format!("{place}, count {}", counts.join(" ")),
    });
    let joiner = if event.sound.pitch().is_some() { "; " } else { ": " };
    told.push_str(joiner);
    told.push_str(&parts.join("; "));
    told.push('.');
    Some(told)
}

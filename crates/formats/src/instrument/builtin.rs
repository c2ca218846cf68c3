//! The built-in instruments, and names for them.

use super::packed::unpack;
use crate::piece::holds;
use modewright_core::instrument::Instrument;
use std::sync::LazyLock;

pub use super::files::FILES;

/// What the build script read in the files.
static PACKED: &[u8] = include_bytes!(concat!(env!("OUT_DIR"), "/instruments"));

static ALL: LazyLock<Vec<Instrument>> = LazyLock::new(|| unpack(PACKED));

/// All built-in instruments, family by family.
///
/// # Examples
///
/// ```
/// use modewright_formats::instrument::builtin;
///
/// assert!(builtin::all().iter().any(|instrument| instrument.id == "tin-whistle-d"));
/// ```
#[must_use]
pub fn all() -> &'static [Instrument] {
    &ALL
}

/// A built-in instrument by its id, or by its name or a part of both that fits one alone.
///
/// # Examples
///
/// ```
/// use modewright_formats::instrument::builtin::find;
///
/// assert_eq!(find("tin-whistle-d").unwrap().name, "tin whistle in D");
/// assert_eq!(find("Fiddle").unwrap().id, "fiddle");
/// // What fits none or several gives the ids that come nearest.
/// assert!(find("tin whistel").unwrap_err().contains(&"tin-whistle-d"));
/// assert!(find("geige").unwrap_err().is_empty());
/// ```
///
/// # Errors
///
/// The nearest ids, the nearest first.
pub fn find(name: &str) -> Result<&'static Instrument, Vec<&'static str>> {
    let wanted = plain(name);
    let exact =
        |named: fn(&Instrument) -> &String| all().iter().find(|it| plain(named(it)) == wanted);
    if let Some(found) = exact(|it| &it.id).or_else(|| exact(|it| &it.name)) {
        return Ok(found);
    }
    let held = holding(&wanted);
    match held.as_slice() {
        [one] => Ok(one),
        [] => Err(alike(&wanted)),
        several => Err(several.iter().take(OFFERED).map(|it| it.id.as_str()).collect()),
    }
}

/// How many ids are offered.
const OFFERED: usize = 5;

/// The instruments whose id or name holds every word of a text.
fn holding(wanted: &str) -> Vec<&'static Instrument> {
    let words: Vec<&str> = wanted.split(' ').filter(|word| !word.is_empty()).collect();
    let holds = |it: &&Instrument| {
        let (id, name) = (plain(&it.id), plain(&it.name));
        words.iter().all(|word| holds(&id, word) || holds(&name, word))
    };
    if words.is_empty() { Vec::new() } else { all().iter().filter(holds).collect() }
}

/// The ids that are written most like a text, half of it at the least; a key that is left out does
/// not count.
fn alike(wanted: &str) -> Vec<&'static str> {
    let distance = |it: &Instrument| {
        let whole = strsim::levenshtein(&plain(&it.id), wanted);
        let family = strsim::levenshtein(&plain(&it.family), wanted);
        u32::try_from(whole.min(family)).unwrap_or(u32::MAX)
    };
    let mut near: Vec<(u32, &str)> =
        all().iter().map(|it| (distance(it), it.id.as_str())).collect();
    modewright_core::order::by_number(&mut near, |&(distance, _)| distance);
    let half = u32::try_from(wanted.chars().count() / 2).unwrap_or(u32::MAX);
    near.into_iter().filter(|(away, _)| *away <= half).take(OFFERED).map(|(_, id)| id).collect()
}

/// The longest name that is looked at, in characters.
const LONGEST: usize = 60;

/// A name in small letters with single spaces for what is between its words.
fn plain(name: &str) -> String {
    let mut plain = String::new();
    for c in name.trim().chars().take(LONGEST) {
        match c {
            '-' | '_' | ' ' | '/' | ',' => {
                if !plain.ends_with(' ') {
                    plain.push(' ');
                }
            }
            c => plain.push(c.to_ascii_lowercase()),
        }
    }
    plain
}

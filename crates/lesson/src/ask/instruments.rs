//! Which instruments are meant.

use super::Refusal;
use crate::words;
use modewright_core::instrument::Instrument;
use modewright_formats::instrument::builtin;

/// The instruments that are named: the person's own before those that are built in. Without a
/// name, all of the person's own. `lists` is what lists them all, for whoever named none of them.
///
/// # Examples
///
/// ```
/// use modewright_lesson::ask::instruments;
///
/// let list = "instrumentList()";
/// assert_eq!(instruments("on", &[], &["Fiddle"], list).unwrap()[0].id, "fiddle");
/// let refused = instruments("on", &[], &["fidle"], list).unwrap_err();
/// assert_eq!(refused.code, "no-such-instrument");
/// assert!(refused.advice.hint.ends_with("`instrumentList()` lists them all"));
/// ```
///
/// # Errors
///
/// [`Refusal`] for a name that fits none or several, with those that come nearest.
pub fn instruments(
    option: &'static str,
    own: &[Instrument],
    named: &[&str],
    lists: &str,
) -> Result<Vec<Instrument>, Refusal> {
    if named.is_empty() {
        return Ok(own.to_vec());
    }
    let find = |name: &&str| {
        let name = name.trim();
        let mine = own.iter().find(|it| it.id == name);
        mine.map_or_else(|| builtin::find(name), Ok).cloned().map_err(|near| Refusal {
            option,
            code: "no-such-instrument",
            advice: words::unknown_instrument(name, &near, lists),
        })
    };
    named.iter().map(find).collect()
}

/// The one instrument that is meant.
///
/// # Errors
///
/// [`Refusal`] for a name that fits none, and where none or several are meant.
pub fn instrument(
    option: &'static str,
    own: &[Instrument],
    name: Option<&str>,
    lists: &str,
) -> Result<Instrument, Refusal> {
    let named: Vec<&str> = name.into_iter().collect();
    let mut found = instruments(option, own, &named, lists)?;
    if found.len() > 1 {
        let ids: Vec<&str> = found.iter().map(|it| it.id.as_str()).collect();
        let advice = words::several_own(option, &ids);
        return Err(Refusal { option, code: "several-instruments", advice });
    }
    found.pop().ok_or_else(|| {
        let advice = words::no_instrument();
        Refusal { option, code: "no-instrument", advice }
    })
}

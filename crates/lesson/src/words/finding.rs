//! The verdict in words.

use super::{
    key::{key_name, mode_name, note, signature, story},
    list::{bars, choice, list},
    ordinal,
};
use modewright_core::find::{
    Agreement, Chance, Finding, Given, Open, Ranked, StrainFinding, Unsaid, Variant, Verdict,
};
use modewright_core::tune::WrittenKey;
use modewright_core::{Key, Mode};

/// The verdict in one line: "Most likely E Dorian: the notes of D major with E as home."
#[must_use]
pub fn headline(finding: &Finding) -> String {
    let Some(best) = finding.best() else {
        return finding.unsaid.map_or_else(String::new, |why| unsaid(why).to_owned());
    };
    let name = key_name(best.key);
    let story = story(best.key);
    let story = story.strip_prefix(&format!("{name} is ")).unwrap_or(&story);
    match finding.verdict {
        Verdict::Open => {
            let home = note(best.key.home);
            let modes = open_modes(&finding.open, best.key);
            format!(
                "Home is {home}; the mode is open: {}. Read here as {name}, {story}.",
                choice(&modes)
            )
        }
        Verdict::Doubtful => match finding.ranked.get(1) {
            Some(second) => {
                format!("Perhaps {name}, {story}; {} comes near.", key_name(second.key))
            }
            None => format!("Perhaps {name}, {story}."),
        },
        _ if best.chance.ten_thousandths() >= 9_500 => format!("{name}: {story}."),
        _ => format!("Most likely {name}: {story}."),
    }
}

/// How sure, in words and in a number: "almost certain (97 in 100)".
#[must_use]
pub fn how_sure(chance: Chance) -> String {
    let word = match chance.ten_thousandths() {
        9_900.. => "as good as certain",
        9_500.. => "almost certain",
        8_500.. => "very likely",
        7_000.. => "likely",
        5_000.. => "more likely than not",
        _ => "one guess among several",
    };
    let number = in_hundred(chance);
    format!("{word} ({number})")
}

/// How sure, with what was known beforehand: nothing is judged of an answer that was given whole.
#[must_use]
pub fn sure_of(best: Ranked, given: Given) -> String {
    let chance = how_sure(best.chance);
    match (given.home, given.mode) {
        (None, None) => chance,
        (Some(home), None) => format!("{chance}, given {} as home", note(home)),
        (None, Some(mode)) => format!("{chance}, given that the mode is {}", mode_name(mode)),
        (Some(_), Some(_)) => {
            "you named home and mode, so neither is judged; the reasons say what speaks for them \
             and what against"
                .to_owned()
        }
    }
}

/// A chance as a number: "97 in 100"; never a full hundred or nothing that is not one.
pub(crate) fn in_hundred(chance: Chance) -> String {
    let hundredths = (u32::from(chance.ten_thousandths()) + 50) / 100;
    match (hundredths, chance.ten_thousandths()) {
        (100, ..10_000) => "over 99 in 100".to_owned(),
        (0, _) => "under 1 in 100".to_owned(),
        (n, _) => format!("{n} in 100"),
    }
}

/// Why nothing can be said.
#[must_use]
pub const fn unsaid(why: Unsaid) -> &'static str {
    match why {
        Unsaid::NoNotes => "No note sounds here, so there is no home and no mode.",
        Unsaid::OneNote => "One note alone has no mode: any scale could hold it.",
        Unsaid::TwoNotes => "Two notes are too few to tell a home and a mode.",
        Unsaid::NoCentre => {
            "The notes turn about no centre: no home stands out, so naming a mode would be a guess."
        }
    }
}

/// The modes that are left open, brightest first.
fn open_modes(open: &[Open], key: Key) -> Vec<String> {
    let named = |mode: &Mode| open.iter().any(|o| o.modes.contains(mode)) || *mode == key.mode;
    let modes = Mode::BY_BRIGHTNESS.iter().filter(|m| named(m));
    modes.map(|m| mode_name(*m).to_owned()).collect()
}

/// What a missing degree leaves open, one sentence a degree.
#[must_use]
pub fn open(open: &Open, key: Key) -> String {
    let home = note(key.home);
    let forms: Vec<String> = open
        .modes
        .iter()
        .filter_map(|mode| {
            let scale = Key::new(key.home, *mode).scale().ok()?;
            let form = scale.get(usize::from(open.degree).checked_sub(1)?)?;
            Some(format!("{} for {home} {}", note(*form), mode_name(*mode)))
        })
        .collect();
    let heard = match open.sounds {
        0 => "never sounds",
        _ => "sounds only once, in passing",
    };
    format!(
        "The {} note above {home} {heard}; it would be {}.",
        ordinal(open.degree),
        choice(&forms)
    )
}

/// A degree with two forms, and where they stand.
#[must_use]
pub fn variants(variant: &Variant) -> String {
    let forms: Vec<String> = variant
        .forms
        .iter()
        .zip(&variant.bars)
        .map(|(form, numbers)| format!("{} in {}", note(*form), bars(numbers)))
        .collect();
    let count = if forms.len() == 2 { "two".to_owned() } else { forms.len().to_string() };
    format!("The {} comes in {count} forms: {}.", ordinal(variant.degree), list(&forms))
}

/// Whether the page agrees, as a sentence; `None` where the page states no key.
#[must_use]
pub fn agreement(agrees: Option<Agreement>, written: &WrittenKey, found: Key) -> Option<String> {
    let page = key_name(written.key()?);
    let name = key_name(found);
    Some(match agrees? {
        Agreement::Yes => format!("The page says {page} too."),
        Agreement::SameNotes => format!("The page says {page}: the same notes with another home."),
        Agreement::No => {
            let theirs =
                written.signature().map_or_else(String::new, |s| format!(", {}", signature(s)));
            let ours = found
                .signature()
                .map_or_else(|_| String::new(), |s| format!(" ({})", signature(s)));
            format!("The page says {page}{theirs}; the notes say {name}{ours}.")
        }
    })
}

/// Strains that differ from the tune as a whole, as a sentence; `None` where all agree.
#[must_use]
pub fn strains(strains: &[StrainFinding], whole: Key) -> Option<String> {
    let sure = |s: &&StrainFinding| s.best.key != whole && s.best.chance.ten_thousandths() >= 6_000;
    let told: Vec<String> = strains
        .iter()
        .filter(sure)
        .map(|s| {
            format!(
                "strain {} (bars {} to {}) looks like {}",
                s.label,
                s.bars.0.max(1),
                s.bars.1,
                key_name(s.best.key)
            )
        })
        .collect();
    (!told.is_empty()).then(|| format!("On its own, {}.", list(&told)))
}

//! Options that are one word of a few.

use super::Refusal;
use crate::walk::Values;
use crate::words::{self, NoteNames};
use modewright_core::count::{Compound, Detail, Simple, Uneven};

/// What is chosen by a word.
pub trait Choice: Copy + 'static {
    /// The words, and what each stands for.
    const WORDS: &'static [(&'static str, Self)];
}

impl Choice for Values {
    const WORDS: &'static [(&'static str, Self)] =
        &[("british", Self::British), ("american", Self::American)];
}

impl Choice for NoteNames {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("letters", Self::Letters),
        ("german", Self::German),
        ("fixed", Self::Fixed),
        ("movable", Self::Movable),
    ];
}

impl Choice for Simple {
    const WORDS: &'static [(&'static str, Self)] =
        &[("quarters", Self::Quarters), ("halves", Self::Halves)];
}

impl Choice for Compound {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("parts", Self::Parts),
        ("la-li", Self::LaLi),
        ("la-li-ta", Self::LaLiTa),
        ("and-a", Self::AndA),
    ];
}

impl Choice for Uneven {
    const WORDS: &'static [(&'static str, Self)] =
        &[("beats", Self::Beats), ("parts", Self::Parts)];
}

impl Choice for Detail {
    const WORDS: &'static [(&'static str, Self)] = &[("beats", Self::Beats), ("full", Self::Full)];
}

/// What a word stands for.
///
/// # Examples
///
/// ```
/// use modewright_lesson::ask::choose;
/// use modewright_lesson::walk::Values;
///
/// assert_eq!(choose("values", "american"), Ok(Values::American));
/// let refused = choose::<Values>("values", "dutch").unwrap_err();
/// assert_eq!(refused.advice.hint, "choose british or american");
/// ```
///
/// # Errors
///
/// [`Refusal`] with the words that can be chosen.
pub fn choose<T: Choice>(option: &'static str, word: &str) -> Result<T, Refusal> {
    let found = T::WORDS.iter().find(|(name, _)| *name == word.trim());
    found.map(|(_, choice)| *choice).ok_or_else(|| {
        let words: Vec<&str> = T::WORDS.iter().map(|(name, _)| *name).collect();
        Refusal { option, code: "not-a-choice", advice: words::not_a_choice(word, &words) }
    })
}

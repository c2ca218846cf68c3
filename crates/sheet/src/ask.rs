//! The words that ask for a sheet, and what is refused.

use crate::{MarkedNote, Paper, RowKind, Sheet};
use modewright_core::Tune;
use modewright_lesson::ask::Choice;
use modewright_lesson::words::{self, Advice};

impl Sheet {
    /// What a reader is told where a tune has more notes than a sheet is made for
    /// ([`Sheet::MAX_NOTES`]); `None` where it has not.
    #[must_use]
    pub fn too_long(tune: &Tune) -> Option<Advice> {
        let is_long = tune.events.len() > Self::MAX_NOTES;
        is_long.then(|| words::too_long_to_print(Self::MAX_NOTES))
    }
}

impl Choice for RowKind {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("count", Self::Count),
        ("degree", Self::Degree),
        ("note", Self::Note),
        ("solfa", Self::Solfa),
        ("fingering", Self::Fingering),
        ("bellows", Self::Bellows),
        ("words", Self::Words),
    ];
}

impl Choice for MarkedNote {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("home", Self::Home),
        ("lowest", Self::Lowest),
        ("highest", Self::Highest),
        ("forms", Self::Forms),
    ];
}

impl Choice for Paper {
    const WORDS: &'static [(&'static str, Self)] =
        &[("a4", Self::A4), ("letter", Self::LETTER), ("phone", Self::PHONE)];
}

/// The rows of a sheet for which none are asked.
pub const USUAL_ROWS: [RowKind; 3] = [RowKind::Count, RowKind::Note, RowKind::Words];

//! The words that ask for a sheet.

use crate::{MarkedNote, Paper, RowKind};
use modewright_lesson::ask::Choice;

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

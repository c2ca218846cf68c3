//! Which home note and which mode is a tune in?
//!
//! A score over 12 home notes × 7 modes, as a sum of contributions that each say something a
//! musician would say: how long each degree sounds, what the strains end on, where the tune
//! lies. The chances follow from the scores, and the evidence *is* the contributions.
//!
//! The path: `view` lays out the notes, `ends` finds where strains come to rest, `features`
//! measures them relative to every home (`notes` counts, `triads` looks at bars, `share` scales), `weights` holds the
//! fitted table, `model` adds up (`circle` for all homes at once), `facts` says what the notes
//! leave open, `names` what notes and keys are called, `verdict` puts it together, and `asked`
//! tells more: what spoke for the answer (`evidence`), and what each strain would be.

mod asked;
mod circle;
mod ends;
mod evidence;
mod facts;
mod features;
mod finding;
mod model;
mod names;
mod notes;
mod share;
mod triads;
mod verdict;
mod view;
mod weights;

pub use evidence::{Evidence, EvidenceKind, Fact};
pub use facts::{Agreement, NotePattern, NoteShare, Open, Variant};
pub use finding::{Chance, Finding, Ranked, StrainFinding, Unsaid, Verdict};
pub use model::Given;
pub use verdict::{find, find_given};
pub(crate) use view::look;

/// What fitting and evaluation need of the model, and nobody else: see `tests/src/bin`.
pub mod inside {
    pub use super::features::{BLOCKS, Block, Features, PARENT_BLOCKS, SCALE, TABLE_LEN};
    pub use super::model::{Model, TIES};
    pub use super::view::View;
}

#[cfg(test)]
mod tests;

//! The readers under attack, one file each.

mod abc;
mod instrument;
mod letters;
#[cfg(feature = "link")]
mod link;
mod midi;
mod musicxml;
mod mxl;

use crate::Target;

/// All of them. The order is that of reports.
pub const TARGETS: &[Target] = &[
    abc::TARGET,
    letters::TARGET,
    musicxml::TARGET,
    mxl::TARGET,
    midi::TARGET,
    instrument::TARGET,
    #[cfg(feature = "link")]
    link::TARGET,
];

/// The target of a name.
#[must_use]
pub fn named(name: &str) -> Option<&'static Target> {
    TARGETS.iter().find(|target| target.name == name)
}
